import { type Input, InputError, readNumber, type Spread } from '@ohmward/quantity'
import type { Budget } from '../budget/budget.js'
import type { Values } from '../formula/formula.js'
import { propagateOf } from '../linear/linear.js'
import { probabilityAtMost } from '../linear/shape.js'
import { briefEvaluator } from '../model/evaluate.js'
import type { EngineOptions, Model } from '../model/model.js'
import { demandFunction, demandList, knownOptions } from '../model/options.js'
import { simulate } from '../simulation/index.js'
import type { Margin, Verdict } from './assessment.js'
import { type Circumstances, type Found, type Station, worstOf, worstStation } from './conditions.js'

/** What every margin says of itself. */
export type MarginText = Pick<Margin, 'id' | 'name' | 'unit' | 'sense' | 'catches'>

/** What a margin watches at one place: called once there, it leaves both numbers. */
export interface Seen {
  value: number
  limit: number
}

/** What a margin watches: a value, a limit, and on which side of it the value must stay. */
export interface MarginSpec<K extends string> extends MarginText {
  readonly value: Model<K>
  /** A number, or a model where the limit moves with the inputs; it runs right after `value`, on the same argument. */
  readonly limit: number | Model<K>
}

/** How margins are decided (JCGM 106:2012, decision rule). */
export interface DecisionRule {
  /** Accept a margin that a board meets with this probability; without it every margin must hold at its worst case. */
  readonly accept?: number
}

/**
 * Holds one margin against all limits and conditions.
 *
 * The worst case is the extreme of the distance to the limit over the parts' limits, at the worst of the conditions.
 * There, and there only, the probability is that of a board drawn from the parts' distributions: by linear propagation,
 * or by simulation where the linear answer has doubts.
 */
export function marginOf<K extends string>(
  { value, limit, ...text }: MarginSpec<K>,
  circumstances: Circumstances<K> & DecisionRule,
): Margin {
  checkMargin(value, limit, text.sense, circumstances)
  const limitAt: Model<K> = typeof limit === 'number' ? () => limit : limit
  const pair = (x: Values<K>, seen: Seen) => {
    seen.value = value(x)
    seen.limit = limitAt(x)
  }
  return limitMargin(text, pair, circumstances)
}

/** Throws unless a margin is asked for as one is. */
function checkMargin(value: unknown, limit: unknown, sense: unknown, circumstances: object): void {
  demandFunction('value', value, 'a function of the inputs')
  if (typeof limit !== 'function' && !(typeof limit === 'number' && Number.isFinite(limit))) {
    throw new InputError({ field: 'limit', value: limit, allowed: 'a finite number or a function of the inputs' })
  }
  if (sense !== 'at least' && sense !== 'at most') {
    throw new InputError({ field: 'sense', value: sense, allowed: "'at least' or 'at most'" })
  }
  const { inputs, conditions, accept } = knownOptions(circumstances as Circumstances<string> & DecisionRule, [
    'inputs',
    'row',
    'conditions',
    'groups',
    'accept',
  ])
  if (accept !== undefined) readNumber(accept, { field: 'accept', unit: '1', above: 0, max: 1 })
  demandList('conditions', conditions)
  if (typeof inputs !== 'object' || inputs === null) {
    throw new InputError({ field: 'inputs', value: inputs, allowed: 'an object of numbers and spreads, by name' })
  }
  for (const name of conditions) {
    if (!Object.hasOwn(inputs, name)) {
      throw new InputError({ field: 'conditions', value: name, allowed: 'names of inputs' })
    }
  }
}

/** The same, where value and limit come of one look at a place. */
export function limitMargin<K extends string>(
  text: MarginText,
  pair: (x: Values<K>, seen: Seen) => void,
  { accept, ...circumstances }: Circumstances<K> & DecisionRule,
): Margin {
  const seen: Seen = { value: 0, limit: 0 }
  const isFloor = text.sense === 'at least'
  const slackAt: Model<K> = (x) => {
    pair(x, seen)
    return isFloor ? seen.value - seen.limit : seen.limit - seen.value
  }
  const { row, groups = [] } = circumstances
  const there = worstOf(circumstances, slackAt, (lower) => -lower)
  const { station, compiled } = there
  const { inputs, extremes: found } = station
  const probability = certainty(station) ?? chance(there, slackAt, { groups, ...(row && { row }) }, accept)
  const at = briefEvaluator(compiled, slackAt, row)
  const nominalSlack = at.finite()
  const nominal = seen.value
  compiled.names.forEach((name, i) => {
    at.set(i, found.atLower[name]!)
  })
  at.finite()
  return decided(
    text,
    {
      nominal,
      worst: seen.value,
      limit: seen.limit,
      slack: found.lower,
      nominalSlack,
      ...(probability !== undefined && { probability }),
      at: { ...station.at, ...moved(inputs, found.atLower) },
    },
    doubtsAbout(station, found.lower),
    accept,
  )
}

/** A margin between two plain numbers, where nothing varies or the worst case is already in them. */
export function plainMargin(text: MarginText, worst: number, limit: number, nominal = worst): Margin {
  for (const [field, value] of Object.entries({ worst, limit, nominal })) {
    if (typeof value !== 'number' || Number.isNaN(value)) throw new InputError({ field, value, allowed: 'a number' })
  }
  const slackOf = (value: number) => (text.sense === 'at least' ? value - limit : limit - value)
  const numbers = { nominal, worst, limit, slack: slackOf(worst), nominalSlack: slackOf(nominal), at: {} }
  return decided(text, numbers, [])
}

/** The conditions at which an output can lie furthest from its true value. */
export function furthestStation<K extends string>(
  circumstances: Circumstances<K>,
  model: Model<K>,
  truth: number,
): Station<K> {
  return worstStation(circumstances, model, (lower, upper) => Math.max(truth - lower, upper - truth))
}

/**
 * The margin of an error: how far an output may lie from its true value, either way.
 *
 * @param station - the conditions at which it can lie furthest
 * @param budget - the output's budget there
 */
export function errorMargin<K extends string>(
  text: MarginText,
  truth: number,
  allowed: number,
  station: Station<K>,
  budget: Budget,
  { accept }: DecisionRule = {},
): Margin {
  const { lower, upper, atLower, atUpper } = station.extremes
  const error = Math.max(truth - lower, upper - truth)
  const nominal = Math.abs(budget.linear.nominal - truth)
  const probability = budget.simulation?.within ?? around(budget, truth, allowed)
  const at = truth - lower > upper - truth ? atLower : atUpper
  return decided(
    text,
    {
      nominal,
      worst: error,
      limit: allowed,
      slack: allowed - error,
      nominalSlack: allowed - nominal,
      ...(probability !== undefined && { probability }),
      at: { ...station.at, ...moved(station.inputs, at) },
    },
    doubtsAbout(station, allowed - error),
    accept,
  )
}

function decided(
  { id, name, unit, sense, catches }: MarginText,
  numbers: Pick<Margin, 'nominal' | 'worst' | 'limit' | 'slack' | 'nominalSlack' | 'probability' | 'at'>,
  reasons: readonly string[],
  accept?: number,
): Margin {
  const holds =
    accept === undefined ? numbers.slack >= 0 : (numbers.probability ?? (numbers.slack >= 0 ? 1 : 0)) >= accept
  const verdict: Verdict = !holds ? 'fails' : accept === undefined && reasons.length > 0 ? 'not sure' : 'holds'
  const reason = verdict === 'not sure' && { reason: reasons.join('; ') }
  return { id, name, unit, sense, ...numbers, verdict, ...reason, catches }
}

/** Why the worst case isn't sure; nothing where what could still be found is less than the slack. */
function doubtsAbout({ extremes, doubts }: Station<string>, slack: number): string[] {
  const small = extremes.doubt !== null && extremes.doubt <= slack
  return [...(small ? [] : extremes.reasons), ...doubts]
}

/** 1 or 0 where every input is bounded and the whole range of the slack lies on one side of the limit. */
function certainty({ inputs, extremes: { lower, upper, doubt } }: Station<string>): number | undefined {
  const inside = Object.values(inputs).every((input) => {
    const kind = typeof input === 'object' ? input.distribution.kind : 'exact'
    return kind !== 'normal' && kind !== 't'
  })
  if (!inside || doubt === null || lower === upper) return undefined
  return lower - doubt >= 0 ? 1 : upper + doubt < 0 ? 0 : undefined
}

/** Nearer to 0 or 1 than the first no simulation tells more; nearer to what is accepted than the second it has to. */
const [plain, near] = [0.001, 0.03]

/** Probability that the slack is 0 or more; undefined where nothing varies. */
function chance<K extends string>(
  { station, compiled }: Found<K>,
  slack: Model<K>,
  options: Pick<EngineOptions<K>, 'row' | 'groups'>,
  accept?: number,
): number | undefined {
  const linear = propagateOf(compiled, briefEvaluator(compiled, slack, options.row), options)
  if (linear.contributions.length === 0) return undefined
  const simulated = (trials: number) =>
    simulate(station.inputs, slack as Model<NoInfer<K>>, {
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
function around({ linear }: Budget, truth: number, allowed: number): number | undefined {
  if (linear.u === 0) return undefined
  const [below, upTo] = [probabilityAtMost(truth - allowed, linear), probabilityAtMost(truth + allowed, linear)]
  return believed(upTo.probability - below.probability)
}

/** The inputs that differ from their nominal values. */
function moved<K extends string>(
  inputs: Record<K, Input>,
  values: Readonly<Record<string, number>>,
): Record<string, number> {
  const result: Record<string, number> = {}
  for (const [name, value] of Object.entries(values)) {
    const input = inputs[name as K]
    if (typeof input === 'object' && (input as Spread).nominal !== value) result[name] = value
  }
  return result
}
