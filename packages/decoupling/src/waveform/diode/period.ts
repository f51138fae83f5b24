import type { LinearLoad, Pwm } from '../circuit.js'
import { effort } from '../effort.js'
import { type DiodeCourse, type DiodeRail, type DiodeState, driveDiode } from './feed.js'

/** One period of PWM from a state; `null` where the diode changes more often than is followed. */
export function diodePeriod(x: DiodeRail, from: DiodeState, load: LinearLoad, pwm: Pwm): DiodeCourse | null {
  const on = pwm.duty / pwm.frequency
  const off = 1 / pwm.frequency - on - pwm.fall
  const course: DiodeCourse = { pieces: [], clock: 0, state: from }
  effort.spend(150 + 30 * (x.open.branches.length + 1) ** 2)
  const G = load.kind === 'resistor' ? 1 / load.resistance : 0
  const I = load.kind === 'current' ? load.current : 0
  if (pwm.rise > 0 && !rise(x, course, load, pwm.rise)) return null
  if (on > pwm.rise && !driveDiode(x, course, G, { current: I, slope: 0 }, on - pwm.rise, 'on')) return null
  const current = I + G * course.state.rail.rail
  const line = { current, slope: -current / pwm.fall }
  if (pwm.fall > 0 && !driveDiode(x, course, 0, line, pwm.fall, 'fall')) return null
  if (off > 0 && !driveDiode(x, course, 0, { current: 0, slope: 0 }, off, 'off')) return null
  return course
}

/** The current rises in a straight line to what the load draws at its end: of a resistor by the secant of rail against current. */
function rise(x: DiodeRail, course: DiodeCourse, load: LinearLoad, time: number): boolean {
  const to = (into: DiodeCourse, current: number): boolean =>
    driveDiode(x, into, 0, { current: 0, slope: current / time }, time, 'rise')
  if (load.kind === 'current') return to(course, load.current)
  const { resistance } = load
  const railAt = (current: number): number => {
    const tried: DiodeCourse = { pieces: [], clock: 0, state: course.state }
    return to(tried, current) ? tried.state.rail.rail : Number.NaN
  }
  let [i, v] = [0, railAt(0)]
  let next = v / resistance
  for (let round = 0; round < 2; round++) {
    const there = railAt(next)
    const z = (v - there) / (next - i)
    ;[i, v] = [next, there]
    next = (v + z * i) / (resistance + z)
  }
  return Number.isFinite(next) && to(course, next)
}
