import type { Budget } from '../budget/budget.js'
import type { Assessment, Caution } from '../margin/assessment.js'
import { dangerFirst } from '../margin/cautions.js'
import { ordered, verdictOf } from '../margin/verdict.js'
import { type Block, demandBlock, type HeldRows, type Setup } from './block.js'
import { demandRows } from './given.js'
import { holdRow } from './hold.js'
import { type CheckOptions, readCheckOptions } from './options.js'
import type { BlockRow } from './rows.js'

/**
 * Checks every row of a choice against its limit, over all parts and conditions: the check of every block.
 *
 * @throws InputError naming the first field or option that isn't allowed; nothing is computed then
 */
export function assess<C, D, R, A extends Assessment>(
  block: Block<C, D, R, A>,
  choice: C,
  conditions: D,
  options?: CheckOptions,
): A {
  demandBlock(block)
  const read = readCheckOptions(options)
  const setup = block.setup(block.read(choice, conditions))
  const held = holdAll(setup, read)
  const { margins } = held
  const report = setup.report(held, read)
  const cautions = dangerFirst(setup.cautions(held, read))
  return { block: block.name, verdict: verdictOf(margins), margins, ...report, cautions } as unknown as A
}

/**
 * The cautions of a choice alone, for who holds its rows elsewhere: what can hurt first. Only the rows that they go by are held.
 *
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export function cautionsFor<C, D, R, A extends Assessment>(
  block: Block<C, D, R, A>,
  choice: C,
  conditions: D,
): readonly Caution[] {
  demandBlock(block)
  const { rows, cautions } = block.setup(block.read(choice, conditions))
  const held = (row: BlockRow | undefined) => (row === undefined ? undefined : holdRow(row))
  const budgets: Record<string, Budget> = {}
  for (const row of rows)
    if (row.kind === 'error')
      Object.defineProperty(budgets, row.budget.name, { enumerable: true, get: () => held(row)!.budget })
  return dangerFirst(cautions({ margin: (id) => held(rows.find((row) => row.id === id))?.margin, budgets }, {}))
}

/** Holds all rows of a choice that was made ready. */
export function holdAll<A extends Assessment>(
  { rows }: Setup<A>,
  { simulation = false, ...rule }: CheckOptions = {},
): HeldRows {
  demandRows(rows)
  const budgets: Record<string, Budget> = {}
  const margins = ordered(
    rows.map((row) => {
      const { margin, budget } = holdRow(row, rule, simulation)
      if (budget && row.kind === 'error') budgets[row.budget.name] = budget
      return margin
    }),
    (cause, of) => rows.find(({ id }) => id === of.id)?.causes?.includes(cause.id) === true,
  )
  return { margins, budgets, margin: (id) => margins.find((one) => one.id === id) }
}
