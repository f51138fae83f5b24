import type { Budget } from '../budget/budget.js'
import { propagateOf } from '../linear/linear.js'
import { probabilityAtMost } from '../linear/shape.js'
import { briefEvaluator, type CompiledInputs } from '../model/evaluate.js'
import type { EngineOptions, Inputs, Model } from '../model/model.js'
import { simulate } from '../simulation/index.js'

/** 1 or 0 where every input is bounded and the whole range of the slack lies on one side of the limit. */
export function certainty(
  { spreads, varying }: CompiledInputs<string>,
  lower: number,
  upper: number,
  doubt: number | null,
): number | undefined {
  const inside = varying.every((i) => {
    const { kind } = spreads[i]!.distribution
    return kind !== 'normal' && kind !== 't'
  })
  if (!inside || doubt === null || lower === upper) return undefined
  return lower - doubt >= 0 ? 1 : upper + doubt < 0 ? 0 : undefined
}

/** Nearer to 0 or 1 than the first no simulation tells more; nearer to what is accepted than the second it has to. */
const [plain, near] = [0.001, 0.03]

/** Probability that the slack is 0 or more; undefined where nothing varies. */
export function chance<K extends string>(
  compiled: CompiledInputs<K>,
  inputs: () => Inputs<K>,
  slack: Model<K>,
  options: Pick<EngineOptions<K>, 'row' | 'groups'>,
  accept?: number,
): number | undefined {
  const linear = propagateOf(compiled, briefEvaluator(compiled, slack, options.row), options)
  if (linear.contributions.length === 0) return undefined
  const simulated = (trials: number) =>
    simulate(inputs(), slack as Model<NoInfer<K>>, {
      ...options,
      trials,
      method: trials > rough ? 'quasi' : 'plain',
      limits: { lower: 0 },
    })
  if (linear.doubts.length === 0) {
    if (!(linear.u > 0)) return undefined
    const below = probabilityAtMost(0, linear)
    const probability = believed(1 - below.probability)
    const matters = probability > plain && probability < 1 - plain
    const isClear = accept === undefined || Math.abs(probability - accept) > near
    if (!matters || (isClear && below.carried)) return probability
  }
  const first = simulated(rough)
  const isClose = accept !== undefined && Math.abs(first.within! - accept) <= 4 * first.withinError! + 0.002
  return (isClose ? simulated(fine) : first).within
}

/** No linear propagation tells certainty: what is nearer to 0 or 1 than a millionth is only that. */
const believed = (probability: number): number => Math.min(Math.max(probability, 1e-6), 1 - 1e-6)

/** Trials for a probability, and those where the verdict turns on it. */
const [rough, fine] = [4096, 65_536]

/** Probability that a linear budget's output lies within `allowed` of the true value. */
export function around({ linear }: Budget, truth: number, allowed: number): number | undefined {
  if (linear.u === 0) return undefined
  const [below, upTo] = [probabilityAtMost(truth - allowed, linear), probabilityAtMost(truth + allowed, linear)]
  return believed(upTo.probability - below.probability)
}
