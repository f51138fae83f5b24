import {
  type Assessment,
  type Budget,
  budgetOf,
  type DecisionRule,
  derive,
  type Margin,
  ordered,
  readRule,
  type SimulateOptions,
  verdictOf,
} from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import { conditions, type MosfetSymbol } from './chain/inputs.js'
import { onlyThese, type Switch, switchOf } from './chain/switch.js'
import { type MosfetChoice, type MosfetConditions, readMosfet } from './choice.js'
import { type HottestCase, hottestCase } from './junction/hottest.js'
import { type JunctionReport, reportOf } from './junction/report.js'
import { hasTwoRegimes, heatMargins, heldMargin, rowsOf } from './rows/index.js'
import { assumptionsOf, cautionsOf, summaryOf } from './texts.js'

/** How a check is made. */
export interface CheckOptions extends DecisionRule {
  /** `false` leaves the simulation out, for speed; or how to simulate. */
  readonly simulation?: Simulate
}

type Simulate = false | Pick<SimulateOptions<string>, 'seed' | 'accuracy' | 'maximumTrials'>

/** Budgets of a switch, at the worst of the conditions. */
export interface MosfetBudgets extends Readonly<Record<string, Budget>> {
  /** Cooling to spare with the junction at its limit, K: below 0 a board exceeds the limit. */
  readonly T_spare: Budget
  /** Gate-source voltage, switched on, V. */
  readonly V_GS: Budget
}

/** The answer of {@link checkMosfet}: an assessment, and the junction of a typical and of the worst board. */
export interface MosfetAssessment extends Assessment<MosfetBudgets> {
  /** Typical parts at the conditions where they are hottest; `values` and `derivation` are theirs. */
  readonly typical: JunctionReport
  /** Worst parts at the conditions where they are hottest. */
  readonly worst: JunctionReport
}

/**
 * Holds a switch against its limits, over the discharge, the ambient and the duty.
 *
 * @param choice - transistor, drive, load, PWM, cooling, wiring
 * @param around - open-circuit voltage empty to full, source resistance, air around the board
 * @returns verdict, margins (least relative slack first), budgets, derivation, cautions; runaway is a result, not an error
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export function checkMosfet(
  choice: MosfetChoice,
  around: MosfetConditions,
  { simulation = {}, accept }: CheckOptions = {},
): MosfetAssessment {
  const rule = readRule(accept)
  const read = readMosfet(choice, around)
  const first = switchOf(read)
  const hottest = hottestCase(first, rule)
  const mild = hottestCase(first.with({ inputs: onlyThese(first.inputs, new Set(conditions)) }), {})
  const worst = reportOf(hottest.circuit, hottest.margin.at)
  const typical = reportOf(mild.circuit, mild.station.at)
  const T_hot = startOf(
    rule.accept === undefined ? worst : typical,
    read.transistor.fields.junctionMaximumCelsius.lower,
  )
  const circuit = first.with({ inputs: { ...first.inputs, T_hot } })
  const twoRegimes = hasTwoRegimes(circuit)
  const others = rowsOf(read, circuit).map((row) => heldMargin(row, circuit, twoRegimes, rule))
  const margins = ordered([...heatMargins({ read, hottest, mild, typical, worst, others }, rule), ...others])
  const { values, derivation } = typicalValues(mild, typical, T_hot)
  const endless =
    read.bursts && reportOf(hottest.circuit, { ...hottest.margin.at, ...withoutEnd(read.junctionToAmbient) })
  return {
    block: 'mosfet',
    verdict: verdictOf(margins),
    summary: summaryOf(margins, typical, worst),
    values,
    derivation,
    budgets: budgetsOf(hottest, circuit, others, simulation),
    margins,
    cautions: cautionsOf({
      read,
      worst,
      margins,
      P_cond: values['P_cond'] ?? values['P_ctop']!,
      P_sw: values['P_sw']!,
      ...(endless && { endless }),
    }),
    assumptions: assumptionsOf(read),
    typical,
    worst,
  }
}

/** Junction temperature from which edges start and at which the threshold is lowest: no more than its limit. */
const startOf = ({ junction }: JunctionReport, T_lim: number) =>
  junction.kind === 'balance' ? Math.min(junction.T_j, T_lim) : T_lim

/** A burst that doesn't end: the whole of the board's thermal resistance. */
const withoutEnd = ({ nominal, upper }: Spread) => ({ R_thDC: upper, Z_b: nominal, Z_last: nominal })

/** Every value of a typical board where it is hottest, and how each came about. */
function typicalValues({ circuit, station }: HottestCase, { junction }: JunctionReport, T_hot: number) {
  circuit.putAt({ ...station.at, T_hot })
  const y: Readonly<Record<string, number>> = circuit.cold()
  // A board that runs away has no temperature to compute with.
  if (junction.kind === 'balance') circuit.hot(junction.T_j)
  const done = junction.kind === 'balance' ? circuit.formulas : circuit.stages.flat()
  const computed = Object.fromEntries(done.map(({ symbol }) => [symbol, y[symbol]!]))
  const read = new Set(done.flatMap(({ inputs }) => Object.keys(inputs)))
  const given = Object.fromEntries([...read].filter((one) => !(one in computed)).map((one) => [one, y[one]!]))
  return { values: { ...given, ...computed }, derivation: derive(done, given, computed) }
}

function budgetsOf(
  { circuit, station }: HottestCase,
  whole: Switch,
  others: readonly Margin[],
  simulation: Simulate,
): MosfetBudgets {
  const gate = others.find(({ id }) => id === 'gate-drive')!
  const lowest = (whole.inputs.V_oc as Spread).lower
  return {
    T_spare: budgetOf<MosfetSymbol>({
      symbol: 'T_spare',
      quantity: 'cooling to spare at the junction limit',
      unit: 'K',
      inputs: station.inputs,
      model: () => circuit.limit().T_spare,
      row: circuit.row,
      extremes: station.extremes,
      simulation: simulation && { ...simulation, limits: { lower: 0 } },
    }),
    V_GS: budgetOf<MosfetSymbol>({
      symbol: 'V_GS',
      quantity: 'gate-source voltage, switched on',
      unit: 'V',
      inputs: { ...whole.only(['V_GS']), V_oc: gate.at['V_oc'] ?? lowest },
      model: () => whole.gate().V_GS,
      row: whole.row,
      simulation: simulation && { ...simulation, limits: { lower: gate.limit } },
    }),
  }
}
