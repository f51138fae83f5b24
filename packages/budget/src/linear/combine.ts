import { correlationFactor } from '../model/correlation.js'
import { groupOf } from '../model/groups.js'
import type { EngineOptions } from '../model/model.js'

/** How the contributions of the inputs that vary make one standard uncertainty. */
export interface Combined {
  readonly u: number
  /** Share of the variance, by position. */
  readonly shares: readonly number[]
  /** Effective degrees of freedom (JCGM 100:2008, G.4.1). */
  readonly degreesOfFreedom: number
  /** Whether inputs of different degrees of freedom are correlated, for which there is no formula. */
  readonly uneven: boolean
  /** Position in the list of groups, by position of the input. */
  readonly group: readonly (number | undefined)[]
}

/**
 * Combines first-order contributions: groups by size, correlated inputs with their coefficients (JCGM 100:2008, 5.2.2),
 * the rest in quadrature.
 *
 * @param names - of all inputs
 * @param varying - indices of those that vary; `first` and `dofs` are in this order
 */
export function combine(
  names: readonly string[],
  varying: readonly number[],
  first: readonly number[],
  dofs: readonly number[],
  { correlations = [], groups = [] }: Pick<EngineOptions<string>, 'correlations' | 'groups'>,
): Combined {
  if (correlations.length === 0 && groups.length === 0) return inQuadrature(first, dofs)
  // What each contribution is multiplied by in the variance: itself, and whatever it is tied to.
  const partners = first.slice()
  const { pairs, indices } = correlationFactor(names, correlations)
  /** Of the inputs that are tied to one another, by position: the first of them. */
  const tied = first.map((_, k) => k)
  for (const [i, j, r] of pairs) {
    const a = varying.indexOf(i)
    const b = varying.indexOf(j)
    if (a < 0 || b < 0) continue
    partners[a]! += r * first[b]!
    partners[b]! += r * first[a]!
    const [from, to] = [tied[a]!, tied[b]!]
    if (r !== 0)
      tied.forEach((own, k) => {
        if (own === from) tied[k] = to
      })
  }
  const ofAll = groupOf(names, groups, indices)
  const group = varying.map((i) => ofAll[i])
  let quartic = 0
  groups.forEach((_, g) => {
    let sum = 0
    let dof = Infinity
    for (let k = 0; k < first.length; k++) {
      if (group[k] !== g) continue
      sum += Math.abs(first[k]!)
      dof = Math.min(dof, dofs[k]!)
    }
    for (let k = 0; k < first.length; k++) if (group[k] === g) partners[k] = Math.sign(first[k]!) * sum
    quartic += sum ** 4 / dof
  })
  let variance = 0
  let squares = 0
  for (let k = 0; k < first.length; k++) {
    const square = first[k]! * first[k]!
    variance += first[k]! * partners[k]!
    squares += square
  }
  // What was read together is one contribution: its variance, with the fewest degrees of freedom that a member has.
  let uneven = false
  for (let k = 0; k < first.length; k++) {
    if (group[k] !== undefined || tied[k] !== k) continue
    let own = first[k]! * partners[k]!
    let dof = dofs[k]!
    for (let m = 0; pairs.length > 0 && m < first.length; m++) {
      if (m === k || tied[m] !== k) continue
      own += first[m]! * partners[m]!
      if (dofs[m] !== dofs[k]) uneven = true
      dof = Math.min(dof, dofs[m]!)
    }
    quartic += (own * own) / dof
  }
  // What cancels to the last digits cancels.
  if (squares < Infinity && variance <= 1e-15 * squares) variance = 0
  return {
    u: Math.sqrt(variance),
    shares: first.map((x, k) => (variance > 0 ? (x * partners[k]!) / variance : 0)),
    degreesOfFreedom: quartic > 0 && variance > 0 ? (variance * variance) / quartic : Infinity,
    uneven,
    group,
  }
}

/** Nothing is tied to anything: squares add. */
function inQuadrature(first: readonly number[], dofs: readonly number[]): Combined {
  const shares: number[] = []
  let variance = 0
  let quartic = 0
  for (let k = 0; k < first.length; k++) {
    const own = first[k]! * first[k]!
    shares.push(own)
    variance += own
    quartic += (own * own) / dofs[k]!
  }
  for (let k = 0; k < shares.length; k++) shares[k] = variance > 0 ? shares[k]! / variance : 0
  return {
    u: Math.sqrt(variance),
    shares,
    degreesOfFreedom: quartic > 0 ? (variance * variance) / quartic : Infinity,
    uneven: false,
    group: [],
  }
}
