import { type Circuit, type LinearLoad, type Load, networkOf, restState } from './circuit.js'
import { Course, type Placed } from './course.js'
import { drive, hold, riseTo } from './drive.js'
import { effort } from './effort.js'
import type { Piece, State } from './piece.js'
import { branchCurrent, loadCurrent, sourceCurrent } from './quantities.js'
import { type Extreme, extremeOf } from './response.js'
import { integralOfProduct } from './signal/integral.js'
import { solveLinear } from './signal/linear.js'
import type { Signal } from './signal/signal.js'

/** A load switched again and again. */
export interface Pwm {
  /** Hz */
  readonly frequency: number
  /** Share of the period from the beginning of the rise to the beginning of the fall, more than 0, less than 1. */
  readonly duty: number
  /** Rise and fall time of the load current in a straight line, s. */
  readonly rise: number
  readonly fall: number
}

/** The rail in steady PWM. */
export interface PwmResponse {
  readonly pwm: Pwm
  /** One period, from the beginning of the rise. */
  readonly pieces: readonly Placed[]
  /** State at the beginning of each period. */
  readonly steady: State
  readonly lowest: Extreme
  readonly highest: Extreme
  /** Highest minus lowest rail voltage. */
  readonly ripple: number
}

/** Means and root-mean-square values over a period of steady PWM. */
export interface PwmCurrents {
  /** Mean rail voltage. */
  readonly mean: number
  /** Root-mean-square current of the source, its mean included. */
  readonly sourceRms: number
  /** Mean current of the source. */
  readonly sourceMean: number
  /** Root-mean-square current of each capacitor, in the caller's order. */
  readonly capacitorRms: readonly number[]
  /** Mean power into the switched load and into what is drawn all the time. */
  readonly loadPower: number
}

/** The first periods from rest. */
export interface PwmStart {
  /** Lowest rail voltage: below that of the steady state where the rail rings. */
  readonly lowest: number
  /** Whether the rail became steady within the periods looked at. */
  readonly isSettled: boolean
}

/** Most periods of the start that are looked at. */
const [mostPeriods, fewPeriods] = [400, 20]

/**
 * The steady state under PWM, exact: the state that one period brings back to itself. `null` where there is none (a current-limited
 * source that gives less than the load's mean current), and with a constant power, which isn't followed through PWM.
 */
export function respondToPwm(c: Circuit, load: Load, pwm: Pwm): PwmResponse | null {
  const found = load.kind === 'power' ? null : periodic(c, load, pwm)
  if (found === null) return null
  const { steady, pieces } = found
  const lowest = extremeOf(pieces, 1)!
  const highest = extremeOf(pieces, -1)!
  return { pwm, pieces, steady, lowest, highest, ripple: highest.value - lowest.value }
}

/** Means and root-mean-square values of a steady state, integrated exactly. */
export function pwmCurrents(c: Circuit, response: PwmResponse): PwmCurrents {
  const mean = (of: (piece: Piece) => Signal, by: (piece: Piece) => Signal): number => meanOf(response, of, by)
  const voltage = (piece: Piece): Signal => piece.voltage
  return {
    mean: mean(voltage, one),
    sourceRms: Math.sqrt(mean(sourceCurrent, sourceCurrent)),
    sourceMean: mean(sourceCurrent, one),
    capacitorRms: rippleCurrents(c, response),
    loadPower: mean(voltage, loadCurrent),
  }
}

/** Root-mean-square current of each capacitor alone, in the caller's order. */
export function rippleCurrents(c: Circuit, response: PwmResponse): number[] {
  const ofBranches = c.branches.map((_, k) => {
    const into = (piece: Piece): Signal => branchCurrent(piece, k)
    return Math.sqrt(Math.max(0, meanOf(response, into, into)))
  })
  return c.group.map((place, k) => c.share[k]! * ofBranches[place]!)
}

/** Mean over a period of the product of two quantities. */
function meanOf({ pieces, pwm }: PwmResponse, of: (piece: Piece) => Signal, by: (piece: Piece) => Signal): number {
  let sum = 0
  for (const { piece } of pieces) {
    const first = of(piece)
    sum += integralOfProduct(first, by === of ? first : by(piece), piece.duration)
  }
  return sum * pwm.frequency
}

/** 1, as a signal of a piece. */
const one = ({ voltage: { roots } }: Piece): Signal => {
  const none = roots.re.map(() => 0)
  return { constant: 1, slope: 0, curve: 0, roots, re: none, im: none }
}

/** One period from a state; `null` where the load has no solution. */
function period(c: Circuit, from: State, load: LinearLoad, pwm: Pwm): Course | null {
  const on = pwm.duty / pwm.frequency
  const off = 1 / pwm.frequency - on - pwm.fall
  const course = new Course(c, from)
  effort.spend(60 + 15 * (c.branches.length + 1) ** 2)
  if (pwm.rise > 0) {
    const run = riseTo(c, from, 0, pwm.rise, load)
    if (run === null) return null
    course.add(run, 'rise')
  }
  if (on > pwm.rise) course.add(hold(c, course.state, load, on - pwm.rise), 'on')
  const { current } = course
  if (pwm.fall > 0) {
    const line = { current: c.idle + current, slope: -current / pwm.fall }
    course.add(drive(c, course.state, 0, line, pwm.fall), 'fall')
  }
  if (off > 0) course.add(drive(c, course.state, 0, { current: c.idle, slope: 0 }, off), 'off')
  return course
}

/** What a circuit remembers, in one list. */
export const packed = ({ source, voltages, currents }: State): number[] => [source, ...voltages, ...currents]

/** The same from a list, of a circuit with n branches. */
export function unpacked(x: readonly number[], n: number): State {
  return { rail: x[1]!, source: x[0]!, voltages: x.slice(1, 1 + n), currents: x.slice(1 + n) }
}

/** Whether entry j of the packed state is remembered: a current only where there is inductance. */
export function isState(c: Circuit, j: number): boolean {
  const n = c.branches.length
  if (j === 0) return c.source.inductance > 0
  return j <= n || c.branches[j - 1 - n]!.inductance > 0
}

/** As near as a period must bring its state back, of the open-circuit voltage; the rounding of a period. */
const returns = 1e-11
const rounding = 2e-15

/**
 * The state that a period brings back, and that period: Newton's method on a map that is straight between changes of the source's
 * mode. Where a period is short against the slowest mode, it must bring the state back the more exactly.
 */
function periodic(c: Circuit, load: LinearLoad, pwm: Pwm): Pick<PwmResponse, 'steady' | 'pieces'> | null {
  const n = c.branches.length
  const scale = c.source.voltage
  const { roots } = networkOf(c, 0, false)
  const share = roots.re.reduce((least, re) => Math.min(least, -re / pwm.frequency), 1)
  const enough = Math.max(rounding, returns * share) * scale
  let x = packed(restState(c))
  let before = Number.POSITIVE_INFINITY
  let A: number[][] | null | undefined
  for (let round = 0; round < 40; round++) {
    if (effort.isSpent) {
      effort.isBounded = true
      return null
    }
    const steady = unpacked(x, n)
    const here = period(c, steady, load, pwm)
    if (here === null) return null
    const f = packed(here.state)
    const off = f.map((value, i) => value - x[i]!)
    const most = off.reduce((all, value) => Math.max(all, Math.abs(value)), 0)
    // What doesn't come nearer any more is rounding.
    const isRounding = most <= returns * scale && most > 0.1 * before
    if (round > 0 && (most <= enough || isRounding)) return { steady, pieces: here.pieces }
    before = most
    // Without a current limit the map is straight: its slopes are the same everywhere.
    if (A === undefined || c.source.currentLimit !== undefined) A = slopesOf(c, x, f, load, pwm)
    if (A === null) return null
    const step = solveLinear(A, off)
    if (step === null) return null
    x = x.map((value, i) => value + step[i]!)
    if (!x.slice(1, 1 + n).every((v) => v > 0)) return null
  }
  return null
}

/** What is left of each entry of a state after a period that ends in `f`, taken off the identity; `null` where the load has no solution. */
function slopesOf(
  c: Circuit,
  x: readonly number[],
  f: readonly number[],
  load: LinearLoad,
  pwm: Pwm,
): number[][] | null {
  const nudge = 1e-3 * c.source.voltage
  const A: number[][] = x.map((_, i) => x.map((__, j) => Number(i === j)))
  for (let j = 0; j < x.length; j++) {
    if (!isState(c, j)) continue
    const beside = x.map((value, i) => (i === j ? value + nudge : value))
    const moved = period(c, unpacked(beside, c.branches.length), load, pwm)
    if (moved === null) return null
    const g = packed(moved.state)
    for (let i = 0; i < x.length; i++) A[i]![j] = (i === j ? 1 : 0) - (g[i]! - f[i]!) / nudge
  }
  return A
}

/** Follows PWM from rest until the rail repeats itself. */
export function pwmStart(c: Circuit, load: Load, { pwm, steady, ripple, lowest: { value } }: PwmResponse): PwmStart {
  let state = restState(c)
  let lowest = value
  const most = effort.most(mostPeriods, fewPeriods)
  for (let k = 0; k < most; k++) {
    const next = load.kind === 'power' ? null : period(c, state, load, pwm)
    if (next === null) break
    lowest = Math.min(lowest, extremeOf(next.pieces, 1)!.value)
    state = next.state
    const off = state.voltages.map((v, n) => Math.abs(v - steady.voltages[n]!))
    if (Math.max(...off) <= 1e-3 * ripple) return { lowest, isSettled: true }
  }
  if (most < mostPeriods) effort.isOpen = true
  return { lowest, isSettled: false }
}
