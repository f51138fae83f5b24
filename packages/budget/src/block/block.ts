import { demand, demandShape, type Shape } from '@ohmward/quantity'
import type { Budget } from '../budget/budget.js'
import type { Assessment, Caution, Margin } from '../margin/assessment.js'
import type { DecisionRule } from '../margin/margin.js'
import type { CheckOptions } from './options.js'
import type { BlockRow } from './rows.js'

const shape: Shape = { name: 'a text', read: 'a function', setup: 'a function', at: 'a function' }

/** Blocks that were made here. */
const known = /*#__PURE__*/ new WeakSet<object>()

/** What an assessment has beside verdict and margins, and what a block adds to it. */
export type Report<A extends Assessment> = Omit<A, 'block' | 'verdict' | 'margins' | 'cautions'>

/** The margins of a choice, most pressing first, and the budgets that came with them. */
export interface HeldRows {
  readonly margins: readonly Margin[]
  readonly budgets: Readonly<Record<string, Budget>>
  /** A margin by its id; undefined where the choice has none. */
  readonly margin: (id: string) => Margin | undefined
}

/** The same without their order: what is asked for may be held only then. */
export type RowsAsked = Pick<HeldRows, 'margin' | 'budgets'>

/** A choice made ready: its rows, and the words for what comes of them. */
export interface Setup<A extends Assessment = Assessment> {
  readonly rows: readonly BlockRow[]
  /** What holding its rows has cost so far, in the block's own steps: for who holds a block at many places, and must end. */
  readonly spent?: () => number
  /** What no row covers, or what can hurt. It asks for the rows that it goes by, and for no others; after {@link report} where there is one. */
  readonly cautions: (rows: RowsAsked, rule: DecisionRule) => readonly Caution[]
  /** Summary, values, derivation and assumptions, and what else the block answers. */
  readonly report: (held: HeldRows, options: Required<Pick<CheckOptions, 'simulation'>> & CheckOptions) => Report<A>
}

/** What a block is to the engines that check, sweep, size and change. */
export interface Block<C, D, R, A extends Assessment = Assessment> {
  readonly name: string
  /** Reads a choice and its conditions. @throws InputError naming the first field that isn't allowed */
  readonly read: (choice: C, conditions: D) => R
  /** Makes what was read ready. */
  readonly setup: (read: R) => Setup<A>
  /** The same choice at single values of some of its conditions, named as the conditions name them. */
  readonly at: (read: R, point: Readonly<Record<string, number>>) => R
}

/** Makes a block of its four parts, and looks at them once: the engines take what was made here alone. @throws InputError */
/*#__NO_SIDE_EFFECTS__*/
export function blockOf<C, D, R, A extends Assessment = Assessment>(parts: Block<C, D, R, A>): Block<C, D, R, A> {
  demandShape(parts, 'block', shape)
  const block = { ...parts }
  known.add(block)
  return block
}

/** Throws unless it is a block that was made by {@link blockOf}. @throws InputError */
export function demandBlock(block: Block<any, any, any, any>): void {
  demand(known.has(block), { field: 'block', value: block, allowed: 'a block, as blockOf makes it' })
}
