import type { Board } from '../tools/board.js'
import { apply, exponential, type Matrix, solve, times, zeros } from '../tools/linear.js'
import type { Kind, Plain, Points, Value } from './design.js'

/** The circuit of one board: a source with resistance and inductance, capacitors each with their series resistance. */
export interface Rail {
  readonly source: number
  readonly resistance: number
  readonly inductance: number
  readonly idle: number
  /** Amperes, or ohms of a resistor. */
  readonly load: number
  readonly isResistor: boolean
  readonly branches: readonly { readonly capacitance: number; readonly resistance: number }[]
}

/** What the usual lithium-ion cell has at a temperature, times its resistance at 25 °C. */
const cellAt: Points = [
  [-20, 5],
  [0, 2.5],
  [25, 1],
  [60, 0.85],
]

/** A factor between its points, straight lines; the outer ones beyond. */
export function between(points: Points | undefined, x: number): number {
  if (points === undefined) return 1
  const [first, last] = [points[0]!, points[points.length - 1]!]
  if (x <= first[0]) return first[1]
  if (x >= last[0]) return last[1]
  const k = points.findIndex(([at]) => at >= x)
  const [[x0, y0], [x1, y1]] = [points[k - 1]!, points[k]!]
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0)
}

/** What a kind has left on a board: in parallel, at its voltage, temperature and age. */
function branchOf(kind: Kind, capacitance: number, resistance: number, volts: number, b: Board<Value>, plain: Plain) {
  const worn = b.years / plain.oldest
  const decades = b.years > 0 ? Math.log10(Math.max(1, b.years * 8766)) : 0
  const left = (1 - kind.ageing * decades) * (1 - (1 - kind.wornCapacitance) * worn)
  const warm = between(kind.temperature, b.celsius) * between(kind.bias, volts)
  const grown = between(kind.cold, b.celsius) * (1 + (kind.wornResistance - 1) * worn)
  return { capacitance: kind.count * capacitance * left * warm, resistance: (resistance * grown) / kind.count }
}

/** The circuit of a board; of the kind at `apart` one part stands by itself, last, with values of its own. */
export function railOf(b: Board<Value>, plain: Plain, apart?: number): Rail {
  const cell = b.cell * between(cellAt, b.celsius) * (1 + ((b.ageFactor - 1) * b.years) / plain.oldest)
  const resistance = cell + b.contacts + b.protection + b.switch + b.wiring
  const rest = b.open - resistance * b.idle
  const parts = [
    [b.capacitanceA, b.resistanceA],
    [b.capacitanceB, b.resistanceB],
  ] as const
  const branches = plain.kinds.flatMap((kind, k) => {
    const count = k === apart ? kind.count - 1 : kind.count
    return count === 0 ? [] : [branchOf({ ...kind, count }, parts[k]![0], parts[k]![1], rest, b, plain)]
  })
  if (apart !== undefined) {
    const one = { ...plain.kinds[apart]!, count: 1 }
    branches.push(branchOf(one, b.capacitanceOne, b.resistanceOne, rest, b, plain))
  }
  return {
    source: b.open,
    resistance,
    inductance: b.inductance,
    idle: b.idle,
    load: b.load,
    isResistor: plain.load === 'resistor',
    branches,
  }
}

/** The circuit while the load is on or off, as x' = A x; x is the source's current (with inductance), each capacitor's voltage, 1 and t. */
interface Phase {
  readonly a: Matrix
  /** Rail voltage of a state. */
  readonly rail: Float64Array
}

/** Kirchhoff's current law at the rail: source + capacitors = idle + load, solved for its voltage. */
export function phaseOf(r: Rail, on: number, slope = 0): Phase {
  const n = r.branches.length
  const size = n + 3
  const [one, t] = [n + 1, n + 2]
  let conductance = 0
  const rail = new Float64Array(size)
  if (r.inductance > 0) rail[0] = 1
  else {
    conductance += 1 / r.resistance
    rail[one]! += r.source / r.resistance
  }
  r.branches.forEach(({ resistance }, k) => {
    conductance += 1 / resistance
    rail[k + 1] = 1 / resistance
  })
  rail[one]! -= r.idle
  if (r.isResistor) conductance += on / r.load
  else {
    rail[one]! -= on * r.load
    rail[t]! -= slope * r.load
  }
  for (let k = 0; k < size; k++) rail[k]! /= conductance
  const a = zeros(size)
  if (r.inductance > 0) {
    for (let k = 0; k < size; k++) a[0]![k] = -rail[k]! / r.inductance
    a[0]![0]! -= r.resistance / r.inductance
    a[0]![one]! += r.source / r.inductance
  }
  r.branches.forEach(({ resistance, capacitance }, k) => {
    const tau = resistance * capacitance
    for (let j = 0; j < size; j++) a[k + 1]![j] = rail[j]! / tau
    a[k + 1]![k + 1]! -= 1 / tau
  })
  a[t]![one] = 1
  return { a, rail }
}

const dot = (a: Float64Array, x: Float64Array) => {
  let sum = 0
  for (let k = 0; k < a.length; k++) sum += a[k]! * x[k]!
  return sum
}

/** The state at rest, at an idle current, with 1 and t = 0. */
function atRest(r: Rail): Float64Array {
  const rest = r.source - r.resistance * r.idle
  return Float64Array.from([r.inductance > 0 ? r.idle : 0, ...r.branches.map(() => rest), 1, 0])
}

/** Fastest time that anything on the rail takes. */
function fastest(r: Rail): number {
  let least = Number.POSITIVE_INFINITY
  let parallel = 1 / r.resistance
  for (const { resistance } of r.branches) parallel += 1 / resistance
  for (const { resistance, capacitance } of r.branches) least = Math.min(least, resistance * capacitance)
  const all = r.branches.reduce((sum, { capacitance }) => sum + capacitance, 0)
  return r.inductance > 0 ? Math.min(least, r.inductance * parallel, Math.sqrt(r.inductance * all)) : least
}

/** Goes through a phase for a time, in steps that grow with it, and tells the rail at each; returns the last state. */
function walk(phase: Phase, from: Float64Array, first: number, length: number, see: (volts: number) => void) {
  let x = Float64Array.from(from)
  let next = new Float64Array(x.length)
  let h = Math.min(first, length / 32)
  let e = exponential(phase.a, h)
  let gone = 0
  see(dot(phase.rail, x))
  while (gone < length * (1 - 1e-9)) {
    for (let k = 0; k < 24 && gone + h <= length * (1 + 1e-12); k++) {
      apply(e, x, next)
      ;[x, next] = [next, x]
      gone += h
      see(dot(phase.rail, x))
    }
    if (gone + h > length) {
      const rest = length - gone
      if (rest > 1e-9 * length) {
        x = apply(exponential(phase.a, rest), x)
        see(dot(phase.rail, x))
      }
      return x
    }
    h *= 2
    e = times(e, e)
  }
  return x
}

/** Lowest rail of a step, a burst or PWM in its steady state; 0 where the source can't carry it. */
export function lowestRail(r: Rail, plain: Plain): number {
  let lowest = Number.POSITIVE_INFINITY
  const see = (volts: number) => {
    if (volts < lowest) lowest = volts
  }
  const first = fastest(r) / 10
  if (plain.pwm) {
    const { states, on, off, times: lengths } = periodOf(r, plain.pwm)
    for (const [phase, state, length] of [
      [on, states[0]!, lengths[0]!] as const,
      [off, states[1]!, lengths[1]!] as const,
    ])
      walk(phase, state, Math.min(first, length / 200), length, see)
    return Math.max(0, lowest)
  }
  let x = atRest(r)
  if (plain.rise > 0) {
    x = walk(phaseOf(r, 0, 1 / plain.rise), x, first, plain.rise, see)
    x[x.length - 1] = 0
  }
  const slow = r.branches.reduce((sum, c) => sum + c.capacitance * (r.resistance + c.resistance), 0)
  const length = Math.min(plain.duration - plain.rise, 40 * slow)
  x = walk(phaseOf(r, 1), x, first, length, see)
  if (plain.duration < Number.POSITIVE_INFINITY) {
    if (plain.rise > 0) {
      x[x.length - 1] = 0
      x = walk(phaseOf(r, 1, -1 / plain.rise), x, first, plain.rise, see)
      x[x.length - 1] = 0
    }
    walk(phaseOf(r, 0), x, first, 10 * slow, see)
  }
  return Math.max(0, lowest)
}

interface Period {
  readonly on: Phase
  readonly off: Phase
  readonly states: readonly Float64Array[]
  readonly times: readonly number[]
}

/** A period of PWM that ends as it began: the state at its beginning solves a linear equation. */
export function periodOf(r: Rail, { frequency, duty }: { frequency: number; duty: number }): Period {
  const on = phaseOf(r, 1)
  const off = phaseOf(r, 0)
  const lengths = [duty / frequency, (1 - duty) / frequency]
  const first = exponential(on.a, lengths[0]!)
  const whole = times(exponential(off.a, lengths[1]!), first)
  const n = r.branches.length
  // The source's current is no state of its own without inductance.
  const free = [...(r.inductance > 0 ? [0] : []), ...r.branches.map((_, k) => k + 1)]
  const a = free.map((i) => Float64Array.from(free, (j) => (i === j ? 1 : 0) - whole[i]![j]!))
  const b = Float64Array.from(free, (i) => whole[i]![n + 1]!)
  const found = solve(a, b)
  const start = new Float64Array(n + 3)
  free.forEach((i, k) => {
    start[i] = found[k]!
  })
  start[n + 1] = 1
  const middle = apply(first, start)
  middle[n + 2] = 0
  return { on, off, states: [start, middle], times: lengths }
}

/** Lowest rail of the first periods of PWM, from rest on. */
export function lowestFromRest(r: Rail, { frequency, duty }: { frequency: number; duty: number }, periods: number) {
  let lowest = Number.POSITIVE_INFINITY
  const see = (volts: number) => {
    if (volts < lowest) lowest = volts
  }
  const [on, off] = [phaseOf(r, 1), phaseOf(r, 0)]
  const first = fastest(r) / 10
  let x = atRest(r)
  for (let k = 0; k < periods; k++) {
    x = walk(on, x, Math.min(first, duty / frequency / 60), duty / frequency, see)
    x = walk(off, x, first, (1 - duty) / frequency, see)
  }
  return Math.max(0, lowest)
}

/** Root mean square of the current in each kind of capacitor under PWM, by Simpson's rule over both parts of the period. */
export function ripples(r: Rail, pwm: { frequency: number; duty: number }): number[] {
  const { on, off, states, times: lengths } = periodOf(r, pwm)
  const sums = r.branches.map(() => 0)
  const fast = fastest(r)
  ;[on, off].forEach((phase, part) => {
    const length = lengths[part]!
    // The current changes fastest right after an edge: pieces that double in length.
    let begin = 0
    let x = states[part]!
    let piece = Math.min(length, fast / 2)
    while (begin < length * (1 - 1e-12)) {
      const span = Math.min(piece, length - begin)
      const n = 16
      const e = exponential(phase.a, span / n)
      for (let k = 0; k <= n; k++) {
        const weight = ((k === 0 || k === n ? 1 : k % 2 === 1 ? 4 : 2) * span) / n / 3
        const volts = dot(phase.rail, x)
        r.branches.forEach(({ resistance }, j) => {
          sums[j]! += weight * ((volts - x[j + 1]!) / resistance) ** 2
        })
        if (k < n) x = apply(e, x)
      }
      begin += span
      piece *= 2
    }
  })
  return sums.map((sum) => Math.sqrt(sum * pwm.frequency))
}

/** Rail in the end while the load stays on, or in the mean of PWM without any ripple. */
export function steadyRail(r: Rail, plain: Plain): number {
  const duty = plain.pwm?.duty ?? 1
  const rest = r.source - r.resistance * r.idle
  const mean = r.isResistor ? rest / (1 + (duty * r.resistance) / r.load) : rest - r.resistance * duty * r.load
  return Math.max(0, mean)
}

/** Largest current of the source when the cell is put in and everything is at 0 V, nothing on. */
export function inrush(r: Rail): number {
  const empty = { ...r, idle: 0 }
  const phase = phaseOf(empty, 0)
  const x = new Float64Array(r.branches.length + 3)
  x[r.branches.length + 1] = 1
  if (r.inductance === 0) return (r.source - dot(phase.rail, x)) / r.resistance
  let largest = 0
  let state: Float64Array<ArrayBuffer> = x
  const h = fastest(r) / 20
  let e = exponential(phase.a, h)
  for (let octave = 0; octave < 14; octave++) {
    for (let k = 0; k < 30; k++) {
      state = apply(e, state)
      largest = Math.max(largest, state[0]!)
    }
    e = times(e, e)
  }
  return largest
}
