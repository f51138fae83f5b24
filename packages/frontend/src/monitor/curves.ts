import { type ReadCell, spreadKnees, valueAt } from '@ohmward/supply'
import { offCurve } from '@ohmward/supply/formulas'

/** Open-circuit voltage of all cells in series at a charge, V: of those that lie lowest on the curve, on it, and highest, in use or not. */
export interface Curves {
  readonly lower: (charge: number) => number
  readonly nominal: (charge: number) => number
  readonly upper: (charge: number) => number
}

/** The curves of a cell that is in series with others alike. */
export function curvesOf({
  inSeries,
  openCircuit,
  openCircuitSpread: mid,
  openCircuitSpreadEmpty: low,
}: ReadCell): Curves {
  const curve = (end: 'lower' | 'nominal' | 'upper') => (charge: number) =>
    inSeries * (valueAt(openCircuit, charge) + offCurve({ e_mid: mid[end], e_low: low[end], q: charge }))
  return { lower: curve('lower'), nominal: curve('nominal'), upper: curve('upper') }
}

/** Charges from full to empty between which the voltage and the resistance of a cell are straight lines. */
export const chargesOf = ({ openCircuit, chargeFactor }: ReadCell): number[] =>
  [...new Set([0, 1, ...openCircuit.x, ...chargeFactor.x, ...spreadKnees])].sort((a, b) => b - a)

/** Halvings of a stretch: to less than a microvolt of any curve. */
const halvings = 30

/** The highest charge at which something holds, coming from full; 0 where it holds nowhere. */
export function highest(charges: readonly number[], holds: (charge: number) => boolean): number {
  const i = charges.findIndex(holds)
  if (i < 0) return 0
  let [above, below] = [charges[Math.max(0, i - 1)]!, charges[i]!]
  for (let n = 0; n < halvings && above > below; n++) {
    const middle = (above + below) / 2
    if (holds(middle)) below = middle
    else above = middle
  }
  return above
}
