import { type Design, exampleDesign, exampleDesigns, hallAt, readDesign, solveAt, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { behindAfter } from '../src/pulse/coming-back.js'
import { fallOf } from '../src/pulse/pulse.js'
import { lagAtZero } from '../src/pulse/sensor-lag.js'
import { onLeads } from './shared.js'

const place = { charge: 0.5, celsius: 25, age: 1 }

/** The hot knife with one capacitor, its current read so long after the load has come; the sensor answers with 100 kHz, through 1 kohm and 10 nF. */
const readAfter = (wait: string, capacitance: string, inductance: string, more: Partial<Design['hall']> = {}): Design =>
  onLeads(
    inductance,
    capacitance,
    { frequency: '100 Hz', duty: 0.5 },
    {
      hall: {
        ...exampleDesign.hall,
        sensor: { ...exampleDesign.hall.sensor, bandwidth: '100 kHz', outputResistance: 0 },
        filter: { resistance: '1 kohm', capacitance: '10 nF' },
        wait,
        ...more,
      },
    },
  )

const poles = [1 / (2 * Math.PI * 100e3), 1e3 * 10e-9] as const

function told(given: Design) {
  const design = readDesign(given)
  const solved = solveAt(design, place)
  const { choice } = hallAt(design, solved, walkOf(design, { charges: 2 }).firmware)
  const of = (name: string) => choice.further?.find((one) => one.name === name)
  return {
    solved,
    share: Number(of('sensor behind a moving supply')?.share ?? 0),
    volts: Number(of('zero of the sensor behind a moving supply')?.voltage ?? 0),
    atZero: Number(of('zero read behind a moving supply')?.voltage ?? 0),
  }
}

interface Loop {
  readonly V: number
  readonly R_s: number
  readonly R_b: number
  readonly L: number
  readonly C: number
}

/**
 * What two poles one behind the other show of the rail of a capacitor behind a source, over that rail, less 1, in small steps of time: from rest
 * under a load, or from under the load without one.
 */
function shown({ V, R_s, R_b, L, C }: Loop, time: number, isLoaded: boolean): number {
  const sag = (V * R_b) / (R_s + R_b)
  let [u, i] = isLoaded ? [V, 0] : [sag, 0]
  let [y, z] = [u, u]
  const dt = 1e-8
  for (let t = 0; t < time; t += dt) {
    if (L === 0) i = (V - u) / R_s
    else i += ((V - u - R_s * i) * dt) / L
    u += ((i - (isLoaded ? u / R_b : 0)) * dt) / C
    y += ((u - y) * dt) / poles[0]
    z += ((y - z) * dt) / poles[1]
  }
  return z / u - 1
}

describe('a sensor that follows its supply, behind a rail that moves', () => {
  it.each([
    ['0.3 ms', 3e-4],
    ['0.15 ms', 1.5e-4],
  ])('shows it higher as it falls, by no more than is said: %s after the load has come', (wait, time) => {
    for (const C of [0.2e-3, 0.5e-3, 1e-3, 2e-3]) {
      const { solved, share, volts } = told(readAfter(wait, `${C} F`, '0 uH'))
      const { rest, source, load, switch: on } = solved
      const R_b = load.lower + on.lower
      const error = shown({ V: rest.nominal, R_s: source.resistance.upper, R_b, L: 0, C }, time, true)
      expect(error).toBeGreaterThan(0)
      expect(share).toBeGreaterThan(error)
      // The bound holds for anything between the least and the most of a capacitor: somewhere there it lags most.
      if (C >= 0.5e-3) expect(share).toBeLessThan(3 * error + 3e-3)
      expect(volts).toBeCloseTo(0.33 * share, 9)
    }
  })

  it('shows it on either side where it rings', () => {
    const { solved, share } = told(readAfter('70 us', '22 uF ±20 %', '1.2 uH'))
    const { rest, source, load, switch: on } = solved
    let most = 0
    for (const C of [0.8, 0.9, 1, 1.1, 1.2])
      for (const time of [70e-6, 73e-6, 76e-6, 79e-6, 82e-6]) {
        const R_b = load.upper + on.upper
        const loop = { V: rest.nominal, R_s: source.resistance.lower, R_b, L: 1.2e-6, C: C * 22e-6 }
        most = Math.max(most, Math.abs(shown(loop, time, true)))
      }
    expect(most).toBeGreaterThan(0.01)
    expect(share).toBeGreaterThan(most)
  })

  it('reads a zero too low while the rail comes back', () => {
    const given = readAfter('0.3 ms', '1 mF', '0 uH', { calibration: 'zero each time' })
    const { solved, atZero } = told(given)
    const { rest, source, load, switch: on } = solved
    const R_b = load.lower + on.lower
    const error = shown({ V: rest.nominal, R_s: source.resistance.upper, R_b, L: 0, C: 1e-3 }, 3e-4, false)
    expect(error).toBeLessThan(0)
    expect(atZero).toBeGreaterThan(-0.33 * error)
    expect(atZero).toBeLessThan(-4 * 0.33 * error + 1e-3)
  })

  it('is nothing once the rail stands, nor for a sensor that keeps its zero whatever the supply', () => {
    expect(told(readAfter('4 ms', '22 uF', '20 nH')).share).toBe(0)
    const { sensor } = readAfter('0.15 ms', '1 mF', '0 uH').hall
    // A mean is one of the rail with the load on and off: it is off by the whole step, less the share that the load is on.
    const mean = told(readAfter('0.15 ms', '1 mF', '0 uH', { reading: 'averaged' }))
    const { rest, rail } = mean.solved
    expect(mean.share).toBeGreaterThan(0.5 * (rest.nominal / rail.nominal - 1))
    const fixed = { ...sensor, output: 'fixed' as const }
    expect(told(readAfter('0.15 ms', '1 mF', '0 uH', { sensor: fixed })).share).toBe(0)
  })
})

describe('a sensor behind a regulator', () => {
  it('sees neither the fall of the main rail nor its ring while the regulator stands', () => {
    const { mat } = exampleDesigns
    const design = readDesign({ ...mat, hall: { ...mat.hall, wait: '20 us' } })
    const walk = walkOf(design, { charges: 2 })
    const solved = walk.solve({ charge: { from: 1, to: 1 }, ...walk.around })
    expect(walk.firmware.ring(solved.source.resistance).current.behind).toBeGreaterThan(1e-3)
    expect(hallAt(design, solved, walk.firmware).choice.further).toBeUndefined()
  })
})

describe('a zero that is read while its rail comes back', () => {
  it('lags as behind one that rises straight where the source holds its current, or capacitors stand one behind the other', () => {
    const zeroed = readAfter('0.3 ms', '1 mF', '0 uH', { calibration: 'zero each time' })
    const source = { kind: 'port', voltage: '4 V ±2 %', leadResistance: '50 mohm', currentLimit: '4 A' }
    const { board: _, ...bare } = zeroed
    const { insertion: __, ...decoupling } = zeroed.decoupling
    const held = { ...bare, decoupling, supply: { source } } as Design
    const back = { time: 1e-4, steps: 1 }
    const since = 2e-4
    /** As a share of what the rail falls by. */
    const late = (given: Design, steps: number) => {
      const design = readDesign(given)
      const solved = solveAt(design, place)
      const ring = { below: 0, above: 0, behind: 0 }
      const told = lagAtZero(design, solved, { since, back: { ...back, steps }, ring })
      return { told: told / fallOf(design, solved).first, lag: design.parts.sensorLag }
    }
    const { told: once, lag } = late(zeroed, 1)
    for (const { told } of [late(held, 1), late(zeroed, 2), late(held, 2)]) expect(told).toBeGreaterThan(once * 1.01)
    expect(late(held, 1).told).toBeCloseTo(behindAfter(since, back, lag, true), 9)
    expect(once).toBeCloseTo(behindAfter(since, back, lag, false), 9)
  })
})
