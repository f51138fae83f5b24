import { demand, demandFinite, type Input, InputError, type Spread } from '@ohmward/quantity'
import type { Budget, Extremes } from '../budget/budget.js'
import type { Values } from '../formula/formula.js'
import { briefEvaluator } from '../model/evaluate.js'
import type { Model } from '../model/model.js'
import { demandFunction } from '../model/options.js'
import type { Margin, Verdict } from './assessment.js'
import { type Circumstances, inputsAt, type Station, worstOf, worstStation } from './conditions.js'
import { demandCircumstances, demandMarginText, demandSense } from './given.js'
import { around, certainty, chance } from './probability.js'

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
 * One margin, decided over all limits and conditions.
 *
 * The worst case is the extreme of the distance to the limit over the parts' limits, at the worst of the conditions.
 * There, and there only, the probability is that of a board drawn from the parts' distributions: by linear propagation,
 * or by simulation where the linear answer has doubts.
 */
export function marginOf<K extends string>(
  spec: MarginSpec<K>,
  circumstances: Circumstances<K> & DecisionRule,
): Margin {
  demandMarginText(spec)
  const { value, limit, ...text } = spec
  checkMargin(value, limit, circumstances)
  const limitAt: Model<K> = typeof limit === 'number' ? () => limit : limit
  const pair = (x: Values<K>, seen: Seen) => {
    seen.value = value(x)
    seen.limit = limitAt(x)
  }
  return limitMargin(text, pair, circumstances)
}

/** Throws unless a margin is asked for as one is. */
function checkMargin(value: unknown, limit: unknown, circumstances: object): void {
  demandFunction('value', value, 'a function of the inputs')
  if (typeof limit !== 'function' && !(typeof limit === 'number' && Number.isFinite(limit))) {
    throw new InputError({ field: 'limit', value: limit, allowed: 'a finite number or a function of the inputs' })
  }
  demandCircumstances(circumstances)
}

/** The same, where value and limit are computed together. */
export function limitMargin<K extends string>(
  text: MarginText,
  pair: (x: Values<K>, seen: Seen) => void,
  { accept, ...circumstances }: Circumstances<K> & DecisionRule,
): Margin {
  return sought(text.sense, pair, circumstances)(text, accept)
}

/** A value at its worst over all limits and conditions. */
export interface WorstCase {
  /** The margin against a limit: what {@link marginOf} gives for it. */
  readonly against: (text: Omit<MarginText, 'sense'>, limit: number, rule?: DecisionRule) => Margin
}

/**
 * The worst case of a value that is held against several limits on one side of it: it is the same board for all of them, and sought
 * once.
 *
 * @param spec - one of the limits, with which it is sought
 * @throws InputError
 */
export function worstCaseOf<K extends string>(
  spec: Pick<MarginSpec<K>, 'sense' | 'value'> & { readonly limit: number },
  circumstances: Circumstances<K>,
): WorstCase {
  const { sense, value, limit: first } = spec ?? {}
  demandSense(sense, 'spec.sense')
  checkMargin(value, first, circumstances)
  let limit = first
  const pair = (x: Values<K>, seen: Seen) => {
    seen.value = value(x)
    seen.limit = limit
  }
  const held = sought(sense, pair, circumstances)
  return {
    against: (about, own, { accept } = {}) => {
      const text = { ...about, sense }
      demandMarginText(text)
      limit = demandFinite('limit', own)
      return held(text, accept)
    },
  }
}

/** Seeks a worst case. It is decided when it is asked for: a limit may have moved since, by as much for all. */
function sought<K extends string>(
  sense: Margin['sense'],
  pair: (x: Values<K>, seen: Seen) => void,
  circumstances: Circumstances<K>,
): (text: MarginText, accept: number | undefined) => Margin {
  const seen: Seen = { value: 0, limit: 0 }
  const slackAt: Model<K> = (x) => {
    pair(x, seen)
    return sense === 'at least' ? seen.value - seen.limit : seen.limit - seen.value
  }
  const { row, groups = [] } = circumstances
  // The largest slack only tells whether no board at all holds, within the doubt: it isn't searched for.
  const { compiled, at, extremes, doubts } = worstOf(circumstances, slackAt, (lower) => -lower, [-1])
  const { names, spreads, varying } = compiled
  const [place] = extremes.places
  return (text, accept) => {
    const here = briefEvaluator(compiled, slackAt, row)
    const nominalSlack = here.finite()
    const nominal = seen.value
    for (const i of varying) here.set(i, place[i]!)
    const slack = here.finite()
    const { value: worst, limit } = seen
    const upper = extremes.upper + slack - extremes.lower
    const options = { groups, ...(row && { row }) }
    const probability =
      certainty(compiled, slack, upper, extremes.doubt) ??
      chance(compiled, () => inputsAt(circumstances, at), slackAt, options, accept)
    const moved = varying.filter((i) => place[i] !== spreads[i]!.nominal).map((i) => [names[i], place[i]])
    return decided(
      text,
      {
        nominal,
        worst,
        limit,
        slack,
        nominalSlack,
        ...(probability !== undefined && { probability }),
        at: { ...at, ...Object.fromEntries(moved) },
      },
      doubtsAbout({ extremes, doubts }, slack),
      accept,
    )
  }
}

/** A margin between two plain numbers, where nothing varies or the worst case is already in them. @throws InputError for what is no number */
export function plainMargin(text: MarginText, worst: number, limit: number, nominal = worst): Margin {
  demandMarginText(text)
  for (const [field, value] of Object.entries({ worst, limit, nominal })) {
    demand(Number.isFinite(value), { field, value, allowed: 'a finite number' })
  }
  const slackOf = (value: number) => (text.sense === 'at least' ? value - limit : limit - value)
  const numbers = { nominal, worst, limit, slack: slackOf(worst), nominalSlack: slackOf(nominal), at: {} }
  return decided(text, numbers, [])
}

/** The conditions at which an output can lie furthest from its true value. @throws InputError */
export function furthestStation<K extends string>(
  circumstances: Circumstances<K>,
  model: Model<K>,
  truth: number,
): Station<K> {
  demandFinite('truth', truth)
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

/** What is asked whether it is sure. */
interface Doubted {
  readonly extremes: Pick<Extremes, 'doubt' | 'reasons'>
  readonly doubts: readonly string[]
}

/** Why the worst case isn't sure; nothing where what could still be found is less than the slack. */
function doubtsAbout({ extremes, doubts }: Doubted, slack: number): string[] {
  const small = extremes.doubt !== null && extremes.doubt <= slack
  return [...(small ? [] : extremes.reasons), ...doubts]
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
