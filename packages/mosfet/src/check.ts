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
  tightestText,
  verdictOf,
} from '@ohmward/budget'
import { format, type Input, type Spread } from '@ohmward/quantity'
import { assumptionsOf, cautionsOf } from './cautions.js'
import { inputsBehind, type Switch, switchOf } from './chain/index.js'
import { type MosfetChoice, type MosfetConditions, readMosfet } from './choice.js'
import { conditions, inputsOf, type MosfetInputSet, type MosfetInputs, onlyThese, row, topologyOf } from './inputs.js'
import { absoluteZero } from './law.js'
import { type HottestCase, hasTwoRegimes, heatMargins, heldMargin, hottestCase, marginSpecs } from './margins/index.js'
import { type JunctionReport, reportOf } from './report.js'

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
  const inputs = inputsOf(read)
  const topology = topologyOf(read)
  const circuit = switchOf(topology)
  const hottest = hottestCase(topology, inputs, rule)
  const mild = hottestCase(topology, onlyThese(inputs, new Set(conditions)), {})
  const worstAt = numbers(inputs, hottest.margin.at)
  const worst = reportOf(hottest.circuit, worstAt)
  const typicalAt = numbers(inputs, mild.station.at)
  const typical = reportOf(mild.circuit, typicalAt)
  const { T_lim } = typicalAt
  // Where a probability decides, the typical board is the one that the other margins start from.
  const { junction } = rule.accept === undefined ? worst : typical
  const hot = junction.kind === 'balance' ? Math.min(junction.T_j, T_lim) : T_lim
  const twoRegimes = hasTwoRegimes(circuit, inputs)
  const others = marginSpecs({ read, circuit }, hot).map((spec) => heldMargin(spec, circuit, inputs, twoRegimes, rule))
  const margins = ordered([...heatMargins({ read, hottest, mild, typical, worst, others }, rule), ...others])
  const { values, derivation } = typicalValues(mild.circuit, typical, typicalAt)
  const endless = read.bursts && reportOf(hottest.circuit, { ...worstAt, R_thJA: read.junctionToAmbient.upper })
  return {
    block: 'mosfet',
    verdict: verdictOf(margins),
    summary: summaryOf(margins, typical, worst),
    values,
    derivation,
    budgets: budgetsOf(hottest, circuit, inputs, others, simulation),
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

/** The inputs as numbers: nominal, but for those given. */
function numbers(inputs: MosfetInputSet, at: Readonly<Record<string, number>>): MosfetInputs {
  const x: Record<string, number> = {}
  for (const [symbol, input] of Object.entries(inputs)) x[symbol] = at[symbol] ?? nominalOf(input)
  return x as unknown as MosfetInputs
}

const nominalOf = (input: Input): number => (typeof input === 'number' ? input : (input as Spread).nominal)

/** Every value of a typical board where it is hottest, and how each came about. */
function typicalValues(circuit: Switch, { junction }: JunctionReport, x: MosfetInputs) {
  const { law } = circuit.topology
  const cold = circuit.cold(x)
  // A board that runs away has no temperature to compute with.
  const hot = junction.kind === 'balance' ? circuit.hot(x, cold, junction.T_j) : undefined
  const { text } = law
  const constants = {
    rho_top: law.factor(x.T_lim),
    ...(text.kind === 'linear' && { a_R: text.perKelvin, T_ref: text.referenceCelsius! }),
    ...(text.kind === 'power' && { m_R: text.exponent, T_0: absoluteZero, T_ref: text.referenceCelsius! }),
  }
  const used = new Set(circuit.formulas.flatMap(({ inputs }) => Object.keys(inputs)))
  const given = Object.fromEntries(Object.entries({ ...x, ...constants }).filter(([symbol]) => used.has(symbol)))
  const computed = { ...cold, ...hot }
  const derivation = derive(circuit.formulas, given, computed)
  const shown = new Set([...used, ...derivation.map(({ symbol }) => symbol)])
  const own = Object.fromEntries(Object.entries(computed).filter(([symbol]) => shown.has(symbol)))
  const values: Readonly<Record<string, number>> = { ...given, ...own }
  return { values, derivation }
}

function budgetsOf(
  { circuit, station }: HottestCase,
  whole: Switch,
  inputs: MosfetInputSet,
  others: readonly Margin[],
  simulation: Simulate,
): MosfetBudgets {
  const gate = others.find(({ id }) => id === 'gate-drive')!
  const atGate = {
    ...onlyThese(inputs, inputsBehind(whole, ['V_GS'])),
    V_oc: gate.at['V_oc'] ?? (inputs.V_oc as Spread).lower,
  }
  return {
    T_spare: budgetOf({
      symbol: 'T_spare',
      quantity: 'cooling to spare at the junction limit',
      unit: 'K',
      inputs: station.inputs,
      model: (x: MosfetInputs) => circuit.limit(x).T_spare,
      row,
      extremes: station.extremes,
      simulation: simulation && { ...simulation, limits: { lower: 0 } },
    }),
    V_GS: budgetOf({
      symbol: 'V_GS',
      quantity: 'gate-source voltage, switched on',
      unit: 'V',
      inputs: atGate,
      model: (x: MosfetInputs) => whole.gate(x).V_GS,
      row,
      simulation: simulation && { ...simulation, limits: { lower: gate.limit } },
    }),
  }
}

/** The answer in a sentence or two. */
function summaryOf(margins: readonly Margin[], typical: JunctionReport, worst: JunctionReport): string {
  const { id, name, slack, unit } = margins[0]!
  const words = { holds: 'Holds', fails: 'Fails', 'not sure': 'Not sure' }
  const spare = format(Math.abs(slack), unit === 'degC' ? 'K' : unit, { digits: 2 })
  const isEndless = id === 'junction' && worst.junction.kind === 'runaway'
  const least = isEndless ? `"${name}" finds no balance` : tightestText(margins[0]!, spare)
  const celsius = ({ junction }: JunctionReport) =>
    junction.kind === 'balance' ? format(junction.T_j, 'degC', { digits: 3 }) : 'in runaway'
  return `${words[verdictOf(margins)]}: ${least}. Junction ${celsius(typical)} for a typical board, at worst ${celsius(worst)}.`
}
