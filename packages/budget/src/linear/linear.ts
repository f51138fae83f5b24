import { InputError } from '@ohmward/quantity'
import type { Contribution, LinearBudget } from '../budget/budget.js'
import { briefEvaluator, type CompiledInputs, compileInputs, type Evaluator } from '../model/evaluate.js'
import type { Inputs, LinearOptions, Model } from '../model/model.js'
import { checkCall, shared } from '../model/options.js'
import { momentsOf } from '../statistics/moments.js'
import { normalProbability, normalQuantile } from '../statistics/normal.js'
import { studentProbability, studentQuantile } from '../statistics/student.js'
import { combine } from './combine.js'
import { doubtsOf } from './doubts.js'
import { mixedTerms } from './mixed.js'
import { probe } from './probes.js'
import { type Slope, slope } from './slopes.js'

/** Pairs of opposite corners looked at: a fixed number, so the cost is linear in the inputs. */
const pairs = 4
/** The same where mixed second-order terms are worth telling, and the number of inputs up to which all pairs are computed then. */
const morePairs = 64
const fewInputs = 16

/** Level of confidence of an interval, checked. */
export function checkLevel(level = 0.95): number {
  if (!(typeof level === 'number' && level > 0 && level < 1)) {
    throw new InputError({ field: 'level', value: level, allowed: 'more than 0 and less than 1' })
  }
  return level
}

/** Options of linear propagation by name. */
export const linearNames = /*#__PURE__*/ (shared as readonly string[]).concat('k', 'unit')

/** What the interval is to cover: a level of confidence, or a coverage factor in its place. */
type Coverage = { readonly level: number } | { readonly k: number }

/** @throws InputError for a factor that isn't above 0 or stands beside a level */
function checkFactor({ level, k }: LinearOptions<string>): Coverage {
  if (k === undefined) return { level: checkLevel(level) }
  if (!(typeof k === 'number' && k > 0 && k < Infinity)) {
    throw new InputError({ field: 'k', value: k, allowed: 'a finite number above 0' })
  }
  if (level !== undefined) throw new InputError({ field: 'level', value: level, allowed: 'left out where k is given' })
  return { k }
}

/** Level and factor, one from the other by the normal distribution or that of Student's t (JCGM 100:2008, annex G). */
function coverageOf(wanted: Coverage, dof: number): { readonly level: number; readonly k: number } {
  if ('level' in wanted) {
    const p = (1 + wanted.level) / 2
    return { level: wanted.level, k: dof === Infinity ? normalQuantile(p) : studentQuantile(p, dof) }
  }
  const { k } = wanted
  return { k, level: 1 - 2 * (dof === Infinity ? normalProbability(-k) : studentProbability(-k, dof)) }
}

/**
 * Linear propagation of uncertainty (JCGM 100:2008, 5.1 and 5.2), with the coverage factor of annex G.
 *
 * Exact inputs have no line among the contributions. Members of a group add by size: |c₁u₁| + |c₂u₂| + …, then the
 * sum joins the rest in quadrature; its effective degrees of freedom are the smallest of its members'.
 * Degrees of freedom are never truncated; correlated inputs count as one contribution, with the fewest that one of them
 * has, so that readings taken together keep theirs (H.2.4). With `k` the interval is k·u, and its level what that covers.
 * `secondOrder` takes every input as normal and independent, as the formula of 5.1.2 does, and leaves out its third
 * derivatives; its mixed terms are estimated from a few random corners, and where they matter computed for all pairs of
 * up to 16 inputs.
 *
 * @param inputs - by name: numbers are exact, spreads carry their limits
 * @param model - any function of the inputs
 * @throws InputError for bad inputs or options, and where the model gives no finite result at the estimate or right beside it
 */
export function propagate<const K extends string>(
  inputs: Inputs<K>,
  model: Model<NoInfer<K>>,
  options: LinearOptions<NoInfer<K>> = {},
): LinearBudget {
  checkCall(inputs, model, options, linearNames)
  const { unit } = options
  if (unit !== undefined && typeof unit !== 'string')
    throw new InputError({ field: 'unit', value: unit, allowed: 'a text' })
  const compiled = compileInputs(inputs)
  return propagateOf(compiled, briefEvaluator(compiled, model, options.row), options)
}

/** The same for inputs that are read already. */
export function propagateOf(
  { names, spreads, varying }: CompiledInputs<string>,
  at: Evaluator,
  options: LinearOptions<string> = {},
): LinearBudget {
  const wanted = checkFactor(options)
  const nominal = at.finite()
  const means: number[] = []
  const us: number[] = []
  const dofs: number[] = []
  let moved = false
  for (const i of varying) {
    const { mean, u, degreesOfFreedom } = momentsOf(spreads[i]!)
    means.push(mean)
    us.push(u)
    dofs.push(degreesOfFreedom)
    if (mean !== spreads[i]!.nominal) {
      at.set(i, mean)
      moved = true
    }
  }
  const estimate = moved ? at.finite() : nominal

  const slopes: Slope[] = []
  const first: number[] = []
  const silent: number[] = []
  const noise = 1e-13 * Math.abs(estimate)
  let secondSum = 0
  let pure = 0
  for (let k = 0; k < varying.length; k++) {
    const s = slope(at, varying[k]!, means[k]!, us[k]!, estimate)
    slopes.push(s)
    first.push(s.first)
    secondSum += s.second
    pure += (s.second * s.second) / 2
    if (Math.abs(s.first) <= noise && Math.abs(s.second) <= noise) silent.push(k)
  }
  const corners = (count: number) => probe(at, varying, means, us, first, estimate, secondSum, silent, count)
  const probes = corners(varying.length > 1 ? pairs : 0)
  const { u, shares, degreesOfFreedom: dof, uneven, group } = combine(names, varying, first, dofs, options)
  const { level, k } = coverageOf(wanted, dof)
  const expanded = k * u
  if (!Number.isFinite(Math.abs(estimate) + expanded)) {
    throw new InputError({ field: 'result of the model', value: expanded, allowed: 'small enough to be squared' })
  }
  let { mixed } = probes
  if (mixed > 0.01 * u * u) {
    mixed = varying.length <= fewInputs ? mixedTerms(at, varying, means, us) : corners(morePairs).mixed
  }
  const secondOrder = Math.sqrt(pure + mixed)
  const contributions = varying.map((i, n): Contribution => {
    const { nominal, lower, upper, distribution } = spreads[i]!
    const line = {
      input: names[i]!,
      nominal,
      estimate: means[n]!,
      lower,
      upper,
      distribution: distribution.kind,
      u: us[n]!,
      sensitivity: slopes[n]!.sensitivity,
      contribution: first[n]!,
      share: shares[n]!,
    }
    const g = group[n]
    return g === undefined ? line : { ...line, group: options.groups![g]!.name }
  })
  const doubts = doubtsOf(
    varying.map((i) => names[i]!),
    { slopes, probes, u, secondOrder, nominal, estimate, noise, unit: options.unit },
  )
  if (uneven) {
    doubts.push('correlated inputs have different degrees of freedom: the fewest of them stand for all')
  }
  return {
    estimate,
    nominal,
    u,
    level,
    k,
    expanded,
    interval: [estimate - expanded, estimate + expanded],
    degreesOfFreedom: dof === Infinity ? null : dof,
    contributions,
    secondOrder,
    doubts,
  }
}
