import type { Assessment, Margin } from '@ohmward/budget'
import type { Texts } from '../block.ts'
import { mostUsed, usedOf } from '../used.ts'

/** A part to hold against the design. */
export interface Candidate {
  readonly name: string
  readonly isOwn: boolean
  /** What stands in the form with it. */
  readonly texts: Texts
}

/** A part that was held against the design: what came of it, or why it can't stand there. */
export interface Trial extends Candidate {
  readonly assessment?: Pick<Assessment, 'verdict' | 'margins'>
  readonly refused?: string
}

/** The rows that the part decides: their worst case isn't the same with every part, or not every part has them. */
export function movedBy(trials: readonly Trial[]): ReadonlySet<string> {
  const all = trials.flatMap(({ assessment }) => (assessment ? [assessment.margins] : []))
  const worst = (margins: readonly Margin[], id: string) => margins.find((one) => one.id === id)?.worst
  const ids = new Set(all.flatMap((margins) => margins.map(({ id }) => id)))
  return new Set([...ids].filter((id) => all.some((margins) => worst(margins, id) !== worst(all[0]!, id))))
}

/** Of the rows that the part decides the one of which most of the limit is used; of all rows where it decides none. */
export function tightestOf({ assessment }: Trial, moved: ReadonlySet<string>): Margin | undefined {
  const margins = mostUsed(assessment?.margins ?? [])
  return margins.find(({ id }) => moved.has(id)) ?? margins[0]
}

/** Of the rows that limit an error, the one of which most is used. */
export const errorOf = ({ assessment }: Trial): Margin | undefined =>
  mostUsed((assessment?.margins ?? []).filter(({ id }) => id.startsWith('error-')))[0]

/** The rows that don't hold for sure. */
export const brokenOf = ({ assessment }: Trial): Margin[] =>
  mostUsed(assessment?.margins ?? []).filter(({ verdict }) => verdict !== 'holds')

const places = { holds: 0, 'not sure': 1, fails: 2 }

/** What a trial is ranked by, the most telling first; less is better. */
function scoreOf(trial: Trial, moved: ReadonlySet<string>): readonly number[] {
  if (!trial.assessment) return [3]
  const tightest = tightestOf(trial, moved)
  return [places[trial.assessment.verdict], brokenOf(trial).length, tightest ? usedOf(tightest) : 0]
}

/** Trials, the best part first: what holds before what doesn't, by how much of the tightest limit is used. */
export function ranked(trials: readonly Trial[]): Trial[] {
  const moved = movedBy(trials)
  const scored = trials.map((trial) => ({ trial, score: scoreOf(trial, moved) }))
  const compare = (a: readonly number[], b: readonly number[]): number => {
    const i = a.findIndex((value, k) => value !== b[k])
    return i < 0 ? 0 : a[i]! < (b[i] ?? Number.POSITIVE_INFINITY) ? -1 : 1
  }
  return scored.sort((a, b) => compare(a.score, b.score)).map(({ trial }) => trial)
}
