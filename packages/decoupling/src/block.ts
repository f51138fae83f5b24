import {
  assess,
  blockOf,
  type Caution,
  type ChangeOptions,
  type Changes,
  type CheckOptions,
  changesOf,
  type Margin,
  type SweepPoint,
  sweep,
} from '@ohmward/budget'
import { demandFinite, InputError } from '@ohmward/quantity'
import { voltageOver } from '@ohmward/supply'
import type { DecouplingAssessment } from './assessment.js'
import { remedies } from './changes/index.js'
import type { DecouplingChoice, DecouplingConditions, ReadDecoupling } from './choice/choice.js'
import { readDecoupling } from './choice/read.js'
import { cautionsIn, reportOf } from './report.js'
import { rowsOf } from './rows/index.js'
import { limitRows } from './rows/limits.js'
import { type Lowest, lowestOf } from './search/inside.js'
import { planOf, stepsOfCheck } from './search/plan.js'
import { effort } from './waveform/inside.js'

const single = (value: number) => ({ from: value, to: value })

/** A cell at one charge: the voltages that it may have there. */
function atCharge({ source }: ReadDecoupling, charge: number): Pick<ReadDecoupling, 'source' | 'openCircuit'> {
  if (source.kind !== 'cell')
    throw new InputError({ field: 'charge', value: charge, allowed: 'nothing: only cells have one' })
  return { source: { ...source, charge: single(charge) }, openCircuit: voltageOver(source.cell, single(charge)) }
}

/** Steps that what is told beside the margins may take, and with its simulation. */
const [stepsOfReport, stepsSimulated] = [1e7, 1e8]

const cutShort: Caution = {
  id: 'report-cut-short',
  text: 'What stands beside the margins took more steps than a check may take: the capacitance that is needed, or the budget of the lowest rail, was not looked at to its end. The margins stand.',
}

/** The rail under a load that is switched on it, as a block. */
export const decoupling = /*#__PURE__*/ blockOf<
  DecouplingChoice,
  DecouplingConditions,
  ReadDecoupling,
  DecouplingAssessment
>({
  name: 'decoupling',
  read: readDecoupling,
  at: (read, { openCircuit, charge, ambientCelsius, ageYears }) => ({
    ...read,
    ...(openCircuit !== undefined && { openCircuit: single(openCircuit) }),
    ...(charge !== undefined && atCharge(read, charge)),
    ...(ambientCelsius !== undefined && { ambient: single(ambientCelsius) }),
    ...(ageYears !== undefined && { age: single(ageYears) }),
  }),
  setup: (read) => {
    const plan = planOf(read)
    let found: Lowest | undefined
    let isCut = false
    const lowest = () => {
      found ??= lowestOf(plan)
      return found
    }
    return {
      rows: effort.watch(plan.allowance, () => rowsOf(plan, lowest)).result,
      spent: () => stepsOfCheck - plan.allowance.left,
      cautions: () => [...cautionsIn(plan), ...(isCut ? [cutShort] : [])],
      report: (held, options) => {
        const allowance = { left: options.simulation ? stepsSimulated : stepsOfReport }
        const { result } = effort.watch(allowance, () => reportOf(plan, lowest(), held, options))
        isCut = allowance.left <= 0
        return result
      },
    }
  },
})

/**
 * Checks a rail against its limits while a load is switched on, over the discharge, the temperature and the age.
 *
 * @param choice - source, capacitors, load, limits
 * @param conditions - open-circuit voltage, temperature, age to cover
 * @returns verdict, margins (least relative slack first), the budget of the lowest rail, derivation, cautions; the steady sag
 *   that no capacitor changes, and the remedies with their sizes
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export const checkDecoupling = (
  choice: DecouplingChoice,
  conditions: DecouplingConditions,
  options?: CheckOptions,
): DecouplingAssessment => assess(decoupling, choice, conditions, options)

/** Conditions of which a sweep takes single values. */
const swept = ['openCircuit', 'charge', 'ambientCelsius', 'ageYears']

/**
 * Every row at single values of the conditions, each at its worst case over the parts and the other conditions.
 *
 * @param points - `[{ openCircuit: 3.0 }, { openCircuit: 3.1 }]`
 * @param ids - the rows that are asked for; all by default
 * @throws InputError naming the first field that isn't allowed
 */
export const sweepDecoupling = (
  choice: DecouplingChoice,
  conditions: DecouplingConditions,
  points: readonly Readonly<Partial<Record<'openCircuit' | 'charge' | 'ambientCelsius' | 'ageYears', number>>>[],
  ids?: readonly string[],
): SweepPoint[] => sweep(decoupling, choice, conditions, points as readonly Record<string, number>[], ids, swept)

/**
 * What can be done about a rail that doesn't hold: each change tried as printed, the best first, with what it breaks.
 *
 * @throws InputError naming the first field that isn't allowed
 */
export const decouplingChanges = (
  choice: DecouplingChoice,
  conditions: DecouplingConditions,
  options?: ChangeOptions,
): Changes => changesOf(decoupling, remedies, choice, conditions, options)

/**
 * The margins of the rail's limits alone at one open-circuit voltage: for following a rail over the discharge.
 *
 * @param volts - open-circuit voltage, in place of the conditions' range
 * @throws InputError naming the first field that isn't allowed
 */
export function railLimitMargins(choice: DecouplingChoice, conditions: DecouplingConditions, volts: number): Margin[] {
  const read = decoupling.at(readDecoupling(choice, conditions), { openCircuit: demandFinite('volts', volts) })
  return limitRows(planOf(read)).map((row) => row.hold({}))
}
