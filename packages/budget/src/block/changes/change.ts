import type { Margin, Verdict } from '../../margin/assessment.js'
import { relativeSlack, verdictOf } from '../../margin/verdict.js'
import type { BlockRow } from '../rows.js'
import type { ChangeSpec, Rung } from './spec.js'

/** A margin as it stands before and after a change; slack in its own unit. */
export interface Moved {
  readonly id: string
  readonly name: string
  readonly unit: string
  readonly before: number
  readonly after: number
}

/** A change that was tried as printed: what it puts, what it buys, what it breaks. */
export interface Change {
  readonly id: string
  readonly name: string
  /** The values to put, by path, as they are typed in. */
  readonly puts: Readonly<Record<string, unknown>>
  /** The new value in words. */
  readonly text: string
  /** The verdict of the whole choice with it. */
  readonly verdict: Verdict
  /** Rows that failed or weren't sure and hold with it. */
  readonly mends: readonly Moved[]
  /** Rows that still don't hold, but have more slack. */
  readonly helps: readonly Moved[]
  /** Rows that held and don't any more. */
  readonly breaks: readonly Moved[]
  /** Largest errors with it and without, of every error row; in the row's unit. */
  readonly errors: readonly Moved[]
  /** Least relative slack of the whole choice with it. */
  readonly least: number
}

/** Whether a row that still doesn't hold has more slack by a tenth at least of what it lacked. */
export const helpsEnough = (before: number, after: number): boolean => after - before > -0.1 * before

/** A choice's margins without a change and with it, and its rows with it. */
interface Held {
  readonly before: readonly Margin[]
  readonly after: readonly Margin[]
  readonly rows: readonly BlockRow[]
}

/** What a change makes of a choice. */
export function changeOf({ id, name }: Pick<ChangeSpec, 'id' | 'name'>, rung: Rung, held: Held): Change {
  const after = new Map(held.after.map((one) => [one.id, one]))
  const before = new Map(held.before.map((one) => [one.id, one]))
  const moved = (one: Margin, slack: number): Moved => ({
    id: one.id,
    name: one.name,
    unit: one.unit,
    before: before.get(one.id)?.slack ?? 0,
    after: slack,
  })
  const mends: Moved[] = []
  const helps: Moved[] = []
  for (const one of held.before) {
    if (one.verdict === 'holds') continue
    const now = after.get(one.id)
    if (now === undefined || now.verdict === 'holds') mends.push(moved(one, now?.slack ?? 0))
    else if (now.slack > one.slack) helps.push(moved(one, now.slack))
  }
  const breaks = held.after
    .filter((one) => one.verdict !== 'holds' && (before.get(one.id)?.verdict ?? 'holds') === 'holds')
    .map((one) => moved(one, one.slack))
  const errorRows = held.rows.filter((row) => row.kind === 'error' || (row.kind === 'own' && row.isError))
  const isError = new Set(errorRows.map(({ id }) => id))
  const errors = held.after
    .filter((one) => isError.has(one.id) && before.has(one.id))
    .map((one) => ({ ...moved(one, one.worst), before: before.get(one.id)!.worst }))
  const least = Math.min(...held.after.map(relativeSlack))
  return { id, name, ...rung, verdict: verdictOf(held.after), mends, helps, breaks, errors, least }
}
