import {
  type Budget,
  type Caution,
  designAid,
  furtherTexts,
  type HeldRows,
  hotLoad,
  lithiumIon,
  stoppedShort,
  tightestText,
  verdictOf,
  verdictWords,
  worthText,
} from '@ohmward/budget'
import { bareText, format, takenFor } from '@ohmward/quantity'
import type { Behind } from './chain/behind.js'
import { intervalOf } from './chain/noise.js'
import { conductorRise } from './chain/source.js'
import type { FreshZero } from './chain/zero.js'
import { type HallChoice, hallRecord } from './choice.js'
import * as f from './formulas/index.js'
import type { ReadChoice } from './read-choice.js'
import { usedShare } from './rows/reading.js'

/** Share of the span below which another range is advised: common practice, no source. */
const ADVISED_USE = 0.4

const always: readonly Caution[] = [
  designAid,
  lithiumIon,
  { id: 'firmware-trip', text: 'A trip in firmware does not replace cell protection.', danger: true },
  hotLoad,
  {
    id: 'insulation',
    text: 'Where the measured conductor is not extra-low voltage, insulation is a matter for the product-safety standard and a qualified person.',
    danger: true,
  },
  {
    id: 'stray',
    text: 'Route forward and return conductors together, cross others at a right angle: parallel traces closer than 10 mm are read as current.',
    catches: ['E06'],
  },
  {
    id: 'open-pin',
    text: 'A sensor that is missing or broken leaves the pin floating: treat a zero off by more than 50 mV as a fault.',
    catches: ['E04', 'D08'],
  },
]

/** What no margin covers, or what can hurt. */
export function cautionsOf(choice: ReadChoice, behind: Behind): Caution[] {
  const { reading, power, calibration, timing, converter, current, trip } = choice
  const cautions = [...always]
  if (reading === 'averaged') {
    cautions.push({
      id: 'averaged',
      text: 'An averaged current is duty times on-current. The power of a resistive load is its on-voltage times the average; the average squared times the resistance is too low by a factor of the duty.',
      catches: ['E08', 'E09'],
    })
  } else if (power === 'squared reading') {
    cautions.push({
      id: 'on-power',
      text: 'The reading is the on-current: the power of a resistive load is its square times the resistance, times the duty.',
      catches: ['E09'],
    })
  }
  if (calibration.kind === 'zero') {
    cautions.push({
      id: 'zero-once',
      text: 'A stored zero goes stale: read it again when the rail has moved by 2 %, after a large pulse, and when the device has warmed.',
      catches: ['E03', 'E04', 'E05'],
    })
  }
  if (calibration.kind === 'zero each time' && !calibration.rail) {
    cautions.push({
      id: 'zero-rail',
      text: 'With the load off the rail is higher than under load: if so here, state the rail of the zero reading.',
      catches: ['E03'],
    })
  }
  if (timing.samples.nominal > 1 && converter.spreads.n_rms.lower < 0.5) {
    cautions.push({
      id: 'averaging',
      text: 'Averaging adds resolution only with noise of half a count or more; offset, gain and nonlinearity stay.',
      catches: ['D06'],
    })
  }
  const used = usedShare(choice, behind)
  if (choice.leastUse === undefined && used < ADVISED_USE) {
    cautions.push({
      id: 'little-used',
      text: `The largest current uses ${Math.floor(100 * used)} % of the sensor's span: one of a smaller range gives more counts per ampere and a smaller zero error. Advice, not a limit.`,
      catches: ['E10'],
    })
  }
  if (current.from >= 0) {
    cautions.push({
      id: 'sign',
      text: 'Near zero a reading may be negative: keep its sign, and clamp only at the end. An absolute value would turn noise into current.',
      catches: ['E10'],
    })
  }
  const delay = delayOf(choice, behind)
  if (trip && delay > 0) {
    cautions.push({
      id: 'slow-trip',
      text: `The reading takes up to ${format(delay, 's', { digits: 2 })} to follow a step: the trip acts that late. Anything faster, such as a short, needs protection in hardware.`,
      catches: ['K11'],
    })
  }
  if (trip) {
    cautions.push({
      id: 'blanking',
      text: 'A cold metal load draws more at first: blank the trip for longer than its inrush, but for less than the switch can withstand.',
      catches: ['K11'],
    })
  }
  return cautions
}

/** From a step of the current until a reading has followed it: the filter's settling, or the next on-window; all samples. */
function delayOf(choice: ReadChoice, { needed, wait }: Behind): number {
  const { reading, pwm, timing } = choice
  const N_win = timing.samples.nominal / timing.samplesPerWindow.nominal
  const t_first = reading === 'averaged' || !pwm ? needed : 1 / pwm.frequency + wait
  return f.followingTime({ t_first, N_win, T_s: intervalOf(choice) })
}

/** Assumptions, in sentences. */
export function assumptionsOf(
  choice: ReadChoice,
  { fresh }: Behind,
  given: HallChoice,
  budgets: readonly Budget[],
): string[] {
  const { sensor, sensorSupply, converter, calibration, reading, trip } = choice
  const same = sensorSupply === undefined && converter.reference.kind === 'rail'
  return [
    same
      ? sensor.output === 'ratiometric'
        ? 'Sensor supply and reference are the rail, one variable at one instant: it cancels but for the ratiometry error.'
        : 'The reference is the rail, the sensor does not follow it: the rail enters the reading in full.'
      : 'Sensor supply and reference are different nodes: each enters the reading.',
    reading === 'averaged'
      ? 'The reading is the mean current; its on-current is taken as the largest of the range.'
      : 'The reading is the on-current, sampled at one instant of the on-window.',
    {
      none: 'The firmware uses the nominal zero.',
      zero: "The zero is read once with the load off; drift, a moved rail, hysteresis, a turned field, hot leakage and noise stay. Drift of the converter's own offset is not followed.",
      'zero each time': `The zero is read just before each use, at the same temperature${calibration.rail ? '' : ' and rail'}, ${offText(fresh)}; neighbouring currents, noise and what hasn't settled by then stay.`,
    }[calibration.kind],
    ...(sensorSupply && calibration.kind !== 'none'
      ? ["The sensor's own supply is the same in the zero as in use: let only its tolerance move it, not the load."]
      : []),
    `The sensor is as warm as its air, or up to ${format(conductorRise(choice, 'upper'), 'K', { digits: 2 })} warmer by its conductor.`,
    ...furtherTexts(choice.further, 'no zero takes it away'),
    ...stoppedShort(budgets),
    'The steady field may turn either way; the hysteresis is that after the stated peak current.',
    ...(trip ? ['A trip is one comparison; noise repeats it with every reading, so confirm it over several.'] : []),
    'Budgets and probabilities are those at the worst of the conditions, where the margin is least.',
    'Limits without a stated distribution are rectangular (JCGM 100:2008, 4.3.7).',
    ...bareText(hallRecord, given),
    ...takenFor(hallRecord, given).map(({ text }) => `By default: ${text}.`),
  ]
}

/** How long the load is off for a zero that is read each time. */
function offText(fresh: FreshZero | undefined): string {
  if (!fresh) return ''
  const { offTime, inPeriod, takes } = fresh
  const time = format(offTime ?? takes, 's', { digits: 3 })
  if (inPeriod) return `in the shortest off-time of the PWM, ${time}`
  return `with the load held off for ${time}${offTime === undefined ? ', as long as it takes' : ''}`
}

/** The answer in a sentence or two. */
export function summaryOf({ margins, budgets }: HeldRows, { errors }: ReadChoice): string {
  const { at: truth } = errors.at(-1)!
  const least = tightestText(margins[0]!)
  const worth = worthText(budgets[`I_${errors.length}`] as Budget, truth)
  return `${verdictWords[verdictOf(margins)]}: ${least}. At ${format(truth, 'A')} expect ${worth}.`
}
