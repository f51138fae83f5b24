import {
  checkDesign,
  type Design,
  dividerAt,
  exampleDesign,
  mosfetAt,
  readDesign,
  solveAt,
  walkOf,
} from '@ohmward/frontend'
import { checkMosfet, exampleDrives } from '@ohmward/mosfet'
import { describe, expect, it } from 'vitest'
import { remembered } from '../../../test/tools/remembered.js'
import { monitorOf } from '../src/answer/monitor.js'
import { powerOf } from '../src/answer/power/power.js'
import { standbyOf } from '../src/answer/standby.js'
import { summaryOf } from '../src/answer/texts.js'
import { wholeRows } from '../src/answer/whole-rows/index.js'
import { remediesOf } from '../src/changes/index.js'
import { readWhole } from '../src/changes/whole.js'
import { type Span, spanOf } from '../src/supply/place.js'
import { atRail, cutter, lowSide } from './cutter.js'
import { changesBy, rowAt } from './shared.js'

/** A row at full cells. */
const row = (design: Design, id: string) => rowAt(walkOf(readDesign(design), { charges: 2 }), full, id)!

/** The rows of the rails at full cells, held. */
const railRows = (design: Design) => {
  const walk = walkOf(readDesign(design), { charges: 2 })
  const held = walk.over(spanOf(full))
  const stage = walk.stages.find(({ block }) => block === 'rails')!
  return held.ready(stage).map(({ id }) => ({ id, margin: held.margin(stage, id)! }))
}

const full = { charge: 1, celsius: 25, age: 0 }

describe('switch and reading on the same end of the load', () => {
  it('a switch at ground leaves the load at the rail, one at the rail leaves it at ground', () => {
    expect(() => readDesign(cutter)).not.toThrow()
    expect(() => readDesign(lowSide)).not.toThrow()
    expect(() => readDesign({ ...lowSide, divider: cutter.divider })).toThrow(
      /^divider\.topology = "load at ground": allowed is "load at rail"\. mosfet\.transistor\.channel is "N"/,
    )
    expect(() => readDesign({ ...cutter, divider: atRail })).toThrow(
      /^divider\.topology = "load at rail": allowed is "load at ground"\. mosfet\.transistor\.channel is "P"/,
    )
  })

  it('a load at the rail is driven by the main rail, not by that of the converter', () => {
    const design = readDesign(lowSide)
    const solved = solveAt(design, full)
    const { firmware } = walkOf(design, { charges: 2 })
    const { choice } = dividerAt(design, solved, firmware)
    // The place's own voltage, under the test current, with the one value that the firmware has for full to empty.
    const { lower, upper } = solved.rails['main']!.measuring
    const assumed = firmware.excitation
    expect(assumed).toBeLessThan(lower)
    expect(choice.excitation).toMatchObject({ lower: assumed, nominal: assumed, upper })
    const divider = { ...atRail, excitation: '3 V' } as const
    const other: Design = { ...lowSide, divider }
    expect(() => readDesign(other)).toThrow(/^divider\.excitation = "3 V": allowed is "rail"/)
  })

  it('and takes its test current from there: the regulator carries none of it', () => {
    const { test, rest, rails, source } = solveAt(readDesign(lowSide), full)
    // The battery over 47 ohm, switch and load: 46.953 + 0.4 + 0.9 ohm at least.
    expect(test.upper).toBeCloseTo(rest.upper / 48.253, 6)
    const { lower } = rails['main']!.measuring
    // Beside the 19.3 mA and 5 uA that always flow.
    expect(lower).toBeCloseTo(source.openCircuit.lower - (test.upper + 0.019305) * source.resistance.upper, 6)
    // 12 mA, 7 mA and 0.3 mA.
    expect(row(lowSide, 'rails/regulator-current-logic').worst).toBeCloseTo(0.0193, 9)
  })
})

describe('the level of a pin is the rail of its controller', () => {
  const pin = exampleDrives['controller pin']

  it('a pin of 3.0 V leaves a P-channel gate on two full cells 5.4 V below its source: it never switches off', () => {
    const design: Design = { ...cutter, mosfet: { ...cutter.mosfet, drive: pin } }
    const level = row(design, 'mosfet/off-level')
    expect(level.verdict).toBe('fails')
    // 8.4 V and what the curve may lie above, less 3.0 V ±1.5 %.
    expect(level.worst).toBeGreaterThan(8.4 - 3.045)
    expect(level.worst).toBeLessThan(8.4 - 2.955 + 0.2)
  })

  it('the same pin gives an N-channel gate 3 V, not those of the battery', () => {
    const design: Design = { ...lowSide, mosfet: { ...lowSide.mosfet, drive: pin } }
    // 3.0 V -1.5 % before the divider of 40 ± 15 ohm and 1.5 kohm ±1 %.
    const worst = (2.955 * 1485) / (1485 + 55)
    expect(row(design, 'mosfet/gate-drive')).toMatchObject({ verdict: 'fails', worst: expect.closeTo(worst, 3) })
    expect(row(lowSide, 'mosfet/gate-drive').verdict).toBe('holds')
  })

  it('a pin on the rail of the switch is what it was', () => {
    const lives = { ...lowSide.lives, controller: 'main' }
    const design = readDesign({ ...lowSide, lives, mosfet: { ...lowSide.mosfet, drive: pin } })
    expect(mosfetAt(design, solveAt(design, full)).choice.drive).toEqual(pin)
  })

  it('another supply, or a level above its rail, contradicts it', () => {
    const drive = { ...pin, supply: { regulated: '5 V' } }
    expect(() => readDesign({ ...lowSide, mosfet: { ...lowSide.mosfet, drive } })).toThrow(
      /^mosfet\.drive\.supply = an object: allowed is nothing with drive\.kind "pin": .*lives\.controller, logic/,
    )
    const high = { ...cutter.mosfet.drive, highLevel: '3.2 V' }
    expect(() => readDesign({ ...cutter, mosfet: { ...cutter.mosfet, drive: high } })).toThrow(
      /^mosfet\.drive\.highLevel = 3\.2 V: allowed is at most the rail of lives\.controller, logic: 3\.04 V/,
    )
    const follower = { kind: 'follower', pull: { at: 'gate', resistance: '1 kohm' } } as const
    expect(() => readDesign({ ...cutter, mosfet: { ...cutter.mosfet, drive: follower } })).toThrow(
      /^mosfet\.drive\.kind = "follower": allowed is "inverting transistor"/,
    )
  })

  it('a pin that sags with its rail drives the base no higher than that', () => {
    const drive = { ...cutter.mosfet.drive, highLevel: '3 V' }
    const design = readDesign({ ...cutter, mosfet: { ...cutter.mosfet, drive } })
    expect(mosfetAt(design, solveAt(design, full)).choice.drive).toMatchObject({ highLevel: { upper: 2.955 } })
  })

  it('a weak pull during reset goes to the rail of the controller', () => {
    const drive = { ...cutter.mosfet.drive, resetPull: '30 kohm' }
    const design = readDesign({ ...cutter, mosfet: { ...cutter.mosfet, drive } })
    const { choice, conditions } = mosfetAt(design, solveAt(design, full))
    const { margins } = checkMosfet(choice, conditions, { simulation: false })
    // 3.045 V over 30 kohm, 2.2 kohm and 4.7 kohm, and leakage of at most 2 uA through the last; 8.5 V would make 1.1 V.
    const most = 3.045 * (4747 / (30e3 + 2178 + 4747)) + 2e-6 * 4747
    const base = margins.find(({ id }) => id === 'reset-state')!.worst
    expect(base).toBeGreaterThan(0.38)
    expect(base).toBeLessThan(most + 1e-3)
  })
})

describe('the sense node while the load is driven', () => {
  const driven = (surroundings: object, lives: object = {}): Design => ({
    ...cutter,
    divider: { ...cutter.divider, surroundings: { ...cutter.divider.surroundings, ...surroundings } },
    lives: { ...cutter.lives, ...lives },
  })
  // At most 8.4 V and what a curve may lie above, at least 2.955 V behind the regulator, 0.3 V of the clamp.
  const over = (volts: number) => volts - 2.955 - 0.3

  it('5 V above the amplifier needs 5 kohm for 1 mA: what the input has by default does not do, nor none at all', () => {
    const clamp = row(cutter, 'rails/sense-clamp')
    expect(clamp).toMatchObject({ verdict: 'fails', worst: 1000 })
    expect(clamp.limit).toBeGreaterThan(over(8.4) / 1e-3)
    expect(clamp.limit).toBeLessThan(over(8.6) / 1e-3)
    expect(row(driven({ protectionResistance: 0 }), 'rails/sense-clamp')).toMatchObject({ verdict: 'fails', worst: 0 })
    expect(row(driven({ protectionResistance: '6.8 kohm' }), 'rails/sense-clamp').verdict).toBe('holds')
  })

  it('110 mA come back through 47 ohm into a rail on which 19 mA live, unless the excitation blocks', () => {
    const back = row(driven({ protectionResistance: '6.8 kohm' }), 'rails/back-feed-logic')
    expect(back.verdict).toBe('fails')
    expect(back.worst).toBeGreaterThan(over(8.4) / 47.047)
    expect(back.worst).toBeLessThan(over(8.6) / 46.953 + over(8.6) / 6800)
    // Controller 12 mA, sensor 7 mA, amplifier 0.3 mA.
    expect(back.limit).toBeCloseTo(0.0193, 9)
    const blocked = driven({ protectionResistance: '6.8 kohm' }, { excitationBackward: 'blocks' })
    expect(row(blocked, 'rails/back-feed-logic').verdict).toBe('holds')
  })

  it('an excitation of its own takes nothing back', () => {
    const divider = { ...cutter.divider, excitation: '3 V' } as const
    expect(row({ ...cutter, divider }, 'rails/back-feed-own')).toMatchObject({ verdict: 'fails', limit: 0 })
  })

  it('a load at the rail stands before the amplifier and, through the reference resistor, before a pin that is the switch', () => {
    const sensed = (excitationBackward: 'conducts' | 'blocks') => {
      const design: Design = { ...lowSide, lives: { ...lowSide.lives, excitationBackward } }
      return railRows(design).flatMap(({ id, margin }) => (/sense-clamp|back-feed/.test(id) ? [margin] : []))
    }
    const [clamp, back] = sensed('conducts')
    // Through the 1 kohm of the difference amplifier.
    expect(clamp).toMatchObject({ id: 'sense-clamp', verdict: 'fails', worst: 999 })
    expect(back).toMatchObject({ id: 'back-feed-logic', verdict: 'fails' })
    expect(back!.worst).toBeGreaterThan(over(8.4) / 47.047)
    expect(back!.worst).toBeLessThan(over(8.6) / 46.953 + over(8.6) / 999)
    // A transistor to ground takes nothing into a rail: what is left comes through the amplifier.
    const [, blocked] = sensed('blocks')
    expect(blocked).toMatchObject({ id: 'back-feed-logic', verdict: 'holds' })
    expect(blocked!.worst).toBeLessThan(over(8.6) / 999)
  })

  it('all on one rail, nothing is asked of what stands between rails', () => {
    expect(railRows(exampleDesign).map(({ id }) => id)).toEqual(['rails/sensor-highest'])
  })

  it('a rail behind a diode follows the cell down: over the whole discharge it is no further below than the diode drops', () => {
    const through = { kind: 'diode', forwardVoltage: '0.35 V', forwardAt: '10 mA', capacitance: '470 uF' } as const
    const rails = [{ name: 'logic', source: 'main', through }]
    const lives = { controller: 'logic', converter: 'logic', amplifier: 'logic', sensor: 'logic' }
    const walk = walkOf(readDesign({ ...exampleDesign, rails, lives }), { charges: 2 })
    const stage = walk.stages.find(({ block }) => block === 'rails')!
    const span = { charge: { from: 1, to: walk.charges.at(-1)! }, ...walk.around }
    expect(walk.over(span).margin(stage, 'rails/sense-clamp')!.limit).toBeLessThan((0.6 - 0.3) / 1e-3)
  })
})

describe('a pin behind a diode that parts on the main rail drive', () => {
  const through = { kind: 'diode', forwardVoltage: '0.35 V', forwardAt: '10 mA', capacitance: '470 uF' } as const
  const lives = { controller: 'logic', converter: 'logic', pinSeries: '330 ohm' }
  const walk = walkOf(readDesign({ ...exampleDesign, rails: [{ name: 'logic', source: 'main', through }], lives }), {
    charges: 10,
  })
  const stage = walk.stages.find(({ block }) => block === 'rails')!
  const pin = (span: Span) => walk.over(span).margin(stage, 'rails/pin-amplifier')!.worst
  const down = { charge: { from: 1, to: walk.charges.at(-1)! }, ...walk.around }

  it('is driven by what the diode drops, not by full cells against empty ones', () => {
    // At most 0.25 V more of drop in the cold, and a sixteenth of the 2.2 V between full and sagged cells.
    expect(pin(down)).toBeLessThan((0.35 + 0.25 - 0.3 + 2.2 / 16) / 330)
    // Nor is it better than at any of its places.
    for (const charge of walk.charges)
      for (const state of walk.states) expect(pin(down)).toBeGreaterThanOrEqual(pin(spanOf({ ...state, charge })))
  })
})

const walk = (design: Design) => walkOf(readDesign(design), { charges: 2 })
const [logic] = cutter.rails
const regulated = (fields: object): Design['rails'] => [{ ...logic, through: { ...logic.through, ...fields } }]

describe('the drawer', () => {
  const days = (fields: object) =>
    standbyOf(readDesign({ ...cutter, rails: regulated(fields) }), null)!.daysToCutOff.lower

  it('a regulator of 5 mA that stays on empties 3000 mAh in three weeks; switched off it counts nothing', () => {
    // 3000 mAh -4 %, less what is lost with age, over 5 mA: at most 24 days.
    expect(days({ quiescentCurrent: '5 mA' })).toBeLessThan((3 * 0.96) / 0.005 / 24)
    expect(days({ quiescentCurrent: '5 mA', inDrawer: 'off' })).toBeGreaterThan(days({}))
    expect(days({})).toBeGreaterThan(300)
  })
})

describe('cells behind a regulator', () => {
  const pair = { upper: '200 kohm ±1 %', lower: '100 kohm ±1 %' } as const
  /** What is told beside the rows of the monitor, and is none of them. */
  const power = remembered(() => powerOf(walk(watched(pair))))
  const watched = (divider?: NonNullable<Design['monitor']>['divider']): Design => ({
    ...cutter,
    monitor: {
      reads: 'at rest',
      pause: '2 ms',
      lacking: 0,
      stop: '6.4 V',
      latch: '6.2 V',
      hysteresis: '0.2 V',
      ...(divider && { divider }),
    },
  })

  it('are seen through a divider: its tolerance and the leakage of the pin shift the stop', () => {
    const { alarms, unseen, pin } = monitorOf(walk(watched(pair)))!
    // 6 counts and 0.1 % of the converter, in the code of the reference at 3.045 V and in that of the pin, which is divided by it.
    const [reference, pin3] = [1.176, (6.4 * 99) / 301].map((volts) => (volts * 4096) / 3.045)
    const codes = 1 / (1 / reference! + 1 / pin3!)
    // 6.4 V ±2 % of the reference; 1/3 is off to 101/(101 + 198) and 99/(99 + 202); 50 nA in 202 kohm.
    // Early by half a count more: the code rounds by a half either way, the threshold by up to a whole one, upward.
    const [late, early] = [6, 6.5].map((counts) => 0.001 + counts / codes) as [number, number]
    const most = (6.4 * 1.02 * (1 + early) * (1 / 3)) / (99 / 301) + 50e-9 * 202e3
    const least = (6.4 * 0.98 * (1 - late) * (1 / 3)) / (101 / 299) - 50e-9 * 202e3
    expect(alarms[0]!.acts.upper).toBeCloseTo(most, 6)
    expect(alarms[0]!.acts.lower).toBeCloseTo(least, 6)
    expect(unseen).toBe(0)
    // 2.133 V of 3.0 V, of 4096 counts.
    expect(alarms[0]!.code).toBe(Math.ceil((6.4 / 3 / 3) * 4096))
    expect(pin!.highest).toBeLessThan((8.6 * 101) / 299)
    expect(pin!.allowed).toBe(2.955)
    expect(monitorOf(walk(watched({ ratio: '0.5' })))!.pin!.highest).toBeGreaterThan(8.4 / 2)
  })

  it('fill the sampling capacitor through its two resistors in time, or out of a capacitor at the pin', () => {
    const rowOf = remembered((divider: NonNullable<Design['monitor']>['divider']) => {
      const found = walk(watched(divider))
      const answers = { power: power(), monitor: monitorOf(found), standby: null }
      return wholeRows(found, answers as never).find(({ id }) => id === 'monitor/sampling')?.margin
    })
    // As the cutter's converter states them.
    const [acquisitionTime, samplingCapacitance, switchResistance] = [2e-6, 8e-12, 1e3]
    // Thevenin: 202 kohm beside 101 kohm, and the switch; from empty, of 4096 counts.
    const tau = ((202e3 * 101e3) / 303e3 + switchResistance) * samplingCapacitance
    const missed = 4096 * Math.exp(-acquisitionTime / tau)
    expect(missed).toBeGreaterThan(1)
    expect(rowOf(pair)).toMatchObject({ verdict: 'fails', limit: 0.5 })
    expect(rowOf(pair)!.worst / missed).toBeCloseTo(1, 5)
    // Each sample takes charge from the pin, and until the next the pin is charged again: until that repeats itself.
    const repeated = (capacitance: number, interval: number) => {
      let pin = 1
      for (let i = 0; i < 5000; i++) {
        pin *= capacitance / (capacitance + samplingCapacitance)
        pin = 1 - (1 - pin) * Math.exp(-interval / (((202e3 * 101e3) / 303e3) * capacitance))
      }
      return 4096 * (1 - (pin * capacitance) / (capacitance + samplingCapacitance))
    }
    const held = (capacitance: number, interval?: number) =>
      rowOf({ ...pair, capacitance, ...(interval !== undefined && { interval }) })!
    // PWM of 200 Hz: 5 ms are less than the 6.7 ms in which 100 nF are charged again.
    for (const [capacitance, interval] of [
      [100e-9, 5e-3],
      [1e-6, 5e-3],
      [100e-9, 0.1],
    ] as const) {
      expect(held(capacitance, interval).worst / repeated(capacitance, interval)).toBeCloseTo(1, 3)
    }
    expect(held(100e-9).worst).toBe(held(100e-9, 5e-3).worst)
    expect(held(100e-9).verdict).toBe('fails')
    expect(held(100e-9, 0.1).verdict).toBe('holds')
    expect(held(1e-6).verdict).toBe('holds')
    expect(held(10e-9, 0.1).verdict).toBe('fails')
    expect(rowOf({ upper: '2 kohm ±1 %', lower: '1 kohm ±1 %' })!.verdict).toBe('holds')
    expect(rowOf({ ratio: '0.3' })).toBeUndefined()
  })

  it('follow a step of the load through the capacitor at the pin, and the rail, in a pause of the load', () => {
    const rowOf = (capacitance: string, more: object) => {
      const found = walk({ ...watched({ ...pair, capacitance }), ...more })
      const answers = { power: power(), monitor: monitorOf(found), standby: null }
      const { margin } = wholeRows(found, answers as never).find(({ id }) => id === 'monitor/lag')!
      const { current, source } = found.over({ charge: { from: 1, to: found.charges.at(-1)! }, ...found.around }).solved
      return { ...margin, step: current.upper * source.resistance.upper, source: source.resistance.upper }
    }
    // Node by node: the source charges 2 x 264 uF behind 27 mohm each, and through 67 kohm the pin; all begin where the load left them.
    const left = (R_s: number, farads: number, pause: number) => {
      const [R, C, ESR] = [(202e3 * 101e3) / 303e3, 2 * 264e-6, 27e-3 / 2]
      let [capacitor, pin] = [1, 1]
      const dt = Math.min(1e-7, (R * farads) / 50)
      for (let t = 0; t < pause; t += dt) {
        const node = (capacitor * R_s) / (R_s + ESR)
        capacitor -= (dt / C) * (node / R_s)
        pin += (dt / (R * farads)) * (node - pin)
      }
      return pin
    }
    // In a pause of 2 ms: 100 nF have a time constant of 6.7 ms, 220 pF of 15 us.
    const pwm = { frequency: '200 Hz', duty: { from: 0.1, to: 0.95 } }
    for (const [text, farads, verdict] of [
      ['100 nF', 100e-9, 'fails'],
      ['10 nF', 10e-9, 'fails'],
      ['220 pF', 220e-12, 'holds'],
    ] as const) {
      const { worst, step, source, limit, verdict: told } = rowOf(text, { pwm })
      const share = left(source, farads, 2e-3)
      expect(worst / step, text).toBeGreaterThan(share * (1 - 1e-3))
      // Capacitance, series resistance and the end of the drop are all at their worst.
      expect(worst / step, text).toBeLessThan(1.5 * share + 1e-6)
      expect(limit).toBe(0.01)
      expect(told, text).toBe(verdict)
    }
  })

  it('get less resistance before the pin; a capacitor there says that the readings come too late', () => {
    const sampling = ['monitor/sampling']
    const [less, capacitor] = changesBy(watched(pair), ['monitor-divider', 'pin-capacitor'])
    // 2 us are enough for half a count of 12 bits, 9 time constants, through 27 kohm: a fifth of the 67 kohm does.
    expect(less!.puts).toEqual({ 'monitor.divider.upper': '40 kohm ±1 %', 'monitor.divider.lower': '20 kohm ±1 %' })
    expect(less!.mends.map(({ id }) => id)).toEqual(sampling)
    expect(less!.breaks).toEqual([])
    // Where the firmware stops, a cut-off that is only stated changes nothing on the board.
    const offered = Object.values(remediesOf(readWhole(watched(pair)))).flat()
    expect(offered.map(({ id }) => id)).not.toContain('cut-off')
    expect(capacitor!.mends.map(({ id }) => id)).toEqual(sampling)
    expect(capacitor!.breaks.map(({ id }) => id)).toEqual(['monitor/lag'])
  })

  it('say in words what of the whole does not hold where every place of the discharge does', () => {
    const places = { source: 'cell', first: null, firstOfBoard: null, standby: null } as const
    const of = (verdict: 'holds' | 'fails', divider: NonNullable<Design['monitor']>['divider']) => {
      const found = walk(watched(divider))
      const rows = wholeRows(found, { power: power(), monitor: monitorOf(found), standby: null } as never)
      return summaryOf({ ...places, verdict, rows: rows.filter(({ id }) => id === 'monitor/sampling') } as never)
    }
    expect(of('fails', pair)).toBe(
      'Fails. Every check holds from full to the cut-off, but one of the whole design does not: settling error of the divided cell voltage (monitor).',
    )
    expect(of('holds', { ...pair, capacitance: '1 uF' })).toBe('Holds. Every check holds from full to the cut-off.')
  })

  it('a divider is two resistors or one ratio', () => {
    expect(() => readDesign(watched({ upper: '200 kohm' }))).toThrow(/^monitor\.divider/)
    expect(() => readDesign(watched({ ...pair, ratio: '0.3' }))).toThrow(/^monitor\.divider/)
    expect(() => readDesign(watched({ ratio: '0.3', capacitance: '1 uF' }))).toThrow(
      /^monitor\.divider\.capacitance = .*nothing with a ratio/,
    )
  })

  it('give no power by voltage times current unless the divider is there', () => {
    expect(powerOf(walk(cutter)).error.voltageTimesCurrent).toBeNull()
    expect(powerOf(walk(watched())).error.voltageTimesCurrent).toBeNull()
    expect(power().error.voltageTimesCurrent).not.toBeNull()
    expect(powerOf(walk(exampleDesign)).error.voltageTimesCurrent).not.toBeNull()
  })
})

describe('what is said of the whole', () => {
  const { rows, cautions, junction } = checkDesign(cutter, { charges: 3 })

  it('rows of no single place say over what they were computed, and are held down to none', () => {
    const whole = rows.filter(({ place }) => place === null)
    expect(whole.map(({ id, where }) => [id, where])).toEqual(
      expect.arrayContaining([
        ['standby/days', 'in the drawer'],
        ['power/stuck', 'full cells'],
        ['power/reaches', 'full to 15 %'],
        ['supply/charge', 'full to the cut-off'],
      ]),
    )
    expect(whole.every(({ heldDownTo }) => heldDownTo === null)).toBe(true)
  })

  it('a row that does not hold has the value of its own place', () => {
    const walked = walkOf(readDesign(cutter), { charges: 3 })
    for (const { id, block, state, margin, place } of rows) {
      if (place === null || margin.verdict === 'holds') continue
      const stage = walked.stages.find((one) => one.block === block && one.state === state)!
      expect([id, walked.over(spanOf(place)).margin(stage, id)?.worst]).toEqual([id, margin.worst])
    }
  })

  it('tells the junction as it settles, below the one that a loss at the limit would heat', () => {
    const limit = rows.find(({ id }) => id === 'mosfet/junction')!
    expect(junction).toBeGreaterThan(40)
    expect(junction).toBeLessThan(limit.margin.limit)
  })

  it('repeats what the blocks warn of, and warns of cells in series and of cells that nothing watches', () => {
    expect(new Set(cautions).size).toBe(cautions.length)
    expect(cautions.filter((one) => /Lithium-ion|design aid/.test(one))).toHaveLength(2)
    const all = cautions.join('\n')
    expect(all).toMatch(/fail short.*fuse/)
    expect(all).toMatch(/Reversed cells/)
    expect(all).toMatch(/drift apart/)
    expect(all).toMatch(/Nothing monitors the cells/)
  })

  it('asks nothing of a rail on which nothing lives but the load', () => {
    expect(rows.map(({ id }) => id)).not.toContain('decoupling/rail-converter')
  })
})
