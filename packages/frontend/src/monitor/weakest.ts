import { type ReadCell, valueAt } from '@ohmward/supply'

/** Halvings of the charge: to far less than a millivolt of any curve. */
const halvings = 50

/**
 * Voltage at rest of the weakest of the cells in series where all of them together stand at `volts`, V, at its least: all began full, it
 * has the least capacity and lies lowest on the curve, the others have the most and lie highest. 0 where it is empty before, and driven
 * backwards by the others. Pitfall K05.
 */
export function weakestAt({ inSeries, capacity, openCircuit, openCircuitSpread }: ReadCell, volts: number): number {
  const [least, most] = [capacity.lower, capacity.upper].map((one) => one / capacity.nominal) as [number, number]
  const weak = (drawn: number) => valueAt(openCircuit, 1 - drawn / least) + openCircuitSpread.lower
  const others = (drawn: number) => (inSeries - 1) * (valueAt(openCircuit, 1 - drawn / most) + openCircuitSpread.upper)
  if (weak(least) + others(least) >= volts) return 0
  let [from, to] = [0, least]
  for (let n = 0; n < halvings; n++) {
    const drawn = (from + to) / 2
    if (weak(drawn) + others(drawn) >= volts) from = drawn
    else to = drawn
  }
  return weak(to)
}
