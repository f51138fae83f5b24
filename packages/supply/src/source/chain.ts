import { chain, type PlaceOf } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import type { CellsAt } from '../cell/state.js'
import { ageFactor, batteryResistance, batteryVoltage } from '../formulas/cell.js'
import { cellOpenCircuit, cellSourceResistance, portOpenCircuit, portSourceResistance } from '../formulas/source.js'
import type { Stretch } from '../path/at.js'
import type { ReadSupply } from './fields.js'

/** From what a cell's data sheet states to what a load sees; `U_0`, `k_T` and `k_q` are read from the curves. */
export const cellChain = /*#__PURE__*/ chain([
  batteryVoltage,
  ageFactor,
  batteryResistance,
  cellOpenCircuit,
  cellSourceResistance,
])

/** From a port to what a load sees. */
export const portChain = /*#__PURE__*/ chain([portOpenCircuit, portSourceResistance])

/** Fills a place of {@link cellChain} from its inputs, for one board. */
export function followCell(y: PlaceOf<(typeof cellChain)['formulas']>): void {
  y.V_bat = batteryVoltage(y)
  y.k_age = ageFactor(y)
  y.R_bat = batteryResistance(y)
  y.V_oc = cellOpenCircuit(y)
  y.R_s = cellSourceResistance(y)
}

/** Fills a place of {@link portChain} from its inputs, for one board. */
export function followPort(y: PlaceOf<(typeof portChain)['formulas']>): void {
  y.V_oc = portOpenCircuit(y)
  y.R_s = portSourceResistance(y)
}

/**
 * Inputs of {@link cellChain} as spreads by symbol, in the state in which the source was asked for: for budgets, and for a
 * simulation in which one board keeps its parts over all states.
 */
export const cellInputs = ({ inputs }: CellsAt, { resistance, drop }: Stretch): Record<CellInput, Spread> => ({
  ...inputs,
  R_path: resistance,
  V_drop: drop,
})

/** Inputs of {@link portChain} as spreads by symbol. */
export const portInputs = (port: ReadPort, { resistance, drop }: Stretch): Record<PortInput, Spread> => ({
  V_port: port.voltage,
  R_lead: port.leadResistance,
  R_path: resistance,
  V_drop: drop,
})

type CellInput = (typeof cellChain)['inputs'][number]
type PortInput = (typeof portChain)['inputs'][number]
type ReadPort = Pick<Extract<ReadSupply['source'], { readonly kind: 'port' }>, 'voltage' | 'leadResistance'>
