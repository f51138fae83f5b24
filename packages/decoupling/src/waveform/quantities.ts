import { reals } from './modes/reals.js'
import type { Piece } from './piece.js'
import type { Signal } from './signal/signal.js'

/** A signal of a piece: its straight line, and the rail's modes times a factor for each root that stands from `from` on in two lists. */
function signalOf(
  { voltage }: Piece,
  [constant, slope, curve]: readonly [number, number, number],
  factorRe: readonly number[],
  factorIm: readonly number[],
  from: number,
  sign: 1 | -1,
): Signal {
  const n = voltage.re.length
  const re = reals(n)
  const im = reals(n)
  for (let j = 0; j < n; j++) {
    const a = sign * factorRe[from + j]!
    const b = sign * factorIm[from + j]!
    re[j] = voltage.re[j]! * a - voltage.im[j]! * b
    im[j] = voltage.re[j]! * b + voltage.im[j]! * a
  }
  return { constant, slope, curve, roots: voltage.roots, re, im }
}

/** Current of the source into the rail. */
export function sourceCurrent(piece: Piece): Signal {
  const { solved, sourceConstant, sourceSlope, sourceCurve } = piece
  return signalOf(piece, [sourceConstant, sourceSlope, sourceCurve], solved.feedRe, solved.feedIm, 0, -1)
}

/** The same with the opposite sign. */
export function sourceDrain(piece: Piece): Signal {
  const { solved, sourceConstant, sourceSlope, sourceCurve } = piece
  return signalOf(piece, [-sourceConstant, -sourceSlope, -sourceCurve], solved.feedRe, solved.feedIm, 0, 1)
}

/** Current into branch `k`. */
export function branchCurrent(piece: Piece, k: number): Signal {
  const { solved, voltage: v } = piece
  const { capacitance: C, resistance: R } = solved.network.branches[k]!
  const line = [C * (v.slope - 2 * R * C * v.curve), 2 * C * v.curve, 0] as const
  return signalOf(piece, line, solved.branchRe, solved.branchIm, k * v.re.length, 1)
}

/** Voltage of branch `k`'s capacitance itself, behind its series resistance and inductance. */
export function branchVoltage(piece: Piece, k: number): Signal {
  const { solved, voltage: v } = piece
  const { capacitance: C, resistance: R, inductance: L } = solved.network.branches[k]!
  const i = C * (v.slope - 2 * R * C * v.curve)
  const rise = 2 * C * v.curve
  const line = [v.constant - R * i - L * rise, v.slope - R * rise, v.curve] as const
  return signalOf(piece, line, solved.shareRe, solved.shareIm, k * v.re.length, 1)
}

/** Current of the load: its own line and what the conductance takes. */
export function loadCurrent({ solved, voltage: v, load }: Piece): Signal {
  const G = solved.network.conductance
  return {
    constant: load.current + G * v.constant,
    slope: load.slope + G * v.slope,
    curve: (load.curve ?? 0) + G * v.curve,
    roots: v.roots,
    re: v.re.map((a) => G * a),
    im: v.im.map((a) => G * a),
  }
}
