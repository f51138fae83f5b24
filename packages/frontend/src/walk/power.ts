import type { Spread } from '@ohmward/quantity'
import { type Fed, feed } from '@ohmward/supply'
import { sumOf } from './path.js'
import type { SolvedSpan } from './solve.js'

/** Power in the load itself while it is on, W: what the path, the switch and the sensor's conductor leave of it. */
export function powerAt({ source, rest, load, own, switch: on }: SolvedSpan): Spread {
  const behind = { lower: load.lower - own.lower, nominal: load.nominal - own.nominal, upper: load.upper - own.upper }
  const resistance = sumOf([source.resistance, on, { ...behind, distribution: { kind: 'rectangular' } }])
  return (feed({ ...source, openCircuit: rest, resistance }, { kind: 'resistance', resistance: own }) as Fed).power
}
