import { type Circuit, type LinearLoad, networkOf, type Pwm, restState } from './circuit.js'
import { Course, type Placed } from './course.js'
import { drive, hold, isFree, riseTo } from './drive.js'
import { effort } from './effort.js'
import { identity, reals, realsOf } from './modes/reals.js'
import type { State } from './piece.js'
import { isState, packed, unpacked } from './remembered.js'
import { returningSlopes, returningStep } from './returning.js'
import { solveLinear } from './signal/linear.js'

/** One period from a state; `null` where the load has no solution. */
export function period(c: Circuit, from: State, load: LinearLoad, pwm: Pwm): Course | null {
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

/** A period that brings its state back. */
export interface Periodic {
  readonly steady: State
  readonly pieces: readonly Placed[]
}

/** As near as a period must bring its state back, of the open-circuit voltage; the rounding of a period. */
const returns = 1e-11
const rounding = 2e-15
/** Rounds in which slopes that are nearly right must have led there. */
const near = 5

/**
 * The state that a period brings back, and that period: Newton's method on a map that is straight between changes of the source's
 * mode. Where a period is short against the slowest mode, it must bring the state back the more exactly. The period itself tells
 * whether it does: so the way there may be a short cut, by the modes of the circuit.
 */
export function periodic(c: Circuit, load: LinearLoad, pwm: Pwm): Periodic | null {
  const n = c.branches.length
  const scale = c.source.voltage
  const { roots } = networkOf(c, 0, false)
  let share = 1
  for (let j = 0; j < roots.re.length; j++) share = Math.min(share, -roots.re[j]! / pwm.frequency)
  const enough = Math.max(rounding, returns * share) * scale
  const isLimited = c.source.currentLimit !== undefined
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
    const off = sum(f, x, -1)
    const most = size(off)
    // What doesn't come nearer any more is rounding.
    const isRounding = most <= returns * scale && most > 0.1 * before
    if (round > 0 && (most <= enough || isRounding))
      return steady.voltages.every((v) => v > 0) ? { steady, pieces: here.pieces } : null
    before = most
    let step: readonly number[] | null
    // A period that never comes to the limit goes on as if there were none.
    const isStraight = round < near && (!isLimited || here.pieces.every(({ piece }) => isFree(piece)))
    if (isStraight && load.kind === 'current') step = returningStep(c, off, pwm)
    else {
      // Without a current limit the map is straight: its slopes are the same everywhere.
      if ((isLimited && !isStraight) || round === near) A = slopesOf(c, x, f, load, pwm)
      else if (isLimited && load.kind === 'resistor') A = returningSlopes(c, load, pwm)
      else A ??= isStraight && load.kind === 'resistor' ? returningSlopes(c, load, pwm) : slopesOf(c, x, f, load, pwm)
      if (A === null) return null
      step = solveLinear(A, off)
    }
    if (step === null) return null
    x = sum(x, step, 1)
    if (isLimited && !x.slice(1, 1 + n).every((v) => v > 0)) return null
  }
  return null
}

function sum(a: readonly number[], b: readonly number[], factor: number): number[] {
  const list = reals(a.length)
  for (let i = 0; i < list.length; i++) list[i] = a[i]! + factor * b[i]!
  return list
}

function size(a: readonly number[]): number {
  let most = 0
  for (let i = 0; i < a.length; i++) most = Math.max(most, Math.abs(a[i]!))
  return most
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
  const A = identity(x.length)
  for (let j = 0; j < x.length; j++) {
    if (!isState(c, j)) continue
    const beside = realsOf(x.length, (i) => (i === j ? x[i]! + nudge : x[i]!))
    const moved = period(c, unpacked(beside, c.branches.length), load, pwm)
    if (moved === null) return null
    const g = packed(moved.state)
    for (let i = 0; i < x.length; i++) A[i]![j] = (i === j ? 1 : 0) - (g[i]! - f[i]!) / nudge
  }
  return A
}
