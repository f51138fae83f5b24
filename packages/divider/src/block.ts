import {
  type Assessment,
  assess,
  type Budget,
  blockOf,
  type ChangeOptions,
  type Changes,
  type CheckOptions,
  changesOf,
  derive,
  holdRow,
  type Simulate,
  type SweepPoint,
  sweep,
} from '@ohmward/budget'
import { nominalOf } from '@ohmward/quantity'
import { assumptionsOf, cautionsOf } from './cautions.js'
import { type Plan, planOf } from './chain/plan.js'
import { remedies } from './changes/index.js'
import { type DividerChoice, type DividerConditions, type ReadChoice, readChoice } from './choice.js'
import { rowsOf } from './rows/index.js'
import { summaryOf } from './texts.js'

/** Budgets of a divider check: the indicated resistance at the smallest, nominal and largest load, and a temperature. */
export interface DividerBudgets extends Readonly<Record<string, Budget>> {
  readonly R_ind_smallest: Budget
  readonly R_ind: Budget
  readonly R_ind_largest: Budget
}

/** A choice that was read, and what of it only the texts need. */
interface Read extends ReadChoice {
  readonly given: DividerChoice
}

/** The low-ohm measurement as a block. */
export const divider = /*#__PURE__*/ blockOf<DividerChoice, DividerConditions, Read, Assessment<DividerBudgets>>({
  name: 'divider',
  read: (choice, conditions) => ({ ...readChoice(choice, conditions), given: choice }),
  at: (read, { rail, ambientCelsius }) => ({
    ...read,
    ...(rail !== undefined && { rail: { from: rail, to: rail } }),
    ...(ambientCelsius !== undefined && { ambient: { from: ambientCelsius, to: ambientCelsius } }),
  }),
  setup: (read) => {
    const plan = planOf(read)
    const { rows, unheld } = rowsOf(read, plan)
    let others: Readonly<Record<string, Budget>> | undefined
    const othersHeld = (simulation: Simulate = false) => {
      others ??= Object.fromEntries(unheld.map((row) => [row.budget.name, holdRow(row, {}, simulation).budget!]))
      return others
    }
    return {
      rows,
      cautions: ({ budgets }) => cautionsOf(read, Object.values({ ...budgets, ...othersHeld() })),
      report: (held, { simulation }) => {
        const budgets = { ...held.budgets, ...othersHeld(simulation) } as DividerBudgets
        return {
          summary: summaryOf({ ...held, budgets }, read),
          ...nominalReading(plan),
          budgets,
          assumptions: assumptionsOf(read, read.given, Object.values(budgets)),
        }
      },
    }
  },
})

/** Every value with nominal parts at the middle of the conditions, and how each came about. */
function nominalReading(plan: Plan) {
  const inputs = Object.fromEntries(Object.entries(plan.inputs).map(([symbol, input]) => [symbol, nominalOf(input)]))
  const columns = Object.fromEntries(Object.entries(inputs).map(([symbol, value]) => [symbol, Float64Array.of(value)]))
  const place = plan.reading(plan.row(columns, 0))
  const values = { V_rail: inputs['V_rail']!, ...place }
  return { values, derivation: derive(plan.formulas, { ...inputs, ...values }, place) }
}

/**
 * Checks a low-ohm measurement against its limits, over the rail and the temperature.
 *
 * @param choice - parts, load and wanted error
 * @param conditions - the rail while measuring, and the air around the board
 * @returns verdict, margins (least relative slack first), error budgets, derivation, cautions, assumptions
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export const checkDivider = (
  choice: DividerChoice,
  conditions: DividerConditions,
  options?: CheckOptions,
): Assessment<DividerBudgets> => assess(divider, choice, conditions, options)

/** Conditions of which a sweep takes single values. */
const swept = ['rail', 'ambientCelsius']

/**
 * Every row at single values of `rail` and `ambientCelsius`, each at its worst case over the parts.
 *
 * @param points - `[{ rail: 3.0 }, { rail: 3.1 }]`
 * @param ids - the rows that are asked for; all by default
 */
export const sweepDivider = (
  choice: DividerChoice,
  conditions: DividerConditions,
  points: readonly { readonly rail?: number; readonly ambientCelsius?: number }[],
  ids?: readonly string[],
): SweepPoint[] => sweep(divider, choice, conditions, points as readonly Record<string, number>[], ids, swept)

/** What can be done about a measurement that doesn't hold: each change tried as printed, the best first. */
export const dividerChanges = (
  choice: DividerChoice,
  conditions: DividerConditions,
  options?: ChangeOptions,
): Changes => changesOf(divider, remedies, choice, conditions, options)
