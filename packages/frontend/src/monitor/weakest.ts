import { capacityAt, type ReadCell, valueAt } from '@ohmward/supply'
import { offCurve } from '@ohmward/supply/formulas'

/** Halvings of the charge: to far less than a millivolt of any curve. */
const halvings = 50

/**
 * Voltage at rest of the weakest of the cells in series where all of them together stand at `volts`, V, at its least: all began full, it
 * has the least capacity left at that age and lies lowest on the curve, the others have the most and lie highest. 0 where it is empty
 * before, and driven backwards by the others. Pitfall K05.
 */
export function weakestAt(cell: ReadCell, volts: number, age: number): number {
  const { inSeries, openCircuit, openCircuitSpread: mid, openCircuitSpreadEmpty: low } = cell
  const { lower: least, upper: most } = capacityAt(cell, age)
  const at = (q: number, end: 'lower' | 'upper') =>
    valueAt(openCircuit, q) + offCurve({ e_mid: mid[end], e_low: low[end], q })
  const weak = (drawn: number) => at(1 - drawn / least, 'lower')
  const together = (drawn: number) => weak(drawn) + (inSeries - 1) * at(1 - drawn / most, 'upper')
  if (together(least) >= volts) return 0
  let [from, to] = [0, least]
  for (let n = 0; n < halvings; n++) {
    const drawn = (from + to) / 2
    if (together(drawn) >= volts) from = drawn
    else to = drawn
  }
  return weak(to)
}
