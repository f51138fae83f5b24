import { exampleAmplifiers } from '@ohmward/divider'
import { type Design, exampleDesign, readDesign, solveAt, walkOf } from '@ohmward/frontend'
import { exact } from '@ohmward/quantity'
import { cellCondition, pinAt, readCell, shelfLife } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'
import { monitorOf } from '../src/answer/monitor.js'
import { powerOf } from '../src/answer/power/power.js'
import { standbyOf } from '../src/answer/standby.js'
import { cutter } from './cutter.js'
import { rowAt, wholeRow } from './shared.js'

const weakest = { charge: 0.1, celsius: 0, age: 1 }
const strongest = { charge: 1, celsius: 25, age: 0 }

/** The verdict of a row at a place. */
function verdict(design: Design, place: typeof weakest, id: string): string | undefined {
  return rowAt(walkOf(readDesign(design), { charges: 2 }), place, id)?.verdict
}

const walk = (design: Design) => walkOf(readDesign(design), { charges: 2 })
/** Where 3 V are taken for read at the least: 9 % less, a gain of 0.1 %, and 3 counts of offset, 2 of nonlinearity and a rounding of some 1367. */
const least = 2.73 * (1 - 0.001 - 6 / ((1.001 * 4096) / 3))

const withMonitor = (monitor: Design['monitor']): Design => ({ ...exampleDesign, monitor })

const { path } = exampleDesign.supply

describe('traps of cell, protection, cut-off and standby', () => {
  it('K01: a rail that holds with a fresh warm cell falls below the brown-out cold, old and nearly empty', () => {
    const controller = { ...exampleDesign.controller, brownOut: '2.5 V ±5 %' }
    const design = { ...exampleDesign, controller }
    expect(verdict(design, strongest, 'decoupling/rail-brown-out')).toBe('holds')
    expect(verdict(design, weakest, 'decoupling/rail-brown-out')).toBe('fails')
  })

  it('K02: a power that no duty brings to the load is refused with the largest, one that sags away fails', () => {
    const asked = (power: string): Design => ({ ...exampleDesign, requirements: { power, usableCharge: 0.5 } })
    expect(() => readDesign(asked('60 W'))).toThrow(/requirements\.power = 60 W.*at most 2\d\.\d W/)
    const { on } = powerOf(walk(asked('20 W')))
    // At most V²/R_L from full cells into the smallest blade, by plain arithmetic.
    expect(on.upper).toBeLessThan(4.25 ** 2 / (0.7 * 0.95))
    expect(on.lower).toBeLessThan(20)
    // What is asked for is the mean at the largest duty, not what flows while the pulse is on: a fifth of it here.
    const pwm = { frequency: '100 Hz', duty: { from: 0.1, to: 0.2 } }
    const less = { ...asked('5 W'), pwm }
    expect(powerOf(walk(less)).on.lower).toBeGreaterThan(5)
    expect(wholeRow(less, 'power/reaches')).toMatchObject({ limit: 5, verdict: 'fails' })
    // And a limit below what the smallest duty gives is kept by no firmware.
    const limited = { ...exampleDesign, pwm, requirements: { powerLimit: '1 W', usableCharge: 0.5 } }
    const limit = wholeRow(limited, 'power/limit')
    expect(limit.verdict).toBe('fails')
    expect(limit.worst).toBeGreaterThan((0.1 * 3.6 ** 2) / 0.8)
  })

  it('K03: a protection of 50 mohm that trips at 0.15 V stands 3 A, a burst of 5 A trips it', () => {
    const supply = {
      ...exampleDesign.supply,
      path: path.map((one) =>
        one.name === 'protection' ? { ...one, resistance: '50 mohm', tripVoltage: '0.15 V' } : one,
      ),
    }
    expect(verdict({ ...exampleDesign, supply }, strongest, 'supply/trip-of-protection')).toBe('fails')
    expect(verdict(exampleDesign, strongest, 'supply/trip-of-protection')).toBe('holds')
  })

  it('K04: a hysteresis below the rebound switches on and off again, above a latch too; a stop at rest needs it for noise alone', () => {
    expect(monitorOf(walk(withMonitor({ stop: '3 V', hysteresis: '0.2 V' })))?.hysteresis).toBeLessThan(0)
    expect(monitorOf(walk(withMonitor({ stop: '3 V', hysteresis: '2 V' })))?.hysteresis).toBeGreaterThan(0)
    // Stopped at 3 V under load the rail comes back above 2.9 V at once.
    expect(monitorOf(walk(withMonitor({ stop: '3 V', latch: '2.9 V' })))?.hysteresis).toBeLessThan(0)
    // At rest before and after it, of cells that lack nothing any more, nothing rebounds: two readings that are noisy by 10 mV, and a count of 3.0² / (1.1 * 4096) V.
    for (const latch of [undefined, '2.9 V'])
      expect(
        monitorOf(
          walk(withMonitor({ reads: 'at rest', stop: '3 V', hysteresis: 0, lacking: 0, ...(latch && { latch }) })),
        )?.hysteresis,
      ).toBeCloseTo(-(0.02 + 9 / (1.1 * 4096)), 4)
    // Cells of 4.2 V at most: above that nothing is ever switched on again, and a warning is always on.
    const first = (more: object) =>
      monitorOf(walk(withMonitor({ reads: 'at rest', stop: '3 V', ...more })))!.aboveFirst!
    expect(first({ hysteresis: '2 V' })).toBeLessThan(0)
    expect(first({ hysteresis: '0.1 V' })).toBeGreaterThan(0.5)
    expect(first({ warning: '4.6 V' })).toBeLessThan(0)
    // Both ends of it are read against the same reference: 9 % less of 2 V are 0.18 V less.
    const [exactly, loosely] = ['0.001 %', undefined].map(
      (calibration) =>
        monitorOf(walk(withMonitor({ stop: '3 V', hysteresis: '2 V', ...(calibration && { calibration }) })))!
          .hysteresis!,
    )
    expect(exactly! - loosely!).toBeGreaterThan(0.15)
  })

  it('K05, K10: a stop that lets cells at rest below damage is short; what rests below 1.5 V is never charged again', () => {
    const low = monitorOf(walk(withMonitor({ stop: '2.4 V', reads: 'at rest' })))!
    expect(low.aboveDamage).toBeLessThan(0)
    // 3.0 V uncalibrated, ±9 %, lands at 2.73 V less what the converter errs and 10 mV of noise: 0.21 V above damage at 2.5 V.
    const high = monitorOf(walk(withMonitor({ stop: '3 V', reads: 'at rest' })))!
    // 12 mA and the sensor through all that there is before the board.
    const drawn = 0.02 * 0.3
    expect(high.aboveDamage).toBeLessThan(least - 0.01 + drawn - 2.5 + 1e-6)
    expect(high.aboveDamage).toBeGreaterThan(least - 0.01 - 2.5 - 1e-6)
    const cell = readCell((({ kind: _, ...fields }) => fields)(exampleDesign.supply.source))
    expect(cellCondition(cell, 1.4)).toBe('never charge again')
    expect(cellCondition(cell, 2)).toBe('charge gently')
  })

  it('K06: a stop below the brown-out gives a reset in the place of a message', () => {
    expect(monitorOf(walk(withMonitor({ stop: '2.2 V' })))!.aboveReset).toBeLessThan(0)
    // 3.0 V less 9 % and the converter's error is 2.715 V under load, the highest brown-out 2.205 V; a reading has 10 mV of noise.
    const controller = { ...exampleDesign.controller, brownOut: '2.1 V ±5 %' }
    expect(monitorOf(walk({ ...withMonitor({ stop: '3 V' }), controller }))!.aboveReset).toBeCloseTo(
      least - 0.01 - 2.205,
      6,
    )
  })

  it('D03, D04: the stop lands within 9 % and the error of the converter uncalibrated, 1 % calibrated; a count is worth more at full cells', () => {
    const [raw, one] = [{ stop: '3 V' }, { stop: '3 V', calibration: '1 %' }].map(
      (given) => monitorOf(walk(withMonitor(given)))!,
    )
    expect(raw!.alarms[0]!.acts.lower).toBeCloseTo(least, 9)
    // Early by half a count more: the threshold is rounded by up to a whole one.
    expect(raw!.alarms[0]!.acts.upper).toBeCloseTo(3.27 * (1 + 0.001 + 6.5 / ((1.001 * 4096) / 3)), 9)
    // A count is left of the rounding: 1 of 1.001 * 4096 / 3.
    expect(one!.alarms[0]!.acts.lower).toBeCloseTo(2.97 * (1 - 1 / ((1.001 * 4096) / 3)), 9)
    // 12 bits: 3.0² / (1.1 * 4096) = 2.0 mV, code 1.1 * 4096 / 3 = 1501.9.
    expect(raw!.perCount.stop).toBeCloseTo(9 / (1.1 * 4096), 12)
    expect(raw!.alarms[0]!.code).toBe(1501)
  })

  it('K07: a sensor of 13 mA empties 2000 mAh in 6.4 days; what draws most buys most when it is switched off', () => {
    const standby: Design['standby'] = [
      { name: 'sensor', current: '13 mA' },
      { name: 'divider', current: '42 uA' },
    ]
    const found = standbyOf(readDesign({ ...exampleDesign, standby }), null)!
    expect(found.verdict).toBe('fails')
    expect(found.switchOff[0]).toMatchObject({ name: 'sensor' })
    expect(found.switchOff[0]!.gained).toBeGreaterThan(found.switchOff[1]!.gained)
  })

  it('K07: lists what draws with the largest first, self-discharge where it belongs and with no gain', () => {
    const standby: Design['standby'] = [
      { name: 'divider', current: '2 uA' },
      { name: 'sensor', current: '13 mA' },
    ]
    const { largestFirst, daysToCutOff, drains } = standbyOf(readDesign({ ...exampleDesign, standby }), null)!
    expect(largestFirst.map(({ name }) => name)).toEqual(['sensor', 'self-discharge of the cells', 'divider'])
    const [sensor, own, divider] = largestFirst
    expect(own!.gained).toBeNull()
    // Self-discharge takes at most 5 % of the charge a month, a twelfth of 365.25 days, from full to 3 V at least.
    const usable = (own!.daysAlone * 0.05) / (365.25 / 12)
    expect(usable).toBeGreaterThan(0.9)
    expect(usable).toBeLessThan(1)
    // The same share of the charge feeds the sensor by itself: 4000 mAh -4 %, and 80 % of that at the end of life.
    expect(sensor!.daysAlone).toBeCloseTo((usable * 0.8 * 0.96 * 4) / 0.013 / 24, 6)
    // Each lasts longer by itself than together, and without the divider longer than with it.
    expect(Math.min(...largestFirst.map(({ daysAlone }) => daysAlone))).toBeGreaterThan(daysToCutOff.lower)
    expect(divider!.gained).toBeCloseTo(drains[1]!.daysWithout.lower - daysToCutOff.lower, 9)
    expect(divider!.gained).toBeGreaterThan(0)
  })

  it('K08: a divider that is switched at its lower end still leaks into the pin', () => {
    const { current } = pinAt(exact(4.2), exact(3), exact(100e3))
    expect(current.nominal).toBeCloseTo((4.2 - 3 - 0.3) / 100e3, 12)
    const drain = (inDrawer: 'on' | 'off above' | 'off below', regulator: 'on' | 'off') => {
      const [logic] = cutter.rails
      const rails = [{ ...logic, through: { ...logic.through, inDrawer: regulator } }] as const
      const monitor = {
        reads: 'at rest',
        stop: '6.4 V',
        divider: { upper: '200 kohm', lower: '100 kohm', inDrawer },
      } as const
      const found = standbyOf(readDesign({ ...cutter, rails, monitor }), null)!
      return found.drains.find(({ name }) => name === 'divider of the monitor')?.current.upper ?? 0
    }
    // Two cells of 4.17 V, 30 mV more at most: 8.4 V before 2.955 V and the 0.3 V of a clamp.
    expect(drain('on', 'on')).toBeCloseTo(8.4 / 300e3, 6)
    expect(drain('off below', 'on')).toBeCloseTo((8.4 - 2.955 - 0.3) / 200e3, 6)
    expect(drain('on', 'off')).toBeCloseTo((8.4 - 0.3) / 200e3, 6)
    expect(drain('off above', 'on')).toBe(0)
  })

  it('K09: what is left below the cut-off lasts hours at 13 mA', () => {
    const { source } = readDesign(exampleDesign).supply
    if (source.kind !== 'cell') throw new Error('a cell')
    const after = (current: string) =>
      shelfLife(source, readDesign({ ...exampleDesign, standby: [{ name: 'all', current }] }).standby).daysToDamage
        .lower
    expect(after('13 mA')).toBeLessThan(1)
    const asked = (current: string): Design => ({
      ...exampleDesign,
      standby: [{ name: 'all', current }],
      requirements: { daysAfterCutOff: 2 },
    })
    const lasting = (design: Design) => {
      const { verdict } = standbyOf(readDesign(design), monitorOf(walk(design)))!
      return verdict
    }
    expect(lasting(asked('13 mA'))).toBe('fails')
    expect(lasting(asked('20 uA'))).toBe('holds')
    // Nothing stops cells that nobody watches: they may lie at the voltage of damage.
    expect(lasting({ ...asked('20 uA'), monitor: undefined } as Design)).toBe('fails')
  })

  it('K11: a trip below the largest normal current trips falsely', () => {
    const trip = { current: '6 A', normal: '6.4 A', withstand: '10 A' }
    const design = { ...exampleDesign, hall: { ...exampleDesign.hall, trip } }
    expect(verdict(design, strongest, 'hall/trip-false')).toBe('fails')
    expect(verdict(exampleDesign, strongest, 'hall/trip-false')).toBe('holds')
  })

  it('K12: a short is told from the smallest load only where the error at it leaves room on both sides of the limit', () => {
    const error = (from: string, amplifier: Design['divider']['amplifier']) => {
      const divider = { ...exampleDesign.divider, load: { from, to: '1.2 ohm' }, amplifier }
      return rowAt(walk({ ...exampleDesign, divider }), strongest, 'divider/error-smallest')!.worst
    }
    // Half-way between a short and the smallest load lies the limit: what the error leaves is the same on either side.
    const room = (from: number, amplifier: 'bipolarSingleSupply' | 'zeroDrift') =>
      from / 2 - error(`${from} ohm`, exampleAmplifiers[amplifier])
    expect(room(0.5, 'bipolarSingleSupply')).toBeGreaterThan(0)
    expect(room(0.1, 'bipolarSingleSupply')).toBeLessThan(0)
    expect(room(0.1, 'zeroDrift')).toBeGreaterThan(0)
  })

  it('K13: a diode against wrong polarity takes a tenth of one cell, a transistor hardly anything', () => {
    const rail = (one: { drop?: string; resistance: string }) =>
      solveAt(
        readDesign({
          ...exampleDesign,
          supply: { ...exampleDesign.supply, path: [{ name: 'polarity', ...one }, ...path] },
        }),
        strongest,
      ).rail.nominal
    const lost = rail({ resistance: '25 mohm' }) - rail({ resistance: '0 ohm', drop: '0.4 V' })
    // 0.4 V against 25 mohm at about 5 A, behind the divider of source and load.
    expect(lost).toBeGreaterThan(0.15)
    expect(lost).toBeLessThan(0.4)
  })

  it('J06: a pin that is driven from the cell while its rail stands behind a diode takes too much, a series resistor mends it', () => {
    const rails: Design['rails'] = [
      {
        name: 'logic',
        source: 'main',
        through: { kind: 'diode', forwardVoltage: '0.45 V ±0.05 V', forwardAt: '10 mA', capacitance: '470 uF ±20 %' },
      },
    ]
    const design = (pinSeries: string): Design => ({
      ...exampleDesign,
      rails,
      lives: { controller: 'logic', converter: 'logic', pinSeries },
    })
    expect(verdict(design('10 ohm'), strongest, 'rails/pin-amplifier')).toBe('fails')
    expect(verdict(design('4.7 kohm'), strongest, 'rails/pin-amplifier')).toBe('holds')
    expect(verdict(exampleDesign, strongest, 'rails/pin-amplifier')).toBeUndefined()
    // A clamp that conducts only from 0.7 V leaves 0.5 V of diode nothing to drive through 10 ohm.
    const late = design('10 ohm')
    expect(verdict({ ...late, lives: { ...late.lives, pinClamp: '0.7 V' } }, strongest, 'rails/pin-amplifier')).toBe(
      'holds',
    )
  })

  it('J06: a divider behind the sensor keeps its pin below the rail, and where it does not, its resistors bound the current', () => {
    const regulator = {
      kind: 'regulator',
      voltage: '3 V ±2 %',
      dropoutResistance: '1 ohm',
      currentLimit: '0.2 A',
      quiescentCurrent: '4 uA',
    } as const
    const at = (hall: Partial<Design['hall']>) => {
      const design: Design = {
        ...exampleDesign,
        rails: [{ name: 'logic', source: 'main', through: regulator }],
        lives: { controller: 'logic', converter: 'logic', amplifier: 'logic' },
        hall: { ...exampleDesign.hall, ...hall },
      }
      const read = readDesign(design)
      const row = rowAt(walkOf(read, { charges: 2 }), strongest, 'rails/pin-sensor')!
      return { ...row, cells: solveAt(read, strongest).rest.upper }
    }
    const filter = { resistance: '330 ohm ±1 %', capacitance: '1 nF' }
    // 4.2 V of cell into a pin that clamps at 2.94 V and 0.3 V.
    const bare = at({ filter })
    expect(bare.cells).toBeGreaterThan(4.1)
    expect(bare.worst).toBeCloseTo((bare.cells - 3.24) / (0.99 * 330), 9)
    expect(bare.verdict).toBe('fails')
    // Two thirds of it stay below the clamp, though nothing else stands in series.
    const [none, top] = [{ resistance: '0 ohm', capacitance: '1 nF' }, '10 kohm ±1 %']
    expect(at({ filter: none, divider: { top, bottom: '20 kohm ±1 %' } })).toMatchObject({ worst: 0, verdict: 'holds' })
    // Nine tenths do not: what comes through the upper resistor, less what the lower one takes, no filter between.
    const high = at({ filter: none, divider: { top, bottom: '90 kohm ±1 %' } })
    expect(high.worst).toBeCloseTo((high.cells - 3.24) / 9900 - 3.24 / 90900, 9)
    expect(high.worst).toBeGreaterThan(0)
    expect(high.verdict).toBe('holds')
    // A hundredth of the resistance is too little of it.
    const low = at({ filter: none, divider: { top: '100 ohm ±1 %', bottom: '900 ohm ±1 %' } })
    expect(low.worst).toBeCloseTo((low.cells - 3.24) / 99 - 3.24 / 909, 9)
    expect(low.verdict).toBe('fails')
  })
})
