import { type Assessment, type Block, type BlockRow, blockOf, plainMargin, type Report } from '@ohmward/budget'
import type { RowOver } from '../answer/assessment.js'
import { answersOf, type WholeAnswers } from '../answer/whole.js'
import { wholeParts, wholeRows, wholeRowsOf } from '../answer/whole-rows/index.js'
import { readDesign } from '../design/read.js'
import type { Design, ReadDesign } from '../design/record.js'
import type { KnownMargins } from '../kept/known-margins.js'
import { once } from '../kept/once.js'
import type { ReadyRow } from '../rows/ready-row.js'
import type { Span } from '../supply/place.js'
import type { Stage } from '../walk/stage.js'
import { boundedWalk, type Walk } from '../walk/walk.js'
import { byPlace } from './by-place.js'

/** A design that was read, and how far down it must hold. */
export interface ReadWhole {
  readonly design: ReadDesign
  readonly walk: Walk
  /** From full to the charge that must be usable, at every temperature and age. */
  readonly span: Span
}

/** A design that was read and made ready to be walked. @throws InputError naming the first field that isn't allowed */
export function readWhole(given: Design, known?: KnownMargins): ReadWhole {
  const design = readDesign(given)
  const walk = boundedWalk(design, { charges: 2 }, known)
  const to = Math.max(walk.charges.at(-1)!, 1 - design.requirements.usableCharge)
  return { design, walk, span: { charge: { from: 1, to }, ...walk.around } }
}

/**
 * A design as a block, so that changes are tried on all of it: every row over the charge that must be usable, and those of the
 * whole, at no single place: power, monitor, drawer.
 */
export function wholeBlock(given: ReadWhole, known: KnownMargins): Block<Design, null, ReadWhole> {
  const own = answersOf(given.walk)
  const named = wholeRows(given.walk, own)
  const refusedBefore = new Set(readyRows(given).flatMap(({ ready: { id, refused } }) => (refused ? [id] : [])))
  return blockOf<Design, null, ReadWhole>({
    name: 'frontend',
    read: (design) => readWhole(design, known),
    at: (read) => read,
    setup: (read) => {
      const answers = read === given ? own : answersOf(read.walk)
      return {
        rows: [...rowsOf(read, refusedBefore), ...lateRows(read, answers, named)],
        cautions: () => [],
        report: unasked,
      }
    },
  })
}

const readyRows = ({ walk, span }: ReadWhole): { readonly stage: Stage; readonly ready: ReadyRow }[] =>
  walk.stages.flatMap((stage) =>
    walk
      .over(span)
      .ready(stage)
      .map((ready) => ({ stage, ready })),
  )

/** Rows of all blocks. @throws InputError where a block refuses what it didn't before: its rows would count as mended */
const rowsOf = (read: ReadWhole, refusedBefore: ReadonlySet<string>): BlockRow[] =>
  readyRows(read).map(({ stage, ready }) => {
    const { id, refused } = ready
    if (refused && !refusedBefore.has(id)) throw refused
    return byPlace(read.walk, read.span, stage, ready)
  })

/**
 * Rows of the whole, those of a part of it computed when the first of them is asked for; one that a change does away with holds. One that a
 * change brings would not be seen: a row that a change may break is there before it, too, as that of a pin without a capacitor.
 */
function lateRows({ walk }: ReadWhole, answers: WholeAnswers, named: readonly RowOver[]): BlockRow[] {
  return wholeParts.flatMap((part) => {
    const found = once(() => new Map(wholeRowsOf(part, walk, answers).map(({ id, margin }) => [id, { ...margin, id }])))
    return named
      .filter(({ block }) => block === part)
      .map(({ id, margin: { name, unit, sense, catches } }): BlockRow => {
        const text = { id, name, unit, sense, catches }
        return { kind: 'own', ...text, hold: () => found().get(id) ?? plainMargin(text, 1, 1) }
      })
  })
}

/** Changes ask for rows alone. */
const unasked = (): Report<Assessment> => ({
  summary: '',
  values: {},
  derivation: [],
  budgets: {},
  assumptions: [],
})
