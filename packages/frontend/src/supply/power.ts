import { between, type Spread } from '@ohmward/quantity'
import { type Fed, feed } from '@ohmward/supply'
import { sumOf } from './path.js'
import type { SolvedSpan } from './solve.js'

/** What is in series with the load behind the board, the switch apart, ohm. */
export function behindOf({ load, own }: Pick<SolvedSpan, 'load' | 'own'>): Spread {
  const nominal = load.nominal - own.nominal
  // Where nothing has a tolerance, the differences differ by their rounding.
  return between(Math.min(load.lower - own.lower, nominal), Math.max(load.upper - own.upper, nominal), nominal)
}

/** Power in the load itself while it is on, W: what the path, the switch and the sensor's conductor leave of it. */
export function powerAt({ source, rest, load, own, switch: on }: SolvedSpan): Spread {
  const resistance = sumOf([source.resistance, on, behindOf({ load, own })])
  return (feed({ ...source, openCircuit: rest, resistance }, { kind: 'resistance', resistance: own }) as Fed).power
}
