import { exact, type Spread } from '@ohmward/quantity'
import { type Curve, firstAtLeast, lastAtMost, placeOf, valueAt } from '../curve/curve.js'
import { offCurve } from '../formulas/cell.js'
import { usableCharge } from '../formulas/charge.js'
import { least, most } from '../least-most.js'
import { demandCell } from '../taken.js'
import type { ReadCell } from './fields.js'
import { spreadKnees, within } from './state.js'

/** The curves of the cells that are furthest off, in use or not: at any charge, and once more as they empty, each either way. */
function furthest(cell: ReadCell): readonly Curve[] {
  const { openCircuit, openCircuitSpread: mid, openCircuitSpreadEmpty: low } = cell
  const x = [...openCircuit.x, ...spreadKnees].sort((a, b) => a - b)
  const curve = (e_mid: number, e_low: number): Curve => ({
    x,
    y: x.map((q) => valueAt(openCircuit, q) + offCurve({ e_mid, e_low, q })),
  })
  return [mid.lower, mid.upper].flatMap((e_mid) => [curve(e_mid, low.lower), curve(e_mid, low.upper)])
}

/**
 * State of charge of one cell at a voltage at rest, in use or not, over the spread of cells about the curve: 0 where the voltage is below
 * the whole curve, 1 above it.
 *
 * @throws InputError unless the voltage is finite
 */
export function chargeAt(cell: ReadCell, volts: number): Spread {
  demandCell(cell)
  within('volts', volts, 0, 10)
  const nominal = placeOf(cell.openCircuit, volts - cell.openCircuitSpread.nominal)
  const all = furthest(cell)
  const lower = least(all.map((curve) => firstAtLeast(curve, volts)))
  const upper = most(all.map((curve) => lastAtMost(curve, volts)))
  return lower === upper ? exact(nominal) : { nominal, lower, upper, distribution: { kind: 'rectangular' } }
}

/**
 * Share of the charge between two voltages at rest of one and the same cell, which may be off its curve otherwise where it is
 * full than where it is empty: 0 where the second isn't the lower one.
 *
 * @param from - V, or the charge itself where it is known: `{ charge: 1 }`
 */
export function chargeBetween(cell: ReadCell, from: number | { readonly charge: number }, to: number): Spread {
  const shareOf = (curve: Curve, first: typeof placeOf, last: typeof placeOf, e = 0) => {
    const q_from = typeof from === 'number' ? first(curve, from - e) : from.charge
    return Math.max(0, usableCharge({ Q_age: 1, q_from, q_to: last(curve, to - e) }))
  }
  const all = furthest(cell)
  const lower = least(all.map((curve) => shareOf(curve, firstAtLeast, lastAtMost)))
  const upper = most(all.map((curve) => shareOf(curve, lastAtMost, firstAtLeast)))
  const nominal = shareOf(cell.openCircuit, placeOf, placeOf, cell.openCircuitSpread.nominal)
  return lower === upper ? exact(nominal) : { nominal, lower, upper, distribution: { kind: 'rectangular' } }
}
