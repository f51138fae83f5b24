import { changed, type Margin } from '@ohmward/budget'
import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { answersOf } from '../src/answer/whole.js'
import { wholeParts, wholeRowsOf } from '../src/answer/whole-rows/index.js'
import { cutter } from './cutter.js'

/*
 * A part that is worse, a limit that is closer: each is felt in the rows of the whole that hang on it, and makes no other better. What hangs
 * on what follows from the circuit.
 */

type Part = (typeof wholeParts)[number]

/** Slack of each row of some parts of the whole. */
function rowsOf(given: Design, parts: readonly Part[]): Map<string, Margin> {
  const walk = walkOf(readDesign(given), { charges: 2 })
  const answers = answersOf(walk)
  return new Map(parts.flatMap((part) => wholeRowsOf(part, walk, answers)).map(({ id, margin }) => [id, margin]))
}

const { calibration: _, ...uncalibrated } = exampleDesign.monitor

/** The hot knife, uncalibrated, with all that may be asked of it. */
const knife: Design = {
  ...exampleDesign,
  supply: {
    ...exampleDesign.supply,
    source: { ...exampleDesign.supply.source, protectionVoltage: '2.5 V ±0.05 V' },
  },
  monitor: { ...uncalibrated, noise: '2 mV' },
  requirements: { ...exampleDesign.requirements, power: '5 W', bursts: 20, daysAfterCutOff: 30 },
}

/** Two cells that are read under load, behind a divider. */
const pair: Design = {
  ...(cutter as unknown as Design),
  controller: { ...cutter.controller, internalReference: { voltage: '1.2 V ±1 %' } },
  monitor: {
    reads: 'under load',
    stop: '6.2 V',
    latch: '6 V',
    hysteresis: '0.9 V',
    noise: '5 mV',
    divider: { upper: '300 kohm ±1 %', lower: '100 kohm ±1 %', capacitance: '100 nF ±10 %', interval: '20 ms' },
  },
  bursts: { time: '10 s', watchdog: '15 s', stuckEnergy: '2000 J' },
}

/** All that goes by the board on which the stop acts lowest, or first. */
const stop = 'monitor/full monitor/early monitor/hysteresis monitor/damage standby/days'
const low = 'monitor/reset monitor/protection standby/reserve'
const distances = 'monitor/warning-reduction monitor/reduction-stop monitor/stop-latch'
const lastBurst = 'monitor/reset monitor/damage monitor/protection standby/reserve'

type Case = readonly [path: string, worse: unknown, felt: string, others?: 'none']

const cases: readonly (readonly [name: string, given: Design, cases: readonly Case[]])[] = [
  [
    'one cell that is read at rest',
    knife,
    [
      ['divider.converter.noise', '3 LSB', 'power/error'],
      ['divider.converter.offset', '9 LSB', `power/error ${distances} ${stop} ${low}`],
      ['divider.converter.gain', '0.5 %', `power/error ${distances} ${stop} ${low}`],
      ['divider.converter.nonlinearity', '8 LSB', `power/error ${distances} ${stop} ${low}`],
      ['controller.internalReference.voltage', '1.1 V ±10 %', `monitor/reach ${distances} ${stop} ${low}`],
      ['monitor.lacking', 0.2, 'monitor/full monitor/early monitor/hysteresis standby/days'],
      ['monitor.hysteresis', '0.1 V', 'monitor/hysteresis', 'none'],
      ['controller.brownOut', '2.8 V ±3 %', 'monitor/reset', 'none'],
      ['supply.source.protectionVoltage', '2.6 V ±0.05 V', 'monitor/protection', 'none'],
      ['supply.source.capacity', '2000 mAh ±10 %', `power/bursts standby/days ${lastBurst}`],
      ['bursts.time', '30 s', `power/bursts ${lastBurst}`],
      ['bursts.watchdog', '40 s', 'power/stuck', 'none'],
      ['bursts.stuckEnergy', '700 J', 'power/stuck', 'none'],
      ['standby.0.current', '20 uA ±50 %', 'standby/days standby/reserve', 'none'],
      ['hall.trip.normal', '6 A', 'power/trip', 'none'],
      ['hall.trip.withstand', '10.5 A', 'power/withstand', 'none'],
      ['mosfet.transistor.currentMaximum', '9 A', 'power/withstand', 'none'],
      ['hall.sensor.sensitivityError', '4 %', 'power/error', 'none'],
      ['hall.converter.noise', '3 LSB', 'power/error', 'none'],
      ['requirements.power', '6 W', 'power/reaches', 'none'],
      ['requirements.powerLimit', '19 W', 'power/limit', 'none'],
      ['requirements.powerError', '20 %', 'power/error', 'none'],
      ['requirements.bursts', 30, 'power/bursts', 'none'],
      ['requirements.standbyDays', 200, 'standby/days', 'none'],
      ['requirements.daysAfterCutOff', 40, 'standby/reserve', 'none'],
    ],
  ],
  [
    'two cells that are read under load',
    pair,
    [
      ['monitor.divider.upper', '300 kohm ±2 %', `power/error monitor/pin monitor/sampling monitor/weakest ${stop}`],
      ['monitor.divider.lower', '100 kohm ±2 %', `power/error monitor/pin monitor/sampling monitor/weakest ${stop}`],
      ['divider.converter.leakage', '500 nA', `power/error monitor/weakest ${stop}`],
      ['divider.converter.offset', '9 LSB', `power/error monitor/weakest ${stop}`],
      ['controller.internalReference.voltage', '1.2 V ±2 %', `power/error monitor/weakest ${stop}`],
      ['divider.converter.samplingCapacitance', '40 pF', 'monitor/sampling', 'none'],
      ['monitor.divider.capacitance', '10 nF ±10 %', 'monitor/sampling'],
      ['monitor.divider.interval', '5 ms', 'monitor/sampling', 'none'],
      ['supply.source.capacity', '3000 mAh ±8 %', 'monitor/weakest standby/days'],
      ['supply.source.openCircuitSpread', '0.05 V', `monitor/pin monitor/weakest ${stop}`],
    ],
  ],
]

describe.each(cases)('of %s', (_, given, all) => {
  const before = rowsOf(given, wholeParts)

  it.each(all.map(([path, worse, felt, others]) => ({ path, worse, felt, others })))(
    'a worse $path ($worse) is felt where it must be, and makes nothing better',
    ({ path, worse, felt, others }) => {
      const names = felt.split(' ')
      const parts = wholeParts.filter((part) => names.some((name) => name.startsWith(`${part}/`)))
      const after = rowsOf(changed({ choice: given, conditions: null }, { [path]: worse }).choice, parts)
      for (const name of names) expect(after.has(name), name).toBe(true)
      for (const [name, { slack }] of after) {
        const was = before.get(name)!.slack
        const off = 1e-9 * Math.max(1, Math.abs(was))
        expect(slack, name).toBeLessThanOrEqual(was + off)
        if (names.includes(name)) expect(slack, name).toBeLessThan(was - off)
        else if (others === 'none') expect(slack, name).toBeGreaterThanOrEqual(was - off)
      }
    },
  )
})
