import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { powerOf } from '../src/answer/power/power.js'
import { powerRows } from '../src/answer/whole-rows/power.js'
import { higherTrip, lowerWithstand } from '../src/changes/readings.js'

const duty = { from: 0.1, to: 0.6 }

/** The knife at 1 kHz, its current read as the mean of the period, with a trip of that mean. */
const design = (trip: { normal: string; current: string; withstand: string }): Design => ({
  ...exampleDesign,
  pwm: { frequency: '1 kHz', duty },
  hall: {
    ...exampleDesign.hall,
    reading: 'averaged',
    filter: { resistance: '3.3 kohm ±1 %', capacitance: '4.7 uF ±10 %' },
    trip,
  },
})

const rowsOf = (given: Design) => {
  const walk = walkOf(readDesign(given), { charges: 2 })
  const rows = powerRows(walk, powerOf(walk))
  const row = (id: string) => rows.find((one) => one.id === `power/${id}`)!.margin
  return { walk, row }
}

/** Mean current of pulses of a source behind a resistance, with a capacitor at the rail: small steps of time until they repeat. */
function meanOf(volts: number, source: number, load: number, farads: number, share: number): number {
  const step = 1e-7
  let [rail, charge, time] = [volts, 0, 0]
  for (let period = 0; period < 30; period++) {
    charge = time = 0
    for (let t = 0; t < 1e-3; t += step) {
      const current = t < share * 1e-3 ? rail / load : 0
      rail += (((volts - rail) / source - current) / farads) * step
      charge += current * step
      time += step
    }
  }
  return charge / time
}

describe('a trip that compares the mean of the pulses', () => {
  const trip = { normal: '4 A', current: '4.6 A', withstand: '5.2 A' }
  const { walk, row } = rowsOf(design(trip))
  const edges = walk.firmware.edges()!
  /** The shortest pulse, where the switch is on as late as it may be, over a period. */
  const shortest = duty.from - edges.on * 1e3

  it('leaves pulses alone whose mean is less than normal use: the mean of the largest duty, in steps of time', () => {
    const { source, load, switch: on } = walk.over({ charge: { from: 1, to: 1 }, ...walk.around }).solved
    const farads = walk.design.parts.capacitance
    // The switch is off late.
    const longest = duty.to + edges.off * 1e3
    const most = meanOf(source.openCircuit.upper, source.resistance.lower, load.lower + on.lower, farads, longest)
    const { worst, limit } = row('trip')
    expect(limit).toBe(4)
    expect(worst).toBeGreaterThan(most)
    expect(worst).toBeLessThan(1.1 * most)
  })

  it('has acted on a pulse of the least duty only by ten times what it reads, and more where that is on late', () => {
    const { worst, limit, verdict } = row('withstand')
    expect(worst).toBeCloseTo(5.2 / shortest, 9)
    expect(shortest).toBeLessThan(0.0999)
    // The connector.
    expect(limit).toBe(15)
    expect(verdict).toBe('fails')
    // 1.05 A of the mean are pulses of 10.5 A, and little more.
    expect(rowsOf(design({ normal: '0.9 A', current: '1 A', withstand: '1.05 A' })).row('withstand').verdict).toBe(
      'holds',
    )
  })

  it('is changed in amperes of the mean', () => {
    const whole = { read: { design: walk.design, walk } } as never
    const put = (change: typeof higherTrip, field: string) =>
      Number.parseFloat(String(change.rungs(whole)[0]!.puts[`hall.trip.${field}`]))
    // The weakest part of all is the switch, of 11 A.
    expect(put(lowerWithstand, 'withstand')).toBeLessThanOrEqual(11 * shortest)
    expect(put(lowerWithstand, 'withstand')).toBeGreaterThan(11 * shortest - 0.1)
    expect(put(higherTrip, 'normal')).toBeGreaterThanOrEqual(row('trip').worst)
    expect(put(higherTrip, 'normal')).toBeLessThan(row('trip').worst + 0.1)
  })
})
