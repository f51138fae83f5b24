import {
  type Assessment,
  assess,
  type Budget,
  blockOf,
  budgetOf,
  type ChangeOptions,
  type Changes,
  type CheckOptions,
  changesOf,
  type DecisionRule,
  derive,
  type HeldRows,
  type Simulate,
  type SweepPoint,
  sweep,
} from '@ohmward/budget'
import { demand, type Spread } from '@ohmward/quantity'
import type { MosfetSymbol } from './chain/inputs.js'
import { type Switch, switchOf } from './chain/switch.js'
import { remedies } from './changes/index.js'
import { type MosfetChoice, type MosfetConditions, type ReadMosfet, readMosfet } from './choice.js'
import { type Supplied, supplied } from './conditions.js'
import { freewheelLoss } from './formulas/diodes.js'
import { largestCurrent } from './formulas/rail.js'
import { type Heat, heatOf } from './junction/heat.js'
import { type JunctionReport, reportOf, settledAt } from './junction/report.js'
import { rowsOf } from './rows/index.js'
import { readSwept, type SweptAt } from './swept.js'
import { assumptionsOf, cautionsOf, summaryOf } from './texts.js'

/** Budgets of a switch, at the worst of the conditions. */
export interface MosfetBudgets extends Readonly<Record<string, Budget>> {
  /** Thermal headroom with the junction at its limit, K: below 0 a board exceeds the limit. */
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

/** A board at work: its junction, and the load current with it. */
export type AtWork = Pick<JunctionReport, 'junction' | 'current'>

const single = (value: number) => ({ from: value, to: value })

/** A supply at single values of its states. */
const at = ({ supply, over }: Supplied, charge: number | undefined, celsius: number | undefined): Supplied => ({
  supply,
  over: {
    ...over,
    ...(charge !== undefined && { charge: single(charge) }),
    ...(celsius !== undefined && { celsius: single(celsius) }),
  },
})

/** The MOSFET switch as a block. */
export const mosfet = /*#__PURE__*/ blockOf<MosfetChoice, MosfetConditions, ReadMosfet, MosfetAssessment>({
  name: 'mosfet',
  read: readMosfet,
  at: (read, { openCircuit: volts, charge, ambientCelsius: celsius }) => ({
    ...read,
    ...(read.supplied && supplied(at(read.supplied, charge, celsius))),
    ...(volts !== undefined && { openCircuit: single(volts) }),
    ...(celsius !== undefined && { ambient: single(celsius) }),
  }),
  setup: (read) => {
    const circuit = switchOf(read)
    const heat = heatOf(circuit, read.transistor.fields.junctionMaximumCelsius.lower)
    const rows = rowsOf(read, circuit, heat)
    let told: ReturnType<typeof typicalValues> | undefined
    const typicalTold = (rule: DecisionRule) => {
      told ??= typicalValues(heat, heat.start(rule))
      return told
    }
    return {
      rows,
      cautions: ({ margin }, rule) => {
        const { values } = typicalTold(rule)
        const endless = read.bursts && withoutEnd(heat, read.junctionToAmbient)
        // A gate that may not get over the plateau has an edge without end, whatever its rows are told as.
        const isStuck = (margin('gate-plateau')?.slack ?? 0) < 0
        const timeOf = (id: string) => (isStuck ? Number.MAX_VALUE : (margin(id)?.worst ?? 0))
        return cautionsOf({
          read,
          worst: heat.worst(),
          edges: rows.flatMap(({ id }) => (isEdge(id) ? [timeOf(id)] : [])),
          drain: margin('drain-voltage'),
          P_cond: values['P_cond'] ?? values['P_ctop']!,
          P_sw: values['P_sw']!,
          tau_g: values['tau_g']!,
          P_fw: freewheelMost(read, timeOf('on-edge')),
          ...(endless && { endless }),
        })
      },
      report: (held, { simulation, ...rule }) => {
        const [typical, worst] = [heat.typical(), heat.worst()]
        const { values, derivation } = typicalTold(rule)
        return {
          summary: summaryOf(held.margins, typical, worst),
          values,
          derivation,
          budgets: budgetsOf(heat, circuit, held, simulation),
          assumptions: assumptionsOf(read),
          typical,
          worst,
        }
      },
    }
  },
})

/** Whether a row is of an edge of every period, not of the one that plugging in makes. */
const isEdge = (id: string): boolean => id.endsWith('-edge') && id !== 'contact-edge'

/** Most that a freewheeling diode dissipates: smallest duty, largest current, a switch that is on as late as any. W */
function freewheelMost(
  { freewheel, frequency, load, duty, openCircuit, sourceResistance, wiring }: ReadMosfet,
  t_ton: number,
): number {
  const [R_s, R_sh] = [sourceResistance.lower, wiring.sharedSource.lower]
  const I_max =
    load.kind === 'current'
      ? load.value.upper
      : largestCurrent({ V_oc: openCircuit.to, R_s, R_L: load.value.lower, R_sh })
  return freewheelLoss({ V_F: freewheel.drop.upper, I_max, D: duty.from, f_edge: frequency, t_ton })
}

/** A burst that doesn't end: the whole of the board's thermal resistance. */
function withoutEnd(heat: Heat, { nominal, upper }: Spread): JunctionReport {
  const { circuit, worst } = heat.hottest()
  return reportOf(circuit, { ...worst, R_thDC: upper, Z_b: nominal, Z_last: nominal })
}

/** Every value of a typical board where it is hottest, and how each came about. */
function typicalValues(heat: Heat, T_hot: number) {
  const { circuit, at } = heat.mild()
  const { junction } = heat.typical()
  circuit.putAt({ ...at, T_hot })
  const y: Readonly<Record<string, number>> = circuit.cold()
  // A board that runs away has no temperature to compute with.
  if (junction.kind === 'balance') circuit.hot(junction.T_j)
  const done = junction.kind === 'balance' ? circuit.formulas : Object.values(circuit.stages).flat()
  const computed = Object.fromEntries(done.map(({ symbol }) => [symbol, y[symbol]!]))
  const read = new Set(done.flatMap(({ inputs }) => Object.keys(inputs)))
  const given = Object.fromEntries([...read].filter((one) => !(one in computed)).map((one) => [one, y[one]!]))
  return { values: { ...given, ...computed }, derivation: derive(done, given, computed) }
}

function budgetsOf(heat: Heat, whole: Switch, held: HeldRows, simulation: Simulate): MosfetBudgets {
  const { circuit, station } = heat.hottest()
  const gate = held.margin('gate-drive')!
  const lowest = (whole.inputs.V_oc as Spread).lower
  return {
    T_spare: budgetOf<MosfetSymbol>({
      symbol: 'T_spare',
      quantity: 'thermal headroom at the junction limit',
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

/**
 * Checks a switch against its limits, over the discharge, the ambient and the duty.
 *
 * @param choice - transistor, drive, load, PWM, cooling, wiring
 * @param conditions - open-circuit voltage empty to full, source resistance, air around the board
 * @returns verdict, margins (least relative slack first), budgets, derivation, cautions; runaway is a result, not an error
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export const checkMosfet = (
  choice: MosfetChoice,
  conditions: MosfetConditions,
  options?: CheckOptions,
): MosfetAssessment => assess(mosfet, choice, conditions, options)

/**
 * Every row at single values of `openCircuit`, of `charge` where there is a supply, and of `ambientCelsius`, each at its worst case over the parts.
 *
 * @param points - `[{ openCircuit: 3.0 }, { openCircuit: 3.1 }]`
 * @param ids - the rows that are asked for; all by default
 * @throws InputError naming what isn't allowed: a point that says nothing known, a charge without a supply
 */
export function sweepMosfet(
  choice: MosfetChoice,
  conditions: MosfetConditions,
  points: readonly SweptAt[],
  ids?: readonly string[],
): SweepPoint[] {
  return sweep(mosfet, choice, conditions, readSwept(points, conditions), ids)
}

/**
 * Load current and junction of a typical and of the hottest board, rows and texts left out: where only the switch at
 * work is needed.
 *
 * @param read - what `mosfet.read` made of a choice and its conditions
 * @throws InputError where it is not
 */
export function mosfetAtWork(read: ReadMosfet): Record<'typical' | 'worst', AtWork> {
  const { transistor, drive } = read ?? {}
  const isRead = typeof transistor === 'object' && transistor !== null && typeof drive === 'object' && drive !== null
  demand(isRead, { field: 'read', value: read, allowed: 'what mosfet.read makes of a choice and its conditions' })
  const heat = heatOf(switchOf(read, true), read.transistor.fields.junctionMaximumCelsius.lower)
  const [mild, hottest] = [heat.mild(), heat.hottest()]
  return { typical: settledAt(mild.circuit, mild.at), worst: settledAt(hottest.circuit, hottest.worst) }
}

/** What can be done about a switch that doesn't hold: each change tried as printed, the best first. */
export const mosfetChanges = (choice: MosfetChoice, conditions: MosfetConditions, options?: ChangeOptions): Changes =>
  changesOf(mosfet, remedies, choice, conditions, options)
