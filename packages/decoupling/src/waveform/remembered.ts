import type { Circuit } from './circuit.js'
import { reals } from './modes/reals.js'
import type { State } from './piece.js'

/** What a circuit remembers, in one list. */
export function packed({ source, voltages, currents }: State): number[] {
  const n = voltages.length
  const list = reals(1 + n + currents.length)
  list[0] = source
  for (let k = 0; k < n; k++) list[1 + k] = voltages[k]!
  for (let k = 0; k < currents.length; k++) list[1 + n + k] = currents[k]!
  return list
}

/** The same from a list, of a circuit with n branches. */
export function unpacked(x: readonly number[], n: number): State {
  const voltages = reals(n)
  const currents = reals(n)
  for (let k = 0; k < n; k++) {
    voltages[k] = x[1 + k]!
    currents[k] = x[1 + n + k]!
  }
  return { rail: x[1]!, source: x[0]!, voltages, currents }
}

/** Whether entry j of the packed state is remembered: a current only where there is inductance. */
export function isState(c: Circuit, j: number): boolean {
  const n = c.branches.length
  if (j === 0) return c.source.inductance > 0
  return j <= n || c.branches[j - 1 - n]!.inductance > 0
}
