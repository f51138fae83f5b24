import { type Design, exampleDesign, firstBoard, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { Random } from '../../../test/sceptic/tools/random.js'
import { monitorOf } from '../src/answer/monitor.js'
import { errorsOf } from '../src/answer/power/power-errors.js'
import { cutter } from './cutter.js'
import { monitorRow } from './shared.js'

const reference = { kind: 'absolute', voltage: '2.5 V ±0.4 %', drift: '50 ppm/K' } as const

/** A design whose converter counts against a reference of its own. */
const against = (design: Design): Design => ({
  ...design,
  divider: { ...design.divider, converter: { ...design.divider.converter, reference } },
  hall: { ...design.hall, converter: { ...design.hall.converter, reference } },
})

const watched = (upper: string, internal = '1.2 V ±0.5 %'): Design => ({
  ...against(cutter),
  controller: { ...cutter.controller, internalReference: { voltage: internal } },
  monitor: {
    ...{ reads: 'at rest', pause: '2 ms', lacking: 0, warning: '6.6 V', stop: '6.4 V', hysteresis: '0.2 V' },
    divider: { upper, lower: '100 kohm ±1 %' },
  },
})

describe('a converter with a reference of its own', () => {
  const design = readDesign(watched('300 kohm ±1 %'))
  const walk = walkOf(design, { charges: 2 })
  const stopOf = (internal: string) =>
    monitorOf(walkOf(readDesign(watched('300 kohm ±1 %', internal)), { charges: 2 }))!.alarms.find(
      ({ name }) => name === 'stop',
    )!

  it('counts the divided cells against that, whatever its rail', () => {
    // A quarter of 6.4 V, of 4096 counts to 2.5 V; 3 V of the regulator would make 2185 of them.
    expect(stopOf('1.2 V ±1 %').code).toBe(Math.ceil(((6.4 / 4) * 4096) / 2.5))
  })

  it('has a code that serves alone only where that acts within what is said', () => {
    const { from, to } = design.ambientCelsius
    const drift = 50e-6 * Math.max(Math.abs(from - 25), Math.abs(to - 25))
    const code = Math.ceil(((6.4 / 4) * 4096) / 2.5)
    for (const percent of [0.2, 1, 2]) {
      const stop = stopOf(`1.2 V ±${percent} %`)
      // The board whose reference and resistors are highest acts here on the code alone, its gain and offset apart.
      const highest = ((code * 2.5 * 1.004 * (1 + drift)) / 4096) * ((303 + 99) / 99)
      if (stop.code !== null) expect(stop.acts.upper).toBeGreaterThan(highest)
      expect(stop.code === null).toBe(percent / 100 < 0.004 + drift)
      expect(stop.overReference).toBeCloseTo(1.6 / 1.2, 9)
    }
  })

  it('reads nothing of a pin above it', () => {
    // 8.4 V full over 200 and 100 kohm stand above 2.5 V, and below the 3 V of the regulator.
    const { worst, limit, verdict } = monitorRow(watched('200 kohm ±1 %'), 'pin')!
    const { from, to } = design.ambientCelsius
    const warmth = Math.max(Math.abs(from - 25), Math.abs(to - 25))
    expect(limit).toBeCloseTo(2.5 * 0.996 * (1 - 50e-6 * warmth), 9)
    expect(worst).toBeGreaterThan((8.3 * 99) / 301)
    expect(worst).toBeLessThan((8.6 * 101) / 299)
    expect(verdict).toBe('fails')
    expect(monitorRow(watched('300 kohm ±1 %'), 'pin')!.verdict).toBe('holds')
  })

  it('acts where both codes, counted against it, say so: on boards at random', () => {
    const { acts } = monitorOf(walk)!.alarms.find(({ name }) => name === 'stop')!
    const { offset, nonlinearity, leakage } = { offset: 3, nonlinearity: 2, leakage: 50e-9 }
    const random = new Random(7)
    const off = (most: number) => random.one([-most, most, random.even(-most, most)])
    let [least, most] = [Number.POSITIVE_INFINITY, 0]
    for (let i = 0; i < 20_000; i++) {
      const scale = 2.5 * (1 + off(0.004))
      const [internal, gain] = [1.2 * (1 + off(0.005)), 1 + off(0.001)]
      const [upper, lower] = [3e5 * (1 + off(0.01)), 1e5 * (1 + off(0.01))]
      const code = (volts: number) => (volts / scale) * 4096 * gain + off(offset) + off(nonlinearity) + off(0.5)
      // The pin whose code stands to that of the reference as 1.6 V to 1.2 V, with all errors of the two.
      const wanted = (code(internal) * 1.6) / 1.2
      const pin = ((wanted - off(offset) - off(nonlinearity) - off(0.5)) / gain / 4096) * scale
      const rail = (pin * (upper + lower)) / lower + off(leakage) * upper
      ;[least, most] = [Math.min(least, rail), Math.max(most, rail)]
    }
    expect(acts.lower).toBeLessThan(least)
    expect(acts.upper).toBeGreaterThan(most)
    // Boards come to nearly all of it.
    expect(most - least).toBeGreaterThan(0.75 * (acts.upper - acts.lower))
  })

  it('is told what stands beside a ratio of the divider, which is all of it', () => {
    const beside = (more: object) => () => {
      const given = watched('300 kohm ±1 %')
      return readDesign({ ...given, monitor: { ...given.monitor!, divider: { ratio: '0.25 ±1 %', ...more } } })
    }
    expect(beside({})).not.toThrow()
    expect(beside({ lower: '100 kohm' })).toThrow(/^monitor\.divider\.ratio = 0\.25: allowed is nothing with lower:/)
    expect(beside({ upper: '300 kohm' })).toThrow(/^monitor\.divider\.ratio = 0\.25: allowed is nothing with upper:/)
  })

  it('tells nothing of a rail that is not divided: no monitor reads it, and no power is a voltage times a current', () => {
    expect(() => readDesign(against(exampleDesign))).toThrow(/^monitor\.divider = nothing: .*a divider.*is absolute/)
    const { monitor: _, ...unwatched } = against(exampleDesign)
    expect(
      errorsOf(walkOf(readDesign(unwatched), { charges: 2 }))({ from: 0.5, to: 0.9 }).voltageTimesCurrent,
    ).toBeNull()
  })

  it('shows the internal reference by its own counts on the first board', () => {
    const { expected, lower, upper } = firstBoard(watched('300 kohm ±1 %')).find(({ point }) =>
      point.startsWith('code of the internal reference'),
    )!
    expect(expected).toBeCloseTo((1.2 / 2.5) * 4096, 9)
    expect(lower).toBeLessThan(((1.2 * 0.995) / (2.5 * 1.004)) * 4096 * 0.999 - 5)
    expect(upper).toBeGreaterThan(((1.2 * 1.005) / (2.5 * 0.996)) * 4096 * 1.001 + 5)
  })
})

describe('an internal reference that is read against the rail', () => {
  const watched = (voltage: string, stop: string): Design => ({
    ...exampleDesign,
    controller: { ...exampleDesign.controller, internalReference: { voltage } },
    monitor: { reads: 'under load', warning: '2.8 V', stop, hysteresis: '0.2 V' },
  })

  it('has no code for a rail below it: of 4096 the last is 4095', () => {
    const code = (voltage: string, stop: string) =>
      monitorOf(walkOf(readDesign(watched(voltage, stop)), { charges: 2 }))!.alarms[1]!.code
    const verdict = (voltage: string, stop: string) => monitorRow(watched(voltage, stop), 'reach')!.verdict
    for (const [voltage, stop] of [
      ['2.5 V ±1 %', '2.4 V'],
      ['2.5 V ±1 %', '2.6 V'],
      ['1.2 V ±2 %', '2.4 V'],
    ] as const) {
      const highest = Number.parseFloat(voltage) * 1.01
      expect(code(voltage, stop) === null).toBe(highest > Number.parseFloat(stop))
      expect(verdict(voltage, stop)).toBe(code(voltage, stop) === null ? 'fails' : 'holds')
    }
    // Of a board whose reference is 1 % high, calibrated, 2.52 V are reached only at 2.525 V.
    expect(verdict('2.5 V ±1 %', '2.52 V')).toBe('fails')
  })
})
