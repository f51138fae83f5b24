import {
  type Assessment,
  type Block,
  type BlockRow,
  type DecisionRule,
  holdRow,
  type Margin,
  plainMargin,
} from '@ohmward/budget'
import { decoupling } from '@ohmward/decoupling'
import { divider } from '@ohmward/divider'
import { hall } from '@ohmward/hall'
import { mosfet } from '@ohmward/mosfet'
import { InputError } from '@ohmward/quantity'
import type { BlockAt } from '../blocks/block-at.js'
import { decouplingAt } from '../blocks/decoupling-at.js'
import { dividerAt } from '../blocks/divider-at.js'
import { isStuckAt } from '../blocks/edges.js'
import type { Firmware } from '../blocks/firmware.js'
import { hallAt } from '../blocks/hall-at.js'
import { mosfetAt } from '../blocks/mosfet-at.js'
import { isBare } from '../blocks/rail-limits.js'
import type { ReadDesign } from '../design/record.js'
import { type KnownMargins, remembered, textOfGiven } from '../kept/known-margins.js'
import { isPulsed, stuckText } from '../pulse/conducting.js'
import { railRows } from '../rows/rail-rows.js'
import { rangeRows } from '../rows/range-rows.js'
import type { ReadyRow } from '../rows/ready-row.js'
import { supplyRows } from '../rows/supply-rows.js'
import { testStepRows } from '../rows/test-step.js'
import type { State } from '../supply/place.js'
import type { SolvedSpan } from '../supply/solve.js'

/** The parts of a design whose rows are held. */
export type BlockName = 'supply' | 'rails' | 'divider' | 'hall' | 'mosfet' | 'decoupling'

/** A block in one state of the load. */
export interface Stage {
  readonly block: BlockName
  readonly state: State
  /** Every row with what the supply leaves the block; one that is refused has a single row that says so. */
  readonly ready: (solved: SolvedSpan) => readonly ReadyRow[]
}

/** What is put between a block's name and a row's, by the state. */
const folders: Readonly<Record<State, string>> = {
  'load off': '',
  'load on': '',
  PWM: '/PWM',
}

/** What happens as the cell makes contact, before any pulse: held with the load on already. */
const atInsertion: readonly string[] = ['contact-surge', 'short-delay']

/**
 * Every block in every state in which it is held.
 *
 * @param known - margins of other designs, where several that differ little are held one after the other
 */
export function stagesOf(design: ReadDesign, firmware: Firmware, known?: KnownMargins): Stage[] {
  const stage = stageMaker(known)
  // A stand-in, where nothing but the load lives on the main rail.
  const unasked = isBare(design) ? ['rail-converter'] : []
  return [
    stage('load off', divider, (solved) => dividerAt(design, solved, firmware)),
    unlessStuck(
      design,
      firmware,
      stage('load on', hall, (solved) => hallAt(design, solved, firmware)),
    ),
    stage('load on', mosfet, (solved) => mosfetAt(design, solved)),
    stage('load on', decoupling, (solved) => decouplingAt(design, solved), unasked),
    ...(isPulsed(design)
      ? [
          stage('PWM', decoupling, (solved) => decouplingAt(design, solved, 'PWM', firmware.edges()), [
            ...unasked,
            ...atInsertion,
          ]),
        ]
      : []),
    { block: 'supply', state: 'load on', ready: (solved) => supplyRows(design, solved, firmware.edges()) },
    { block: 'rails', state: 'load on', ready: (solved) => railRows(design, solved) },
    { block: 'rails', state: 'load off', ready: (solved) => testStepRows(design, solved) },
    { block: 'divider', state: 'load off', ready: (solved) => rangeRows(design, solved) },
  ]
}

/** Where the gate may not get there, no reading of a pulse that holds is sure. */
const unlessStuck = (design: ReadDesign, { edges }: Firmware, stage: Stage): Stage => ({
  ...stage,
  ready: (solved) => {
    const ready = stage.ready(solved)
    return isStuckAt(design, solved, edges) ? ready.map(({ row, ...rest }) => ({ ...rest, row: doubted(row) })) : ready
  },
})

/** Rows of a time that begins with the command and waits for the load to be on. */
const fromEdge: readonly string[] = ['settling', 'on-window']

/** A row that isn't sure where it holds; of a time that never ends nothing is known. */
function doubted(row: BlockRow): BlockRow {
  if (row.kind === 'plain' && fromEdge.includes(row.id)) return { ...row, doubt: () => stuckText }
  if (row.kind === 'error') return { ...row, doubt: () => row.doubt?.() ?? stuckText }
  const hold = (rule: DecisionRule): Margin => {
    const { margin } = holdRow(row, rule)
    return margin.verdict === 'holds' ? { ...margin, verdict: 'not sure', reason: stuckText } : margin
  }
  const { id, name, unit, sense, catches, causes } = row
  return { kind: 'own', id, name, unit, sense, catches, ...(causes && { causes }), hold }
}

const stageMaker =
  (known: KnownMargins | undefined) =>
  <C, D, R, A extends Assessment>(
    state: State,
    block: Block<C, D, R, A>,
    here: (solved: SolvedSpan) => BlockAt<C, D>,
    unasked: readonly string[] = [],
  ): Stage => {
    const name = block.name as BlockName
    const idOf = (id: string) => `${name}${folders[state]}/${id}`
    return {
      block: name,
      state,
      ready: (solved) => {
        const { choice, conditions, at } = here(solved)
        try {
          const { rows, spent } = block.setup(block.at(block.read(choice, conditions), at))
          const ready = rows
            .filter(({ id }) => !unasked.includes(id))
            .map(
              (row): ReadyRow => ({
                ...{ id: idOf(row.id), row, ...(spent && { spent }) },
                ...(row.causes && { causes: row.causes.map(idOf) }),
              }),
            )
          if (known === undefined) return ready
          const given = textOfGiven([choice, conditions, at])
          return ready.map((one) => remembered(known, one, given))
        } catch (error) {
          if (error instanceof InputError) return [{ id: idOf('refused'), row: refusalOf(error), refused: error }]
          throw error
        }
      },
    }
  }

/** A block that refuses what the supply leaves it, such as a limit above the voltage at rest: nothing holds there. */
function refusalOf(error: InputError): BlockRow {
  const text = {
    id: 'refused',
    name: 'supply in the range of the block',
    unit: '1',
    sense: 'at least',
    catches: [],
  } as const
  return { kind: 'own', ...text, hold: () => ({ ...plainMargin(text, 0, 1), reason: error.message }) }
}
