import { type Verdict, verdictOf } from '@ohmward/budget'
import { bareText, takenFor } from '@ohmward/quantity'
import { readDesign } from '../design/read.js'
import { type Design, designRecord } from '../design/record.js'
import type { KnownMargins } from '../kept/known-margins.js'
import { boundedWalk, type WalkOptions } from '../walk/walk.js'
import type { DesignAssessment, RowOver } from './assessment.js'
import { cautionsOf } from './cautions.js'
import { firstOf, isDiagnosis } from './first.js'
import { junctionOf } from './power/junction.js'
import { inOrder, type RowFound, rowsOver } from './rows.js'
import { later, now, type RunOptions } from './run.js'
import { assumptions, bareCapacity, lackingText, summaryOf, unpulsedText } from './texts.js'
import { answersOf } from './whole.js'
import { wholeRows } from './whole-rows/index.js'

const ofBoard = ({ row }: RowFound): boolean => !isDiagnosis(row.margin)

/** A whole design in steps: every row over the walk, then what follows from them. */
function* checking(given: Design, options: WalkOptions, known?: KnownMargins): Generator<number, DesignAssessment> {
  const design = readDesign(given)
  const walk = boundedWalk(design, options, known)
  const found = yield* rowsOver(walk)
  const { power, monitor, standby, surelyUsed } = answersOf(walk)
  const whole = wholeRows(walk, { power, monitor, standby })
  const rows = inOrder(found, whole)
  const first = firstOf(walk, found)
  const firstOfBoard = first && isDiagnosis(first.first.margin) ? firstOf(walk, found.filter(ofBoard)) : first
  const isCell = design.supply.source.kind === 'cell'
  const held = isCell ? 1 - (first?.heldDownTo ?? walk.charges.at(-1)!) : first === null ? 1 : 0
  const share = Math.min(held, surelyUsed)
  const wanted = design.requirements.usableCharge
  const usable = { share, wanted, verdict: share >= wanted ? 'holds' : 'fails' } as const
  const answer = {
    name: design.name ?? 'design',
    verdict: verdictFor(rows, usable, whole),
    source: design.supply.source.kind,
    rows,
    first: first?.first ?? null,
    firstOfBoard: firstOfBoard?.first ?? null,
    usable,
    power,
    monitor,
    standby,
    junction: junctionOf(walk),
    assumptions: [
      ...assumptions,
      ...unpulsedText(design),
      ...bareCapacity(given, design),
      ...lackingText(given, monitor),
      ...bareText(designRecord, given),
      ...takenFor(designRecord, given).map(({ text }) => `By default: ${text}.`),
    ],
    cautions: cautionsOf(walk),
  }
  return { ...answer, summary: summaryOf(answer) }
}

/**
 * Holds a whole design from full to the cut-off, cold to warm, new to old, load off and on: every row of every block, with
 * the rail that the supply leaves it there. All places of the walk are held at once, and apart where a row doesn't hold.
 *
 * @returns the verdict, every row over the walk, what gives way first, the usable charge, the days in the drawer
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export const checkDesign = (given: Design, options: WalkOptions = {}): DesignAssessment => now(checking(given, options))

/** The same of one of several designs that differ little. @throws InputError */
export const checkKnowing = (given: Design, options: WalkOptions, known: KnownMargins): DesignAssessment =>
  now(checking(given, options, known))

/** The same in steps, to be followed and stopped: for a page's worker. @throws InputError, and the signal's reason (as rejections) */
export async function checkDesignLater(
  given: Design,
  { onProgress, signal, ...options }: WalkOptions & RunOptions = {},
): Promise<DesignAssessment> {
  return later(checking(given, options), { ...(onProgress && { onProgress }), ...(signal && { signal }) })
}

/**
 * A row that fails only below the charge that must be usable doesn't count against the whole: the firmware must stop there.
 * So the verdict is that of the usable charge and of the rows that are of no single place; with too little charge surely usable it is
 * whether one fails above that, or is only not sure there.
 */
export function verdictFor(
  rows: readonly RowOver[],
  { verdict, wanted }: DesignAssessment['usable'],
  whole: readonly RowOver[],
): Verdict {
  if (whole.some(({ margin }) => margin.verdict === 'fails')) return 'fails'
  if (verdict === 'holds') return verdictOf(whole.map(({ margin }) => margin))
  const counts = ({ heldDownTo }: RowOver) => heldDownTo === null || heldDownTo > 1 - wanted + 1e-9
  return rows.some((row) => row.margin.verdict === 'fails' && counts(row)) ? 'fails' : 'not sure'
}
