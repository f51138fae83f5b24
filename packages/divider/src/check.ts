import {
  type Assessment,
  type Budget,
  type DecisionRule,
  derive,
  type Margin,
  ordered,
  plainMargin,
  readRule,
  tightestText,
  verdictOf,
} from '@ohmward/budget'
import { format, type Input } from '@ohmward/quantity'
import { assumptionsOf, cautionsOf } from './cautions.js'
import { type DividerChoice, type DividerConditions, type ReadChoice, readChoice } from './choice.js'
import { resistanceError, type Simulate, temperatureError } from './error-margins.js'
import { measurementMargins } from './margins.js'
import { type Plan, planOf } from './plan.js'
import { remedies } from './remedies.js'

/** How a check is made. */
export interface CheckOptions extends DecisionRule {
  /** `false` leaves the simulation out, for speed; or how to simulate. */
  readonly simulation?: Simulate
}

/** Budgets of a divider check: the indicated resistance at the smallest, nominal and largest load, and a temperature. */
export interface DividerBudgets extends Readonly<Record<string, Budget>> {
  readonly R_ind_smallest: Budget
  readonly R_ind: Budget
  readonly R_ind_largest: Budget
}

/**
 * Holds a low-ohm measurement against its limits, over the rail and the temperature.
 *
 * @param choice - parts, load and wanted error
 * @param conditions - the rail while measuring, and the air around the board
 * @returns verdict, margins (least relative slack first), error budgets, derivation, cautions, assumptions
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export function checkDivider(
  choice: DividerChoice,
  conditions: DividerConditions,
  { simulation = {}, accept }: CheckOptions = {},
): Assessment<DividerBudgets> {
  const rule = readRule(accept)
  const read = readChoice(choice, conditions)
  const plan = planOf(read)
  const { from, to, nominal } = read.load
  const error = (R_x: number, name: string) => resistanceError(read, plan, R_x, name, rule, simulation)
  const judged = {
    R_ind_smallest: error(from, 'smallest'),
    R_ind: error(nominal.nominal, 'nominal'),
    R_ind_largest: error(to, 'largest'),
  }
  const temperature = read.thermometry && { T_ind: temperatureError(read, plan, rule, simulation) }
  const all = Object.entries({ ...judged, ...temperature })
  const margins = ordered([
    ...all.map(([, { margin }]) => margin),
    ...measurementMargins(read, plan, rule),
    ...thermometryMargins(read, temperature?.T_ind.margin.worst ?? 0),
  ])
  const budgets = Object.fromEntries(all.map(([name, { budget }]) => [name, budget])) as unknown as DividerBudgets
  const { values, derivation } = nominalReading(plan)
  return {
    block: 'divider',
    verdict: verdictOf(margins),
    summary: summaryOf(margins, budgets.R_ind, read),
    values,
    derivation,
    budgets,
    margins,
    cautions: cautionsOf(read, Object.values(budgets)),
    assumptions: assumptionsOf(read, choice as unknown as Record<string, unknown>),
  }
}

/** Every value with nominal parts at the middle of the conditions, and how each came about. */
function nominalReading(plan: Plan) {
  const columns: Record<string, Float64Array> = {}
  const inputs: Record<string, number> = {}
  for (const [symbol, input] of Object.entries(plan.inputs)) {
    const value = nominalOf(input)
    inputs[symbol] = value
    columns[symbol] = Float64Array.of(value)
  }
  const place = plan.reading(plan.row(columns, 0))
  const values = { V_rail: inputs['V_rail']!, ...place }
  return { values, derivation: derive(plan.formulas(), { ...inputs, dT: inputs['T_d']!, ...values }, place) }
}

const nominalOf = (input: Input) => (typeof input === 'number' ? input : (input as { nominal: number }).nominal)

/** Margins of a thermometry beside its error: the element may be hotter by that than it is read. */
function thermometryMargins({ thermometry }: ReadChoice, error: number): Margin[] {
  if (!thermometry) return []
  const { part, limitCelsius, hotSpotFactor } = thermometry
  const text = { unit: 's', sense: 'at most' } as const
  const margins: Margin[] = []
  if (part.elementTimeConstant.upper > 0) {
    margins.push(
      plainMargin(
        {
          ...text,
          id: 'equalised',
          name: 'element and body equal after switching off',
          remedies: remedies.wait,
          catches: ['C06'],
        },
        3 * part.elementTimeConstant.upper,
        part.waitAfterOff.lower,
      ),
    )
  }
  if (limitCelsius !== undefined) {
    const T_0 = part.restCelsius.nominal
    const spot = (mean: number, factor: number) => T_0 + factor * (mean - T_0)
    const { nominal } = part.hotCelsius
    // What reads too low by a share of the rise is hotter by more than that once it reads the wanted value. A reading that
    // may miss more than half of the rise is none.
    const share = Math.min(error / Math.abs(nominal - T_0), 0.5)
    margins.push(
      plainMargin(
        {
          ...text,
          unit: 'degC',
          id: 'hot-spot',
          name: 'hottest spot of the element',
          remedies: remedies.hotSpot,
          catches: ['C05'],
        },
        spot(nominal + error / (1 - share), hotSpotFactor.upper),
        limitCelsius.lower,
        spot(nominal, hotSpotFactor.nominal),
      ),
    )
  }
  return margins
}

/** The answer in a sentence or two. */
function summaryOf(margins: readonly Margin[], budget: Budget, { load }: ReadChoice): string {
  const { linear, extremes } = budget
  const { slack, unit } = margins[0]!
  const words = { holds: 'Holds', fails: 'Fails', 'not sure': 'Not sure' }
  const overall = words[verdictOf(margins)]
  const ohm = (value: number) => format(value, 'ohm', { digits: 2 })
  const truth = load.nominal.nominal
  const reach = (lower: number, upper: number) => Math.max(upper - truth, truth - lower)
  // What is off on every board, as by a clipped output, counts with the spread about it.
  const most = reach(extremes.lower, extremes.upper)
  const expected = Math.min(reach(...linear.interval), most)
  const spare = format(Math.abs(slack), unit, { digits: 2 })
  const least = tightestText(margins[0]!, spare)
  const worth = `±${ohm(expected)} (${Math.round(100 * linear.level)} %), at worst ±${ohm(most)}`
  return `${overall}: ${least}. At ${format(truth, 'ohm')} expect ${worth}.`
}
