import { chain, type PlaceOf } from '@ohmward/budget'
import { demand, demandFinite, demandSpread, type Spread } from '@ohmward/quantity'
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

/** Fills a place of {@link cellChain} from its inputs, for one board. @throws InputError where it is no place, or an input is missing */
export function followCell(y: PlaceOf<(typeof cellChain)['formulas']>): void {
  demandPlace(y, cellChain.inputs)
  y.V_bat = batteryVoltage(y)
  y.k_age = ageFactor(y)
  y.R_bat = batteryResistance(y)
  y.V_oc = cellOpenCircuit(y)
  y.R_s = cellSourceResistance(y)
  demandFinite('V_oc', y.V_oc)
  demandFinite('R_s', y.R_s)
}

/** Fills a place of {@link portChain} from its inputs, for one board. @throws InputError where it is no place, or an input is missing */
export function followPort(y: PlaceOf<(typeof portChain)['formulas']>): void {
  demandPlace(y, portChain.inputs)
  y.V_oc = portOpenCircuit(y)
  y.R_s = portSourceResistance(y)
  demandFinite('V_oc', y.V_oc)
  demandFinite('R_s', y.R_s)
}

/**
 * Inputs of {@link cellChain} as spreads by symbol, in the state in which the source was asked for: for budgets, and for a
 * simulation in which one board keeps its parts over all states.
 *
 * @throws InputError where the cells or the path are none
 */
export function cellInputs(cells: CellsAt, path: Stretch): Record<CellInput, Spread> {
  demand(typeof cells === 'object' && cells !== null, { field: 'cells', value: cells, allowed: 'cells in a state' })
  demand(typeof cells.inputs === 'object' && cells.inputs !== null, {
    field: 'cells.inputs',
    value: cells.inputs,
    allowed: 'spreads by symbol',
  })
  for (const [symbol, input] of Object.entries(cells.inputs)) demandSpread(input, `cells.inputs.${symbol}`)
  demandStretch(path)
  return { ...cells.inputs, R_path: path.resistance, V_drop: path.drop }
}

/** Inputs of {@link portChain} as spreads by symbol. @throws InputError where the port or the path is none */
export function portInputs(port: ReadPort, path: Stretch): Record<PortInput, Spread> {
  demand(typeof port === 'object' && port !== null, { field: 'port', value: port, allowed: 'a port' })
  demandSpread(port.voltage, 'port.voltage')
  demandSpread(port.leadResistance, 'port.leadResistance')
  demandStretch(path)
  return { V_port: port.voltage, R_lead: port.leadResistance, R_path: path.resistance, V_drop: path.drop }
}

function demandStretch(path: Stretch): void {
  demand(typeof path === 'object' && path !== null, { field: 'path', value: path, allowed: 'resistance and drop' })
  demandSpread(path.resistance, 'path.resistance')
  demandSpread(path.drop, 'path.drop')
}

/** Once for each board: looks at its inputs alone. */
function demandPlace<K extends string>(y: Readonly<Record<K, number>>, inputs: readonly K[]): void {
  const isPlace = typeof y === 'object' && y !== null && !Object.isFrozen(y)
  demand(isPlace, { field: 'y', value: y, allowed: 'a place of the chain, to be filled' })
  for (const symbol of inputs) if (typeof y[symbol] !== 'number') demandFinite(symbol, y[symbol])
}

type CellInput = (typeof cellChain)['inputs'][number]
type PortInput = (typeof portChain)['inputs'][number]
type ReadPort = Pick<Extract<ReadSupply['source'], { readonly kind: 'port' }>, 'voltage' | 'leadResistance'>
