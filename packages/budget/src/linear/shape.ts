import type { Contribution, LinearBudget } from '../budget/budget.js'
import { normalDensity, normalProbability } from '../statistics/normal.js'
import { studentProbability } from '../statistics/student.js'

/** Rectangles that are followed one by one, and the share of the variance from which one is; the rest is as good as normal. */
const followed = 3
const worthFollowing = 0.05

/** Share of the variance from which a shape that neither rectangles nor a normal distribution make up tells. */
const telling = 0.05

/** A probability by linear propagation. */
export interface Shaped {
  readonly probability: number
  /** Whether the shapes of the inputs are in it; where they aren't, a simulation knows better. */
  readonly carried: boolean
}

/** Half-widths of the rectangles whose sum has the shape of a contribution; nothing where none do. */
function rectangles({ distribution, contribution, lower, upper, u }: Contribution): number[] | undefined {
  const c = Math.abs(contribution)
  // What moves nothing has no width.
  if (c === 0) return []
  if (distribution === 'rectangular') return [c * Math.sqrt(3)]
  if (distribution !== 'triangular' && distribution !== 'trapezoidal') return undefined
  // A trapezium is the sum of two rectangles: top over base t, half-widths (1 ± t)/2 of its own (JCGM 101:2008, 6.4.4).
  const half = (c * (upper - lower)) / 2 / u
  const top = Math.sqrt(Math.max(0, (6 * c * c) / (half * half) - 1))
  return [((1 + top) / 2) * half, ((1 - top) / 2) * half]
}

/** What adds up independently: the widths of rectangles, the variance of the rest, and whether the shapes are all there. */
function parts({ contributions, u }: LinearBudget) {
  const groups = new Map<string, Contribution[]>()
  const alone: Contribution[] = []
  for (const line of contributions) {
    if (line.group === undefined) alone.push(line)
    else groups.set(line.group, [...(groups.get(line.group) ?? []), line])
  }
  const halves: number[] = []
  let variance = 0
  let strange = 0
  let squares = 0
  const rest = (c: number, isNormal: boolean) => {
    variance += c * c
    if (!isNormal) strange += c * c
  }
  for (const line of alone) {
    squares += line.contribution ** 2
    const widths = rectangles(line)
    if (widths) halves.push(...widths)
    else rest(line.contribution, line.distribution === 'normal')
  }
  for (const lines of groups.values()) {
    const sum = lines.reduce((total, { contribution }) => total + Math.abs(contribution), 0)
    squares += sum ** 2
    if (lines.every(({ distribution }) => distribution === 'rectangular')) halves.push(sum * Math.sqrt(3))
    else
      rest(
        sum,
        lines.every(({ distribution }) => distribution === 'normal'),
      )
  }
  halves.sort((a, b) => b - a)
  const own = halves.filter((w, n) => n < followed && (w * w) / 3 > worthFollowing * u * u)
  for (const w of halves.slice(own.length)) variance += (w * w) / 3
  const isIndependent = Math.abs(squares - u * u) <= 1e-9 * squares
  return { halves: own, variance, isIndependent, carried: isIndependent && strange <= telling * u * u }
}

/**
 * Probability that a sum of a normal deviate and of rectangular ones is at most `x`: the normal distribution function,
 * integrated once for each rectangle, in differences over its width.
 */
function ofSum(x: number, sigma: number, halves: readonly number[]): number {
  const k = halves.length
  let sum = 0
  for (let bits = 0; bits < 2 ** k; bits++) {
    let place = x
    let sign = 1
    for (let n = 0; n < k; n++) {
      if ((bits >> n) & 1) place += halves[n]!
      else {
        place -= halves[n]!
        sign = -sign
      }
    }
    const z = place / sigma
    // Integrals of the normal distribution function: I₀ = Φ, I₋₁ = φ, n Iₙ = z Iₙ₋₁ + Iₙ₋₂.
    let before = normalDensity(z)
    let here = normalProbability(z)
    for (let n = 1; n <= k; n++) [before, here] = [here, (z * here + before) / n]
    sum += sign * here
  }
  for (const half of halves) sum *= sigma / (2 * half)
  return Math.min(1, Math.max(0, sum))
}

/**
 * Probability that the output of a linear budget is at most `x`: its largest rectangular, triangular and trapezoidal
 * contributions with their shapes, the rest as normal. Where one rectangle makes most of the spread, a normal
 * distribution of the same `u` may be wrong by 5 %. With few degrees of freedom it is that of Student's t.
 */
export function probabilityAtMost(x: number, linear: LinearBudget): Shaped {
  const { estimate, u, degreesOfFreedom } = linear
  const z = (x - estimate) / u
  if (degreesOfFreedom !== null && degreesOfFreedom < 100) {
    return { probability: studentProbability(z, degreesOfFreedom), carried: false }
  }
  const { halves, variance, isIndependent, carried } = parts(linear)
  if (!isIndependent || halves.length === 0) return { probability: normalProbability(z), carried }
  const sigma = Math.max(Math.sqrt(variance), 1e-4 * u)
  // By the side on which little is left, so that it keeps its digits.
  const probability = z < 0 ? ofSum(x - estimate, sigma, halves) : 1 - ofSum(estimate - x, sigma, halves)
  return { probability, carried }
}
