import type { Circuit, Load } from '../waveform/inside.js'

const ofBranch = 3
const beside = 7

/** Writes into a list all that a waveform follows from: the circuit, the load, and when it is switched. How many numbers these are. */
export function question(list: Float64Array, c: Circuit, load: Load, when: readonly number[]): number {
  const { voltage, resistance, inductance, currentLimit } = c.source
  list[0] = voltage
  list[1] = resistance
  list[2] = inductance
  list[3] = currentLimit ?? -1
  list[4] = c.idle
  list[5] = load.kind === 'current' ? 1 : load.kind === 'resistor' ? 2 : 3
  list[6] = load.kind === 'current' ? load.current : load.kind === 'resistor' ? load.resistance : load.power
  let size = beside
  for (let k = 0; k < c.branches.length; k++) {
    const branch = c.branches[k]!
    list[size] = branch.capacitance
    list[size + 1] = branch.resistance
    list[size + 2] = branch.inductance
    size += ofBranch
  }
  for (let k = 0; k < when.length; k++) list[size++] = when[k]!
  return size
}
