import type { Margin } from '../margin/assessment.js'
import type { Circumstances } from '../margin/conditions.js'
import { demandCircumstances, demandSense, demandSlack } from '../margin/given.js'
import { briefEvaluator, compileInputs, type Evaluator } from '../model/evaluate.js'
import { demandFunction } from '../model/options.js'
import { demandRow } from './given.js'
import { holdRow, modelOf } from './hold.js'
import type { BlockRow, ErrorRow, LimitRow, OwnRow, Place, RowEstimate } from './rows.js'

/** What an estimate looks at: a value against its limit, both in the row's unit. */
export interface Seen {
  value: number
  limit: number
}

/** Estimates a row at a glance; one that physics holds in its own way and that knows no glance is held. @throws InputError for what has no finite value */
export function estimateRow(row: BlockRow): RowEstimate {
  demandRow(row)
  switch (row.kind) {
    case 'limit':
      return ofLimit(row)
    case 'error':
      return ofError(row)
    case 'plain':
      return picked(holdRow(row).margin)
    case 'own':
      return estimated(row) ?? picked(holdRow(row).margin)
  }
}

function estimated({ id, estimate }: OwnRow): RowEstimate | undefined {
  const found = estimate?.()
  if (found !== undefined) demandSlack(found, `${id}.estimate()`)
  return found
}

const picked = ({ nominal, worst, limit, slack }: Margin): RowEstimate => ({ nominal, worst, limit, slack })

function ofLimit(row: LimitRow): RowEstimate {
  const { reading, at, sense } = row
  const [value, limit] = [modelOf(row.value), modelOf(row.limit)]
  const pair = (x: Place, seen: Seen) => {
    const y = reading.follow(x)
    seen.value = value(y)
    seen.limit = limit(y)
  }
  const found = limitAtAGlance({ ...reading, inputs: { ...reading.inputs, ...at } }, sense, pair)
  // Of a value that says nothing a glance knows no more than a check.
  return found.slack > 0 && row.doubt?.() ? { ...found, worst: found.limit, slack: 0 } : found
}

/**
 * Estimates a value against its limit: nominal parts at all ends of the conditions, then at the worst of them one part after the other.
 *
 * @throws InputError
 */
export function estimateLimit(
  circumstances: Pick<Circumstances<string>, 'inputs' | 'conditions' | 'row'>,
  sense: Margin['sense'],
  pair: (x: Place, seen: Seen) => void,
): RowEstimate {
  demandCircumstances(circumstances)
  demandSense(sense)
  demandFunction('pair', pair, 'a function that leaves a value and its limit')
  return limitAtAGlance(circumstances, sense, pair)
}

function limitAtAGlance(
  circumstances: Pick<Circumstances<string>, 'inputs' | 'conditions' | 'row'>,
  sense: Margin['sense'],
  pair: (x: Place, seen: Seen) => void,
): RowEstimate {
  const seen: Seen = { value: 0, limit: 0 }
  const slackAt = (x: Place) => {
    pair(x, seen)
    return sense === 'at least' ? seen.value - seen.limit : seen.limit - seen.value
  }
  const { base, lack, nominal } = glance(circumstances, slackAt, () => ({ ...seen }))
  const slack = base - lack
  const { value, limit } = nominal
  return { nominal: value, worst: sense === 'at least' ? limit + slack : limit - slack, limit, slack }
}

/** The error of a row, either way. */
function ofError({ reading, at, shown, truth, allowed }: ErrorRow): RowEstimate {
  const circumstances = { ...reading, inputs: { ...reading.inputs, ...at } }
  const [low, high] = [1, -1].map((sign) =>
    glance(
      circumstances,
      (x) => sign * (shown(x) - truth),
      () => 0,
    ),
  ) as [Glance<number>, Glance<number>]
  const worst = Math.max(low.lack - low.base, high.lack - high.base)
  return { nominal: Math.max(-low.base, -high.base), worst, limit: allowed, slack: allowed - worst }
}

interface Glance<T> {
  /** The slack of nominal parts where it is least, and what the parts take off it. */
  readonly base: number
  readonly lack: number
  /** What was seen with nominal parts there. */
  readonly nominal: T
}

function glance<T>(
  { inputs, conditions, row }: Pick<Circumstances<string>, 'inputs' | 'conditions' | 'row'>,
  slackAt: (x: Place) => number,
  look: () => T,
): Glance<T> {
  const compiled = compileInputs(inputs)
  const at = briefEvaluator(compiled, slackAt, row)
  const { names, spreads, varying } = compiled
  const over = varying.filter((i) => conditions.includes(names[i]!))
  const ends = over.map((i) => [spreads[i]!.lower, spreads[i]!.upper])
  const worst = worstEnds(at, over, ends)
  over.forEach((i, n) => {
    at.set(i, worst[n]!)
  })
  const base = at.finite()
  const nominal = look()
  let lack = 0
  /** Each part at the end that takes more. */
  const moves: [number, number][] = []
  for (const i of varying) {
    if (over.includes(i)) continue
    const { lower, upper, nominal } = spreads[i]!
    let most = 0
    for (const end of [lower, upper]) {
      at.set(i, end)
      const less = base - at.finite()
      if (!(less > most)) continue
      most = less
      moves.push([i, end])
    }
    at.set(i, nominal)
    lack += most
  }
  // All of them at once may take more than their sum.
  for (const [i, end] of moves) at.set(i, end)
  return { base, lack: Math.max(lack, base - at.finite()), nominal }
}

/** The ends of the conditions at which nominal parts have least slack. */
function worstEnds(at: Evaluator, over: readonly number[], ends: readonly (readonly number[])[]): readonly number[] {
  let worst: readonly number[] = []
  let least = Number.POSITIVE_INFINITY
  for (let way = 0; way < 2 ** over.length; way++) {
    const place = ends.map((pair, n) => pair[(way >> n) & 1]!)
    over.forEach((i, n) => {
      at.set(i, place[n]!)
    })
    const slack = at.finite()
    if (slack < least) {
      least = slack
      worst = place
    }
  }
  return worst
}
