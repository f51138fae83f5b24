import { demand, format, InputError, readNumber } from '@ohmward/quantity'
import { highestFrequency, longestDuty, offSlack, onSlack, samplingTime, shortestDuty } from './formulas/index.js'

/** One reading that the converter takes in a PWM period. Times in seconds, at their upper limits. */
export interface Task {
  readonly name: string
  /** While the power switch is on or off. */
  readonly window: 'on' | 'off'
  /** From the edge until the chain works at all: the switch's own edge, an amplifier out of saturation. */
  readonly recovery: number
  /** Then, until the value stands. */
  readonly settling: number
  /**
   * What starts recovery and settling: the window's `edge` (they run while other tasks are sampled; so it is by
   * default) or the task's `turn` (its excitation is switched on only then).
   */
  readonly starts?: 'edge' | 'turn'
  readonly acquisition: number
  readonly conversion: number
  /** Samples in one window, 1 by default. */
  readonly samples?: number
}

/** A task with its place in the window, in seconds from the edge. Sampling runs from `start` to `end`. */
export interface Step {
  readonly name: string
  readonly start: number
  readonly end: number
}

/** The tasks of one window in their order, and the time that it must last; 0 without a task. */
export interface Window {
  readonly shortest: number
  readonly steps: readonly Step[]
}

/** Both windows of a period. */
export interface Schedule {
  readonly on: Window
  readonly off: Window
}

/** An answer that exists, or why none does. */
export type DutyRange =
  | { readonly kind: 'possible'; readonly from: number; readonly to: number }
  | { readonly kind: 'impossible'; readonly reason: string }

/** The highest frequency; `any` where no task needs a window; or why none does. */
export type FrequencyLimit =
  | { readonly kind: 'possible'; readonly frequency: number }
  | { readonly kind: 'any' }
  | { readonly kind: 'impossible'; readonly reason: string }

/**
 * Places the tasks, first ready first served, which makes each window as short as it can be. The last conversion
 * ends before the next edge, `guard` seconds at least.
 *
 * @throws InputError for a time that is negative or not finite, or samples that aren't whole
 */
export function schedule(tasks: readonly Task[], guard = 0): Schedule {
  const spare = time(guard, 'guard')
  demand(Array.isArray(tasks), { field: 'tasks', value: tasks, allowed: 'a list of tasks' })
  const read = tasks.map(validTask)
  return { on: place(read, 'on', spare), off: place(read, 'off', spare) }
}

/** What rounding may do to a duty. */
const rounding = 1e-14

/** The duty at which both windows fit at a PWM frequency in hertz. Throws InputError unless that is more than 0. */
export function dutyRange(windows: Schedule, frequency: number): DutyRange {
  const { on, off } = validWindows(windows)
  const f_PWM = validFrequency(frequency)
  const from = shortestDuty({ t_on: on.shortest, f_PWM })
  const to = longestDuty({ t_off: off.shortest, f_PWM })
  if (from <= to + rounding) return { kind: 'possible', from, to: Math.max(from, to) }
  const need = on.shortest + off.shortest
  const reason =
    `the on-window needs ${format(on.shortest, 's')} and the off-window ${format(off.shortest, 's')}, ` +
    `the period at ${format(f_PWM, 'Hz')} is ${format(1 / f_PWM, 's')}: ` +
    `at most ${format(1 / need, 'Hz')} holds both`
  return { kind: 'impossible', reason }
}

/** The highest PWM frequency that leaves both windows over a range of duty. Throws InputError unless 0 < from ≤ to ≤ 1. */
export function highestPwmFrequency(windows: Schedule, duty: { from: number; to: number }): FrequencyLimit {
  const { on, off } = validWindows(windows)
  demand(typeof duty === 'object' && duty !== null, { field: 'duty', value: duty, allowed: 'from and to' })
  const from = validDuty(duty.from, 'from')
  const to = validDuty(duty.to, 'to')
  if (from > to) throw new InputError({ field: 'from', value: from, allowed: `at most ${to}` })
  if (to === 1 && off.shortest > 0) {
    return {
      kind: 'impossible',
      reason: `at duty 1 there is no off-time, the off-window needs ${format(off.shortest, 's')}`,
    }
  }
  if (on.shortest === 0 && off.shortest === 0) return { kind: 'any' }
  // A window without a task asks for nothing: its quotient by 0 is infinite, and the other decides.
  const D_hi = off.shortest > 0 ? to : 0
  const frequency = highestFrequency({ D_lo: from, t_on: on.shortest, D_hi, t_off: off.shortest })
  return { kind: 'possible', frequency }
}

/** Spare seconds of each window at a duty and a frequency; negative where a window is too short, `null` without a task. */
export function spareTime(
  windows: Schedule,
  pwm: { duty: number; frequency: number },
): { readonly on: number | null; readonly off: number | null } {
  const { on, off } = validWindows(windows)
  demand(typeof pwm === 'object' && pwm !== null, { field: 'pwm', value: pwm, allowed: 'duty and frequency' })
  const frequency = validFrequency(pwm.frequency)
  const x = { D_PWM: validDuty(pwm.duty, 'duty'), f_PWM: frequency, t_on: on.shortest, t_off: off.shortest }
  // What just fits has nothing to spare, and nothing missing either.
  const clean = (slack: number) => (Math.abs(slack) <= rounding / frequency ? 0 : slack)
  return { on: on.steps.length ? clean(onSlack(x)) : null, off: off.steps.length ? clean(offSlack(x)) : null }
}

/**
 * Names of the tasks that sample within five time constants of an edge of a window this long, where ground bounce and
 * wiring still ring. Pitfall D07. Throws InputError for times that are negative or not finite.
 */
export function nearEdge(window: Window, length: number, timeConstant: number): readonly string[] {
  const { steps } = validWindow(window, 'window')
  const end = time(length, 'length')
  const distance = 5 * time(timeConstant, 'timeConstant')
  return steps.filter((step) => step.start < distance || end - step.end < distance).map((step) => step.name)
}

function place(tasks: readonly Task[], window: 'on' | 'off', guard: number): Window {
  const waiting = tasks
    .filter((task) => task.window === window)
    .map((task) => {
      const delay = task.recovery + task.settling
      const sampling = samplingTime({ n_samples: task.samples ?? 1, t_acq: task.acquisition, t_conv: task.conversion })
      const own = task.starts === 'turn'
      return { name: task.name, ready: own ? 0 : delay, wait: own ? delay : 0, sampling }
    })
    .sort((a, b) => a.ready - b.ready)
  let end = 0
  const steps = waiting.map(({ name, ready, wait, sampling }): Step => {
    const start = Math.max(end, ready) + wait
    end = start + sampling
    return { name, start, end }
  })
  return { steps, shortest: steps.length === 0 ? 0 : end + guard }
}

function validTask(task: Task, i: number): Task {
  const field = `tasks[${i}]`
  demand(typeof task === 'object' && task !== null, { field, value: task, allowed: 'a task' })
  const { name, window, starts = 'edge' } = task
  demand(typeof name === 'string', { field: `${field}.name`, value: name, allowed: 'a text' })
  if (task.window !== 'on' && task.window !== 'off') {
    throw new InputError({ field: `${field}.window`, value: task.window, allowed: '"on" or "off"' })
  }
  demand(starts === 'edge' || starts === 'turn', {
    field: `${field}.starts`,
    value: starts,
    allowed: '"edge" or "turn"',
  })
  const seconds = (key: 'recovery' | 'settling' | 'acquisition' | 'conversion') => time(task[key], `${field}.${key}`)
  return {
    name,
    window,
    starts,
    recovery: seconds('recovery'),
    settling: seconds('settling'),
    acquisition: seconds('acquisition'),
    conversion: seconds('conversion'),
    samples: readNumber(task.samples ?? 1, { field: `${field}.samples`, unit: '1', integer: true, min: 1, max: 65536 }),
  }
}

/** Windows as {@link schedule} makes them. */
function validWindows(windows: Schedule): Schedule {
  demand(typeof windows === 'object' && windows !== null, { field: 'windows', value: windows, allowed: 'a schedule' })
  return { on: validWindow(windows.on, 'on'), off: validWindow(windows.off, 'off') }
}

function validWindow(window: Window, field: string): Window {
  demand(typeof window === 'object' && window !== null, { field, value: window, allowed: 'a window of a schedule' })
  const { shortest, steps } = window
  demand(Array.isArray(steps), { field: `${field}.steps`, value: steps, allowed: 'a list of steps' })
  return {
    shortest: time(shortest, `${field}.shortest`),
    steps: steps.map((one, i) => validStep(one, `${field}.steps[${i}]`)),
  }
}

function validStep(step: Step, field: string): Step {
  demand(typeof step === 'object' && step !== null, { field, value: step, allowed: 'a step' })
  const { name, start, end } = step
  return { name, start: time(start, `${field}.start`), end: time(end, `${field}.end`) }
}

/** Seconds; a zero has no sign, by which something would be divided. */
const time = (value: number, field: string) => readNumber(value, { field, unit: 's', min: 0, max: 1e6 }) + 0
const validFrequency = (value: number) => readNumber(value, { field: 'frequency', unit: 'Hz', above: 0, max: 1e12 })
const validDuty = (value: number, field: string) => readNumber(value, { field, unit: '1', above: 0, max: 1 })
