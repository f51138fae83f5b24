import type { Circuit } from './circuit.js'
import type { State } from './piece.js'

/** What a circuit remembers, in one list. */
export const packed = ({ source, voltages, currents }: State): number[] => [source, ...voltages, ...currents]

/** The same from a list, of a circuit with n branches. */
export function unpacked(x: readonly number[], n: number): State {
  return { rail: x[1]!, source: x[0]!, voltages: x.slice(1, 1 + n), currents: x.slice(1 + n) }
}

/** Whether entry j of the packed state is remembered: a current only where there is inductance. */
export function isState(c: Circuit, j: number): boolean {
  const n = c.branches.length
  if (j === 0) return c.source.inductance > 0
  return j <= n || c.branches[j - 1 - n]!.inductance > 0
}
