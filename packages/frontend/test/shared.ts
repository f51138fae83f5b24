import { blockOf, type Change, changesOf, type Margin } from '@ohmward/budget'
import { exampleAmplifiers } from '@ohmward/divider'
import {
  checkDesign,
  type Design,
  designChanges,
  exampleDesign,
  type Place,
  readDesign,
  type Walk,
  walkOf,
} from '@ohmward/frontend'
import { exact } from '@ohmward/quantity'
import { only } from '../../../test/tools/only.js'
import { remembered } from '../../../test/tools/remembered.js'
import type { RowOver } from '../src/answer/assessment.js'
import { cautionsOf } from '../src/answer/cautions.js'
import { monitorOf } from '../src/answer/monitor.js'
import { rowsOver } from '../src/answer/rows.js'
import { now } from '../src/answer/run.js'
import { answersOf } from '../src/answer/whole.js'
import { wholeParts, wholeRows, wholeRowsOf } from '../src/answer/whole-rows/index.js'
import { remediesOf } from '../src/changes/index.js'
import { type ReadWhole, readWhole, wholeBlock } from '../src/changes/whole.js'
import type { KnownMargins } from '../src/kept/known-margins.js'
import { spanOf } from '../src/supply/place.js'
import type { SolvedSpan } from '../src/supply/solve.js'

const checkOnce = remembered(checkDesign)
const changesOnce = remembered(designChanges)

/** The check of the hot knife: one for all tests. */
export const exampleCheck = () => checkOnce(exampleDesign, { charges: 12 })

/** Shares of the search for changes of the hot knife, as they were told. */
export const exampleProgress: number[] = []

/** What can be done about the hot knife: one search for all tests. */
export const exampleChanges = () =>
  changesOnce(exampleDesign, {
    checks: 60,
    walked: 1,
    onProgress: (share) => {
      if (share === 0) exampleProgress.length = 0
      exampleProgress.push(share)
    },
  })

/** The hot knife with both faults mended: an amplifier from rail to rail, and a brown-out that the sagging rail clears. */
export const mended: Design = {
  ...exampleDesign,
  divider: { ...exampleDesign.divider, amplifier: exampleAmplifiers.zeroDrift },
  controller: { ...exampleDesign.controller, brownOut: '2 V ±3 %' },
}

/** A row of the monitor of a design: nothing else of it is held. */
export function monitorRow(given: Design, id: string): Margin | undefined {
  const walk = walkOf(readDesign(given), { charges: 2 })
  const power = { mean: exact(20), least: exact(0), error: {}, read: null, bursts: null }
  const answers = { power, monitor: monitorOf(walk), standby: null } as never
  return wholeRows(walk, answers).find((row) => row.id === `monitor/${id}`)?.margin
}

/** One row at a place, by its name in the whole design: what no one asks for there is not held. */
export function rowAt(walk: Walk, place: Place, id: string): Margin | undefined {
  const held = walk.over(spanOf(place))
  for (const stage of walk.stages) {
    const margin = id.startsWith(`${stage.block}/`) ? held.margin(stage, id) : undefined
    if (margin) return margin
  }
  return undefined
}

/** What is said of a design as a whole, at no single place: rows of power, monitor and drawer, and cautions. No block is held. */
export function wholeOf(design: Design) {
  const walk = walkOf(readDesign(design), { charges: 2 })
  return { rows: wholeRows(walk, answersOf(walk)), cautions: cautionsOf(walk) }
}

/** Rows of the part of the whole that a row of this name belongs to: only what they ask for is answered. */
export function rowsBeside(design: Design, id: string): RowOver[] {
  const walk = walkOf(readDesign(design), { charges: 2 })
  const part = wholeParts.find((one) => id.startsWith(`${one}/`))
  return part ? wholeRowsOf(part, walk, answersOf(walk)) : []
}

/** One row of the whole, by its name. */
export const wholeRow = (design: Design, id: string): Margin =>
  rowsBeside(design, id).find((row) => row.id === id)!.margin

/**
 * What some changes come to, tried as a search for all of them tries each; undefined where one is not offered or does not help.
 *
 * @param isAsked - which rows are held; all by default, so that what a change breaks is told
 */
export function changesBy(
  design: Design,
  ids: readonly string[],
  isAsked: (row: string) => boolean = () => true,
): (Change | undefined)[] {
  const known: KnownMargins = new Map()
  const read = readWhole(design, known)
  const block = wholeBlock(read, known)
  const asked = blockOf<Design, null, ReadWhole>({
    ...block,
    setup: (given) => {
      const { rows, ...more } = block.setup(given)
      return { ...more, rows: rows.filter((row) => isAsked(row.id)) }
    },
    read: (one, nothing) => (one === design ? read : block.read(one, nothing)),
  })
  const { changes } = changesOf(asked, only(remediesOf(read), ids), design, null)
  return ids.map((id) => changes.find((one) => one.id === id))
}

/** What one change comes to. */
export const changeOf = (design: Design, id: string, isAsked?: (row: string) => boolean): Change | undefined =>
  changesBy(design, [id], isAsked)[0]

/** A row over a walk of some charges, by its name: what a check says of it. No other is held. */
export const rowHeld = (design: Design, id: string, charges: number): Margin | undefined =>
  rowOver(design, id, charges)?.margin

/** The same with the place at which it is worst, and how far down it holds. */
export function rowOver(design: Design, id: string, charges: number): RowOver | undefined {
  const walk = walkOf(readDesign(design), { charges })
  const stages = walk.stages
    .filter(({ block }) => id.startsWith(`${block}/`))
    .map((stage) => ({
      ...stage,
      ready: (solved: SolvedSpan) => stage.ready(solved).filter((one) => one.id === id || one.refused),
    }))
  const rows = stages.length > 0 ? now(rowsOver({ ...walk, stages })).map(({ row }) => row) : rowsBeside(design, id)
  return rows.find((row) => row.id === id)
}

/** The hot knife on leads of its own and one capacitor without resistance, its load pulsed at one duty and there at once. */
export const onLeads = (
  inductance: string,
  capacitance: string,
  { frequency, duty }: { readonly frequency: string; readonly duty: number },
  more: Partial<Design> = {},
): Design => ({
  ...exampleDesign,
  supply: { ...exampleDesign.supply, inductance },
  pwm: { frequency, duty: { from: duty, to: duty } },
  load: { ...exampleDesign.load, rise: 0 },
  decoupling: { ...exampleDesign.decoupling, capacitors: [{ capacitance, ratedVoltage: 6.3, seriesResistance: 0 }] },
  ...more,
})
