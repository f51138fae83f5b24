import { tangentSlope, tangentThreshold } from '../../formulas/index.js'
import { type Circuit, type LinearLoad, type Pwm, restState } from '../circuit.js'
import { effort } from '../effort.js'
import type { PwmResponse } from '../pwm.js'
import { branchVoltage } from '../quantities.js'
import { isState, packed, unpacked } from '../remembered.js'
import { extremeOf } from '../response.js'
import { integralOfProduct } from '../signal/integral.js'
import { solveLinear } from '../signal/linear.js'
import { lowest } from '../signal/lowest.js'
import {
  type DiodeCourse,
  type DiodePlaced,
  type DiodeRail,
  type DiodeState,
  diodeRail,
  flowing,
  type Held,
} from './feed.js'
import { diodePeriod } from './period.js'

/** A diode by its exponential law, with a resistance in series. SI units. */
export interface DiodeCurve {
  /** Forward voltage at a current above 0. */
  readonly forwardVoltage: number
  readonly at: number
  /** What e times the current needs more: thermal voltage times emission coefficient, above 0. */
  readonly scale: number
  readonly resistance: number
}

/** Steady PWM on a rail that feeds a capacitor through a diode. */
export interface DiodePwm {
  /** The rail with its pulses; its lowest point over all that was tried. */
  readonly rail: PwmResponse
  /** Lowest voltage of the capacitor. */
  readonly level: number
  /** The diode's current while it conducts: its mean, each part of the charge counted. */
  readonly pulse: number
}

/** What is taken off the capacitor, of the thermal voltage: twice the most that a tangent was found above the law by in random designs. */
const allowance = 0.1
/**
 * What is taken off the rail, of that by which its lowest points with those pulses and without any lie apart: twice the most that the law
 * was found to lie lower by in 600 random designs, one of which it did in.
 */
const apart = 0.5
/** Where the straight line touches the law, one after the other: at these parts of the current that was found to flow before. */
const touches = [1, 0.6]

/**
 * The steady state under PWM of a rail that charges a capacitor through a diode. The diode's law is taken as a tangent of it,
 * about where its charge flows: a logarithm lies below each of its tangents, so that none drops too little, and of two the better counts.
 * The rail answers other pulses with another ringing, though: so its lowest point is that without any pulses where that is lower, and an
 * allowance is taken off the rail otherwise, and off the capacitor.
 *
 * @param open - the rail without what is drawn behind the diode
 * @param without - the steady state with that drawn from the rail all the time: where to begin
 * @returns `null` where it can't be followed
 */
export function respondThroughDiode(
  open: Circuit,
  { capacitance, current, diode }: Pick<Held, 'capacitance' | 'current'> & { readonly diode: DiodeCurve },
  load: LinearLoad,
  without: PwmResponse,
): DiodePwm | null {
  const { pwm, highest } = without
  let pulse = (1.5 * current) / (1 - pwm.duty)
  let state: DiodeState = { rail: without.steady, held: highest.value - tangentOf(diode, pulse).threshold }
  let best: DiodePwm | null = null
  let low = without.lowest
  let high = low.value
  for (const part of touches) {
    const x = diodeRail(open, { capacitance, current, ...tangentOf(diode, part * pulse) })
    const steady = periodic(x, state, load, without)
    if (steady === null) return null
    state = steady.state
    const found = answer(x, steady, pwm)
    pulse = found.pulse
    if (found.rail.lowest.value < low.value) low = found.rail.lowest
    high = Math.max(high, found.rail.lowest.value)
    if (best === null || found.level > best.level) best = found
  }
  // Where pulses take the rail lower than none do, those of the law itself may take it lower still.
  if (low !== without.lowest) low = { ...low, value: low.value - apart * (high - low.value) }
  return best && { ...best, level: best.level - allowance * diode.scale, rail: { ...best.rail, lowest: low } }
}

/** The straight line that touches the diode's law at a current. */
function tangentOf(
  { forwardVoltage, at, scale, resistance }: DiodeCurve,
  current: number,
): Pick<Held, 'threshold' | 'slope'> {
  const x = { V_fT: forwardVoltage, V_e: scale, I_p: current, I_f: at, r_d: resistance }
  return { threshold: tangentThreshold(x), slope: tangentSlope(x) }
}

/** The period that brings its state back, by Newton's method; its slopes are kept while they lead there. */
function periodic(x: DiodeRail, from: DiodeState, load: LinearLoad, { pwm, ripple }: PwmResponse): DiodeCourse | null {
  const { open } = x
  const n = open.branches.length
  const scale = open.source.voltage
  const stateOf = (y: readonly number[]): DiodeState => ({ rail: unpacked(y.slice(0, -1), n), held: y[y.length - 1]! })
  const listOf = ({ rail, held }: DiodeState) => [...packed(rail), held]
  let y = listOf({ rail: { ...restState(open), ...from.rail }, held: from.held })
  const last = y.length - 1
  const nudge = 1e-6 * scale
  let A: number[][] | undefined
  let before = Number.POSITIVE_INFINITY
  for (let round = 0; round < 60; round++) {
    if (effort.isSpent) break
    const here = diodePeriod(x, stateOf(y), load, pwm)
    if (here === null) break
    const f = listOf(here.state)
    if (!here.pieces.some(({ conducts }) => conducts)) {
      // Above the highest rail nothing tells how far.
      y = f.map((value, j) => (j === last ? value - 0.2 * ripple - 1e-3 * scale : value))
      A = undefined
      continue
    }
    if (A === undefined) {
      A = y.map((_, i) => y.map((__, j) => Number(i === j)))
      for (let j = 0; j < y.length; j++) {
        if (j < last && !isState(open, j)) continue
        const moved = diodePeriod(x, stateOf(y.map((value, i) => (i === j ? value + nudge : value))), load, pwm)
        if (moved === null) return null
        const g = listOf(moved.state)
        for (let i = 0; i < y.length; i++) A[i]![j] = (i === j ? 1 : 0) - (g[i]! - f[i]!) / nudge
      }
    }
    const step = solveLinear(
      A,
      f.map((value, i) => value - y[i]!),
    )
    if (step === null) return null
    const most = step.reduce(
      (all, value, j) => (j === 0 || j > n ? all : Math.max(all, Math.abs(value))),
      Math.abs(step[last]!),
    )
    const short = Math.min(1, (0.3 * ripple + 0.02 * scale) / most)
    y = y.map((value, i) => value + short * step[i]!)
    // What comes no nearer any more is rounding: a large capacitor moves little in a period.
    const isRounding = most <= 1e-6 * scale && most > 0.5 * before
    if (most <= 1e-9 * scale || isRounding) return diodePeriod(x, stateOf(y), load, pwm)
    if (short < 1 || most > 0.2 * before) A = undefined
    before = most
  }
  effort.isBounded = true
  return null
}

/** What a period that brings its state back tells. */
function answer(x: DiodeRail, { pieces, state }: DiodeCourse, pwm: Pwm): DiodePwm {
  let level = Number.POSITIVE_INFINITY
  let [charge, weighted] = [0, 0]
  for (const one of pieces) {
    level = Math.min(level, lowestHeld(x, one))
    if (!one.conducts) continue
    const i = flowing(x, one.piece)
    charge += integralOfProduct(
      i,
      { ...i, constant: 1, slope: 0, curve: 0, re: i.re.map(() => 0), im: i.im.map(() => 0) },
      one.piece.duration,
    )
    weighted += integralOfProduct(i, i, one.piece.duration)
  }
  const low = extremeOf(pieces, 1)!
  const high = extremeOf(pieces, -1)!
  const rail = { pwm, pieces, steady: state.rail, lowest: low, highest: high, ripple: high.value - low.value }
  return { rail, level, pulse: weighted / charge }
}

function lowestHeld({ held, open }: DiodeRail, { piece, conducts, held: volts }: DiodePlaced): number {
  const { capacitance, current, threshold, slope } = held
  if (!conducts) return volts - (current / capacitance) * piece.duration
  return lowest(branchVoltage(piece, open.branches.length), piece.duration).value - threshold - slope * current
}
