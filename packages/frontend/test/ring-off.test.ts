import { type Design, dividerAt, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { monitorOf } from '../src/answer/monitor.js'
import { powerOf } from '../src/answer/power/power.js'
import { hallAt } from '../src/blocks/hall-at.js'
import { onLeads } from './shared.js'

interface Loop {
  readonly V: number
  readonly R_s: number
  readonly L: number
  readonly C: number
  readonly R_b: number
  readonly period: number
  readonly duty: number
  /** The most that the source gives, A. */
  readonly limit?: number
}

/**
 * Rail of a loop that is pulsed from rest on, by Kirchhoff's laws in steps of the midpoint rule: told with the time since the load came, and
 * since it went, of each of the first pulses.
 */
function follow(loop: Loop, pulses: number, tell: (isOn: boolean, time: number, rail: number) => void) {
  const { V, R_s, L, C, R_b, period, duty, limit = Number.POSITIVE_INFINITY } = loop
  const quickest = Math.min(Math.sqrt(L * C), L / R_s, R_b * C)
  let [i, v] = [0, V]
  for (let pulse = 0; pulse < 2 * pulses; pulse++) {
    const isOn = pulse % 2 === 0
    const time = (isOn ? duty : 1 - duty) * period
    const G = isOn ? 1 / R_b : 0
    const steps = Math.ceil(Math.max(100, (40 * time) / quickest))
    const h = time / steps
    for (let n = 0; n < steps; n++) {
      tell(isOn, n * h, v)
      const i_mid = Math.min(limit, i + (h / 2) * ((V - v - R_s * i) / L))
      const v_mid = v + (h / 2) * ((i - G * v) / C)
      i = Math.min(limit, i + h * ((V - v_mid - R_s * i_mid) / L))
      v += h * ((i_mid - G * v_mid) / C)
    }
  }
}

const factors = [0.8, 0.87, 0.93, 1, 1.07, 1.13, 1.2]

/** Lowest and highest of the rail from a time after the load has gone on to twice that, over boards and pulses. */
function afterLoad(design: ReturnType<typeof readDesign>, capacitance: number, since: number) {
  const walk = walkOf(design, { charges: 2 })
  const { solved } = walk.over({ charge: { from: 1, to: 0 }, ...walk.around })
  const { source, rest, load, switch: on } = solved
  const { frequency, duty } = design.pwm
  let [below, above] = [0, 0]
  for (const factor of factors)
    for (const R_s of [source.resistance.lower, source.resistance.upper]) {
      const loop = { V: 1, R_s, L: source.inductance.upper, C: factor * capacitance, R_b: load.lower + on.lower }
      follow({ ...loop, period: 1 / frequency, duty: duty.from }, 4, (isOn, time, rail) => {
        if (isOn || time < since || time > 2 * since) return
        below = Math.max(below, 1 - rail)
        above = Math.max(above, rail - 1)
      })
    }
  return { walk, solved, lowest: rest.lower * (1 - below), highest: rest.upper * (1 + above), above, below }
}

describe('a rail that rings after the load has gone', () => {
  const wait = 60e-6

  it.each([
    ['a metre of leads', '1.2 uH ±20 %', 22e-6, { frequency: '500 Hz', duty: 0.5 }],
    ['two, that ring when the load goes', '2.5 uH', 10e-6, { frequency: '4 kHz', duty: 0.3 }],
  ] as const)('is read as low and as high as small steps of time find it: %s', (_, inductance, C, pwm) => {
    const timing = { wait: `${wait} s`, edge: 0 }
    const design = readDesign(
      onLeads(inductance, `${C} F ±20 %`, pwm, { divider: { ...exampleDesign.divider, timing } }),
    )
    const { walk, solved, lowest, highest, above } = afterLoad(design, C, wait)
    expect(above).toBeGreaterThan(0.02)
    const { from, to } = dividerAt(design, solved, walk.firmware).conditions.rail as { from: number; to: number }
    const test = solved.rest.upper - solved.rails['main']!.measuring.upper
    expect(to).toBeGreaterThan(highest - test)
    expect(from).toBeLessThan(lowest - test)
    // The switch's edge comes off the wait, and boards lie between those that were followed.
    expect(to - solved.rest.upper).toBeLessThan(3 * above * solved.rest.upper)
  })

  it.each(['0.1 uH', '0.4 uH', '1 uH'])(
    'comes back no later than it is read with %s before a millifarad',
    (inductance) => {
      const [C, wait, pwm] = [1e-3, 2e-4, { frequency: '500 Hz', duty: 0.5 }]
      const timing = { wait: `${wait} s`, edge: 0 }
      const design = readDesign(
        onLeads(inductance, `${C} F ±20 %`, pwm, { divider: { ...exampleDesign.divider, timing } }),
      )
      const { walk, solved, lowest, below } = afterLoad(design, C, wait)
      expect(below).toBeGreaterThan(0.01)
      const { from } = dividerAt(design, solved, walk.firmware).conditions.rail as { from: number }
      expect(from).toBeLessThan(lowest - (solved.rest.lower - solved.rails['main']!.measuring.lower) + 1e-6)
    },
  )

  it('stands as high behind a diode as it came to, for its capacitor keeps that', () => {
    const through = {
      kind: 'diode',
      forwardVoltage: '0.3 V',
      forwardAt: '10 mA',
      emission: 1.05,
      capacitance: '100 nF',
    } as const
    const rails = [{ name: 'held', source: 'main', through }]
    const lives = { controller: 'held', converter: 'held', amplifier: 'held' }
    const design = readDesign(
      onLeads(
        '1.2 uH',
        '22 uF',
        { frequency: '500 Hz', duty: 0.5 },
        { divider: { ...exampleDesign.divider, timing: { wait: '0.9 ms' } }, rails, lives },
      ),
    )
    const walk = walkOf(design, { charges: 2 })
    const { solved } = walk.over({ charge: { from: 1, to: 0 }, ...walk.around })
    let most = 0
    const { source, load, switch: on } = solved
    const loop = { V: 1, R_s: source.resistance.lower, L: 1.2e-6, C: 22e-6, R_b: load.lower + on.lower }
    follow({ ...loop, period: 2e-3, duty: 0.5 }, 1, (_, __, rail) => {
      most = Math.max(most, rail)
    })
    const highest = most * solved.rest.upper
    const { to } = dividerAt(design, solved, walk.firmware).conditions.rail as { to: number }
    const drop = solved.rest.upper - solved.rails['held']!.rest.upper
    const test = solved.rails['held']!.rest.upper - solved.rails['held']!.measuring.upper
    expect(to).toBeGreaterThan(highest - drop - test - 0.05)
    expect(highest - solved.rest.upper).toBeGreaterThan(0.3)
  })

  it('is as far off where the cells are read at rest in a short pause', () => {
    const pause = 40e-6
    const monitor = { ...exampleDesign.monitor, reads: 'at rest', pause: `${pause} s`, lacking: 0.2 } as const
    const design = readDesign(onLeads('1.2 uH', '22 uF ±20 %', { frequency: '500 Hz', duty: 0.5 }, { monitor }))
    const { walk, below, above, solved } = afterLoad(design, 22e-6, pause)
    expect(monitorOf(walk)!.lag).toBeGreaterThan(Math.max(below, above) * solved.rest.upper)
  })

  it('is no other than before where it has died away: of the knife, to the last digit', () => {
    const { inductance: _, ...supply } = exampleDesign.supply as Design['supply'] & { inductance?: unknown }
    const rail = (design: Design) => {
      const read = readDesign(design)
      const walk = walkOf(read, { charges: 2 })
      const { solved } = walk.over({ charge: { from: 1, to: 0 }, ...walk.around })
      return dividerAt(read, solved, walk.firmware).conditions.rail
    }
    expect(rail({ ...exampleDesign, supply: { ...supply, inductance: 0 } })).toEqual(rail(exampleDesign))
  })
})

describe('a zero of the current that is read in each pause', () => {
  const zeroed = (wait: string, pwm: { frequency: string; duty: number }, inductance: string, capacitance: string) => {
    const hall = { ...exampleDesign.hall, wait, calibration: 'zero each time', otherTasks: [] } as const
    return readDesign(onLeads(inductance, capacitance, pwm, { hall }))
  }
  const zeroRail = (design: ReturnType<typeof readDesign>) => {
    const walk = walkOf(design, { charges: 2 })
    const { solved } = walk.over({ charge: { from: 1, to: 0 }, ...walk.around })
    const { calibration } = hallAt(design, solved, walk.firmware).choice
    const { rail } = calibration as unknown as { rail: { lower: number; upper: number } }
    return { ...rail, solved, edge: walk.firmware.edges()!.off }
  }

  it('is read while the capacitors are charged again: one time constant, by small steps of time', () => {
    const design = zeroed('100 us', { frequency: '100 Hz', duty: 0.5 }, '0 uH', '1000 uF')
    const { lower, solved, edge } = zeroRail(design)
    const { source, rest, rail } = solved
    let u = rail.lower
    const dt = 1e-8
    for (let t = 0; t < 100e-6 - edge; t += dt) u += ((rest.lower - u) * dt) / (source.resistance.upper * 1e-3)
    expect(u).toBeLessThan(rest.lower - 0.02)
    expect(lower).toBeLessThanOrEqual(u + 1e-4)
    expect(lower).toBeGreaterThan(u - 0.05)
  })

  it('and while the rail rings', () => {
    const design = zeroed('60 us', { frequency: '500 Hz', duty: 0.5 }, '1.2 uH', '22 uF ±20 %')
    const { lower, upper } = zeroRail(design)
    const { lowest, highest } = afterLoad(design, 22e-6, 60e-6)
    expect(lower).toBeLessThan(lowest)
    expect(upper).toBeGreaterThan(highest)
  })

  it('stands at rest after a long wait', () => {
    const { lower, solved } = zeroRail(zeroed('4 ms', { frequency: '100 Hz', duty: 0.5 }, '0 uH', '1000 uF'))
    expect(lower).toBe(solved.rest.lower)
  })
})

describe('a source that may come to its limit', () => {
  const port = (limit: string): Design => {
    const { source: _, path: __, ...supply } = exampleDesign.supply
    const source = {
      kind: 'port',
      voltage: '4.2 V ±3 %',
      currentLimit: `${limit} ±4 %`,
      leadResistance: '50 mohm ±20 %',
    } as const
    const {
      monitor: ___,
      bursts: ____,
      ...design
    } = onLeads(
      '1.2 uH ±20 %',
      '22 uF ±20 %',
      { frequency: '500 Hz', duty: 0.5 },
      { hall: { ...exampleDesign.hall, wait: '30 us', otherTasks: [] } },
    )
    const { capacitors } = design.decoupling
    return {
      ...design,
      supply: { ...supply, source },
      board: undefined,
      decoupling: { capacitors },
    } as unknown as Design
  }

  it.each(['5.5 A', '4.5 A', '3 A'])('rings until there as small steps of time find it: %s', (limit) => {
    const design = readDesign(port(limit))
    const walk = walkOf(design, { charges: 2 })
    const { solved } = walk.over({ charge: { from: 1, to: 1 }, ...walk.around })
    const { source, rest, load, switch: on } = solved
    const { from, to } = hallAt(design, solved, walk.firmware).conditions.rail as { from: number; to: number }
    const told = powerOf(walk).read!.largest
    const idle = design.controller.current.upper
    let [lowest, highest, largest] = [rest.upper, 0, 0]
    for (const factor of factors)
      for (const R_b of [load.lower + on.lower, load.upper + on.upper])
        for (const V of [rest.lower, rest.upper]) {
          const most = (V === rest.lower ? 0.96 : 1.04) * Number.parseFloat(limit) - idle
          const { upper: L } = source.inductance
          const loop = { V, R_s: source.resistance.lower, L, C: factor * 22e-6, R_b, period: 2e-3, duty: 0.5 }
          follow({ ...loop, limit: most }, 4, (isOn, time, rail) => {
            if (!isOn || time < 30e-6) return
            lowest = Math.min(lowest, rail)
            highest = Math.max(highest, rail)
            largest = Math.max(largest, rail / R_b)
          })
        }
    expect(from).toBeLessThan(lowest)
    expect(to).toBeGreaterThan(highest * (1 - 1e-6))
    expect(told).toBeGreaterThan(largest * (1 - 1e-9))
  })
})
