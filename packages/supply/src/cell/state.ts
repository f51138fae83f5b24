import { exact, InputError, type Spread } from '@ohmward/quantity'
import { type Curve, covers, valueAt } from '../curve/curve.js'
import { agedCapacity, ageFactor, batteryResistance, batteryVoltage, offCurve } from '../formulas/cell.js'
import { demandNames } from '../names.js'
import { spreadOf } from '../spread-of.js'
import { demandCell } from '../taken.js'
import type { ReadCell } from './fields.js'

/** In what state cells are: charge 0 to 1, their temperature, age from new (0) to the end of life (1). */
export interface CellState {
  readonly charge: number
  readonly celsius: number
  readonly age: number
}

/** Cells in series in a state: spreads by the symbols of the formulas, and what comes of them. */
export interface CellsAt {
  /** Inputs of the formulas by symbol: `U_0`, `e_oc`, `R_cell`, `k_T`, `k_q`, `k_old`, `x_age`, `n_s`. */
  readonly inputs: Readonly<Record<'n_s' | 'U_0' | 'e_oc' | 'R_cell' | 'k_T' | 'k_q' | 'k_old' | 'x_age', Spread>>
  /** Factor by age. */
  readonly ageFactor: Spread
  /** Open-circuit voltage of all of them, V. */
  readonly voltage: Spread
  /** Resistance of all of them, ohm. */
  readonly resistance: Spread
}

/**
 * The cells in a state of charge, temperature and age.
 *
 * @throws InputError where the cell is none, a condition isn't finite or is outside its range: nothing is guessed beyond the points of a curve
 */
export function cellsAt(cell: ReadCell, state: CellState): CellsAt {
  demandCell(cell)
  demandNames(state, 'state', ['charge', 'celsius', 'age'])
  const { charge, celsius, age } = state
  within('charge', charge, 0, 1)
  within('age', age, 0, 1)
  inCurve('celsius', celsius, cell.temperatureFactor)
  const inputs = {
    n_s: exact(cell.inSeries),
    U_0: exact(valueAt(cell.openCircuit, charge)),
    e_oc: spreadAt(cell, charge),
    R_cell: cell.resistance,
    k_T: exact(valueAt(cell.temperatureFactor, celsius)),
    k_q: exact(valueAt(cell.chargeFactor, charge)),
    k_old: cell.ageFactor,
    x_age: exact(age),
  }
  const aged = spreadOf(ageFactor, inputs)
  return {
    inputs,
    ageFactor: aged,
    voltage: spreadOf(batteryVoltage, inputs),
    resistance: spreadOf(batteryResistance, { ...inputs, k_age: aged }),
  }
}

/** Capacity of the cells at an age, C. @throws InputError where the age isn't from 0 to 1 */
export function capacityAt(cell: ReadCell, age: number): Spread {
  demandCell(cell)
  within('age', age, 0, 1)
  return spreadOf(agedCapacity, { Q_cell: cell.capacity, k_Q: cell.capacityLeft, x_age: age })
}

/** Charges at which the spread about the curve begins to grow, and to be at its largest. */
export const spreadKnees: readonly [number, number] = [0.1, 0.25]

/** How far one cell may be off its curve at a charge, V: further in the last quarter. */
function offAt({ openCircuitSpread: e_mid, openCircuitSpreadEmpty: e_low }: ReadCell, charge: number): Spread {
  return charge >= spreadKnees[1] ? e_mid : spreadOf(offCurve, { e_mid, e_low, q: charge })
}

/**
 * How far one cell that is in use may be off its curve at a charge, V: further in the last quarter, where cells differ in when
 * they are empty. One that would rest below the cut-off has been stopped there, as exactly as cells follow their curve
 * elsewhere (`openCircuitSpread`).
 *
 * @param charge - 0 to 1
 * @throws InputError where the cell is none, or the charge isn't from 0 to 1
 */
export function spreadAt(cell: ReadCell, charge: number): Spread {
  demandCell(cell)
  within('charge', charge, 0, 1)
  const off = offAt(cell, charge)
  const { openCircuit, openCircuitSpread, lowestVoltage } = cell
  const left = Math.max(0, valueAt(openCircuit, charge) - lowestVoltage)
  const lower = Math.max(off.lower, openCircuitSpread.lower - left)
  return lower === off.lower ? off : { ...off, lower }
}

/** Open-circuit voltage of the cells in series at a charge, V. */
export const voltageAt = (cell: ReadCell, charge: number): Spread =>
  spreadOf(batteryVoltage, {
    n_s: cell.inSeries,
    U_0: valueAt(cell.openCircuit, charge),
    e_oc: spreadAt(cell, charge),
  })

/** What may be done with a cell that rests at a voltage. Pitfall K10. */
export type CellCondition = 'usable' | 'empty' | 'charge gently' | 'never charge again'

/**
 * What may be done with a cell that rests at a voltage: below the hazard voltage it is never charged again, between that
 * and the damage voltage only gently (a tenth of its capacity an hour). Protection is a part's job. Pitfall K10.
 *
 * @throws InputError unless the voltage is finite
 */
export function cellCondition(cell: ReadCell, volts: number): CellCondition {
  demandCell(cell)
  within('volts', volts, 0, 10)
  if (volts < cell.hazardVoltage) return 'never charge again'
  if (volts < cell.damageVoltage) return 'charge gently'
  return volts < cell.lowestVoltage ? 'empty' : 'usable'
}

/** Largest current in pulses: as stated, else the continuous one. @throws InputError where the cell is none */
export function pulseLimit(cell: ReadCell): number {
  demandCell(cell)
  return cell.pulseCurrent ?? cell.continuousCurrent
}

/** Refuses a number outside a range. */
export function within(field: string, value: number, from: number, to: number): void {
  if (typeof value === 'number' && value >= from && value <= to) return
  throw new InputError({ field, value, allowed: `a number from ${from} to ${to}` })
}

/** Refuses a temperature for which a curve states nothing. */
function inCurve(field: string, value: number, curve: Curve): void {
  if (typeof value === 'number' && covers(curve, value)) return
  const [from, to] = [curve.x[0]!, curve.x[curve.x.length - 1]!]
  throw new InputError({
    field,
    value,
    unit: 'degC',
    allowed: `from ${from} to ${to} degC, where the factor is stated`,
  })
}
