import type { Evaluator } from '../model/evaluate.js'
import { coin } from '../model/signs.js'

/** What moving all inputs at once shows that moving them one at a time cannot. */
export interface Probes {
  /** Estimate of Σ over pairs of inputs of the squared mixed second-order terms (JCGM 100:2008, 5.1.2, note). */
  readonly mixed: number
  /** Mean square of what the first-order terms leave unexplained in the odd part. */
  readonly odd: number
  /** Whether a corner gave no finite result. */
  readonly broken: boolean
  /** Positions (in the lists given) of inputs without any effect of their own that act together with others, with the size of that effect. */
  readonly hidden: ReadonlyMap<number, number>
}

/**
 * Evaluates the model at random corners, every input one standard uncertainty up or down, each with its opposite.
 *
 * The mean of a corner and its opposite, less the middle and half the pure second-order terms, is Σ M_ij s_i s_j over
 * pairs, with signs s and M_ij the mixed term times both standard uncertainties. Over independent random signs its
 * mean square is Σ M_ij², for any number of inputs. Half the difference is Σ s_i c_i u_i and what is odd of higher order.
 *
 * @param silent - positions of inputs that show no effect when moved alone
 * @param count - pairs of opposite corners to look at
 */
export function probe(
  at: Evaluator,
  indices: readonly number[],
  means: readonly number[],
  us: readonly number[],
  first: readonly number[],
  middle: number,
  secondSum: number,
  silent: readonly number[],
  count: number,
): Probes {
  const toss = coin()
  const hidden = new Map<number, number>()
  const signs: number[] = []
  let mixed = 0
  let odd = 0
  let used = 0
  for (let p = 0; p < count; p++) {
    let expected = 0
    for (let k = 0; k < indices.length; k++) {
      const s = toss() ? 1 : -1
      signs[k] = s
      expected += s * first[k]!
      at.set(indices[k]!, means[k]! + s * us[k]!)
    }
    const up = at.value()
    if (p < 2) {
      for (const k of silent) {
        at.set(indices[k]!, means[k]! - signs[k]! * us[k]!)
        const effect = Math.abs(up - at.value()) / 2
        if (effect > (hidden.get(k) ?? 0)) hidden.set(k, effect)
        at.set(indices[k]!, means[k]! + signs[k]! * us[k]!)
      }
    }
    for (let k = 0; k < indices.length; k++) at.set(indices[k]!, means[k]! - signs[k]! * us[k]!)
    const down = at.value()
    if (!Number.isFinite(up + down)) continue
    used++
    mixed += ((up + down) / 2 - middle - secondSum / 2) ** 2
    odd += ((up - down) / 2 - expected) ** 2
  }
  for (let k = 0; k < indices.length; k++) at.set(indices[k]!, means[k]!)
  return { mixed: mixed / (used || 1), odd: odd / (used || 1), broken: used < count, hidden }
}
