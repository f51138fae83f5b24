import type { Spread } from '@ohmward/quantity'
import { momentsOf } from './moments.js'
import { normalProbability, normalQuantile } from './normal.js'
import { studentQuantile } from './student.js'

/** A distribution as the samplers need it. */
export interface Shape {
  readonly kind: Spread['distribution']['kind']
  readonly middle: number
  /** Half the width between the limits. */
  readonly half: number
  /** Standard deviation; for `t` its scale. */
  readonly scale: number
  /** Width of the top over width of the base: 0 for a triangle. */
  readonly top: number
  readonly degreesOfFreedom: number
  /** For `t`, see {@link studentTable}; empty for all others. */
  readonly table: Float64Array
}

/**
 * Where the distribution of a spread lies, and how wide it is. A normal input whose standard uncertainty has degrees of
 * freedom is known by a scaled and shifted t distribution with as many (JCGM 101:2008, 6.4.9.7).
 */
export function shapeOf(spread: Spread): Shape {
  const { distribution } = spread
  const { mean, u, degreesOfFreedom: dof } = momentsOf(spread)
  const degreesOfFreedom = distribution.kind === 'normal' || distribution.kind === 't' ? dof : Infinity
  const kind = degreesOfFreedom < Infinity ? 't' : distribution.kind === 't' ? 'normal' : distribution.kind
  return {
    kind,
    middle: mean,
    half: spread.upper / 2 - spread.lower / 2,
    scale: u,
    top: distribution.kind === 'trapezoidal' ? distribution.top : 0,
    degreesOfFreedom,
    table: kind === 't' ? studentTable(degreesOfFreedom) : none,
  }
}

const none = /*#__PURE__*/ new Float64Array(0)

/** Whether values come from normal deviates; all others come from uniform numbers. */
export const isNormalLike = ({ kind }: Shape): boolean => kind === 'normal' || kind === 't'

/** Turns uniform numbers into values, in place, through the inverse of the distribution function (JCGM 101:2008, 6.4 and C.2). */
export function fromUniform(shape: Shape, column: Float64Array, n: number): void {
  const { kind, middle, half } = shape
  if (kind === 'rectangular') {
    for (let i = 0; i < n; i++) column[i] = middle + half * (2 * column[i]! - 1)
  } else if (kind === 'arcsine') {
    for (let i = 0; i < n; i++) column[i] = middle + half * Math.sin(Math.PI * (column[i]! - 0.5))
  } else if (kind === 'triangular' || kind === 'trapezoidal') {
    const ramp = 2 * (1 - shape.top * shape.top)
    const side = (1 - shape.top) / (2 * (1 + shape.top))
    const slope = half * (1 + shape.top)
    for (let i = 0; i < n; i++) {
      const p = column[i]!
      if (p < side) column[i] = middle - half * (1 - Math.sqrt(ramp * p))
      else if (p > 1 - side) column[i] = middle + half * (1 - Math.sqrt(ramp * (1 - p)))
      else column[i] = middle + slope * (p - 0.5)
    }
  } else {
    for (let i = 0; i < n; i++) column[i] = normalQuantile(column[i]!)
    fromNormal(shape, column, n)
  }
}

/** Turns standard normal deviates into values, in place; other shapes keep the deviate's probability. */
export function fromNormal(shape: Shape, column: Float64Array, n: number): void {
  const { kind, middle, scale } = shape
  if (kind === 'normal') {
    for (let i = 0; i < n; i++) column[i] = middle + scale * column[i]!
  } else if (kind === 't') {
    const { table } = shape
    for (let i = 0; i < n; i++) column[i] = middle + scale * studentOf(table, column[i]!)
  } else {
    for (let i = 0; i < n; i++) column[i] = normalProbability(column[i]!)
    fromUniform(shape, column, n)
  }
}

/** Steps of the table to one unit of the normal deviate, and where the table ends (a probability of 1e-15). */
const STEPS = 16
const END = 8

/** Hyperbolic arc sine of the quantile of Student's t with the probability of a normal deviate of -1/16, 0, 1/16, … */
function studentTable(degreesOfFreedom: number): Float64Array {
  const table = new Float64Array(STEPS * END + 3)
  for (let i = 2; i < table.length; i++) {
    table[i] = Math.asinh(-studentQuantile(normalProbability((1 - i) / STEPS), degreesOfFreedom))
  }
  table[0] = -table[2]!
  return table
}

/** Student's t at the probability of the normal deviate `z`: cubic interpolation, its probability right to 1e-6. */
function studentOf(table: Float64Array, z: number): number {
  const place = Math.min(Math.abs(z), END - 1 / STEPS) * STEPS
  const i = Math.floor(place)
  const d = place - i
  const a = table[i]!
  const b = table[i + 1]!
  const c = table[i + 2]!
  const e = table[i + 3]!
  const x = Math.sinh(b + d * ((c - a) / 2 + d * (a - 2.5 * b + 2 * c - e / 2 + d * ((e - a) / 2 + 1.5 * (b - c)))))
  return z < 0 ? -x : x
}
