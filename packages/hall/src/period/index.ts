import { type DutyRange, dutyRange, type Schedule, schedule } from '@ohmward/adc'
import { InputError, readNumber } from '@ohmward/quantity'
import { behindOf } from '../chain/behind.js'
import type { HallChoice, HallConditions } from '../choice.js'
import * as f from '../formulas/index.js'
import { readChoice } from '../read-choice.js'
import { share } from './response.js'
import { tasksOf } from './tasks.js'

/** A point of the time picture. */
export interface PeriodPoint {
  /** Seconds from the edge that switches on. */
  readonly time: number
  /** Output of the sensor, divided where there is a divider, in volts. */
  readonly sensor: number
  /** Voltage at the converter's pin. */
  readonly pin: number
}

/** One PWM period in steady state, nominal parts, at the largest current and the middle of the rail. */
export interface Period {
  readonly period: number
  /** Time switched on. */
  readonly on: number
  readonly points: readonly PeriodPoint[]
  /** The start of the period, enlarged: until the sampling is over, or the whole where the reading is averaged. */
  readonly opening: readonly PeriodPoint[]
  /** From here on the pin is settled to half a count, every part at its limit; absent where the reading is averaged. */
  readonly settled?: number
  /** Voltage that the pin settles to, and half a count of it. */
  readonly final: number
  readonly halfCount: number
  /** Sampling of the current, from start to end; absent where the reading is averaged. */
  readonly sampling?: readonly [start: number, end: number]
  readonly schedule: Schedule
  /** The duty that leaves room for everything that the converter reads. */
  readonly duty: DutyRange
}

/**
 * The PWM period as a picture: sensor and filter in steady state, the sampling instant, what the converter does when.
 * Both poles are followed exactly: the sensor's from its bandwidth, the filter's from its parts.
 *
 * @param duty - the smallest of the range by default
 * @param points - how many, 2 to 2000
 * @throws InputError naming the first field that isn't allowed, and where there is no PWM
 */
export function hallPeriod(choice: HallChoice, conditions: HallConditions, duty?: number, points = 240): Period {
  const read = readChoice(choice, conditions)
  const { pwm, converter, timing, current, divider, sensor, filter } = read
  if (!pwm) throw new InputError({ field: 'pwm', value: undefined, allowed: 'a frequency and a duty' })
  readNumber(points, { field: 'points', unit: '1', integer: true, min: 2, max: 2000 })
  const D = duty === undefined ? pwm.duty.from : readNumber(duty, { field: 'duty', unit: '1', above: 0, max: 1 })
  const behind = behindOf(read)
  const { V_qn, S_n, k_dn, V_refn } = behind.nominal
  const R_filt = filter.resistance.nominal
  const R_o = sensor.outputResistance.nominal
  const R_src = divider
    ? f.sourceResistance({ R_o, R_t: divider.top.nominal, R_b: divider.bottom.nominal, R_filt })
    : f.plainSourceResistance({ R_o, R_filt })
  const tau = f.filterTime({ R_src, C_f: filter.capacitance.nominal })
  const tau_s = f.sensorTime({ BW_s: sensor.bandwidth.nominal })
  const T = 1 / pwm.frequency
  const on = D * T
  const step = S_n * current.to * k_dn
  const zero = V_qn * k_dn
  const edge = Math.min(timing.edge.nominal, on)
  const at = (time: number, pole: readonly number[]) => zero + step * share(time - edge, on, T, pole)
  const until = (end: number) =>
    Array.from({ length: points }, (_, i): PeriodPoint => {
      const time = (end * i) / (points - 1)
      return { time, sensor: at(time, [tau_s]), pin: at(time, [tau, tau_s]) }
    })
  const plan = schedule(tasksOf(read, behind))
  const task = plan.on.steps.find(({ name }) => name === 'current')
  return {
    period: T,
    on,
    points: until(T),
    opening: until(Math.min(T, task ? 1.25 * task.end : T)),
    ...(read.reading === 'on-window' && { settled: behind.needed }),
    final: zero + step,
    halfCount: V_refn / 2 ** (converter.bits + 1),
    ...(task && { sampling: [task.start, task.end] as const }),
    schedule: plan,
    duty: dutyRange(plan, pwm.frequency),
  }
}
