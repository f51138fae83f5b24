export { chargeAt } from './cell/charge.js'
export { exampleCells } from './cell/examples.js'
export { type Cell, cellFields, cellRecord, type ReadCell, readCell } from './cell/fields.js'
export { type PublishedCurve, publishedCurves } from './cell/published.js'
export {
  type CellCondition,
  type CellState,
  type CellsAt,
  capacityAt,
  cellCondition,
  cellsAt,
  pulseLimit,
  spreadAt,
  spreadKnees,
} from './cell/state.js'
export type { Curve } from './curve/curve.js'
export { placeOf, valueAt } from './curve/given.js'
export { type ElementAt, elementsOf, pathAt, resistanceOf, type Stretch, stretchOf } from './path/at.js'
export { type CurrentLimit, currentLimits, usualTripShare } from './path/currents.js'
export {
  copperCoefficient,
  elementFields,
  type PathElement,
  pathField,
  type ReadElement,
  tapField,
} from './path/fields.js'
export { forwardOf } from './rails/diode.js'
export { exampleRails } from './rails/examples.js'
export {
  type Diode,
  diodeFields,
  type Rail,
  type ReadRail,
  type Regulator,
  type Resistor,
  railFields,
  railRecord,
  readRail,
  regulatorFields,
  resistorFields,
} from './rails/fields.js'
export { type Held, heldThrough, holdUpFor, type Sag } from './rails/held.js'
export { orderRails } from './rails/order.js'
export { type PinAt, pinAt } from './rails/pin.js'
export { type RailAt, type RailUse, railAt } from './rails/rail.js'
export { type NotRegulated, type Regulated, regulate } from './rails/regulator.js'
export { cornerOf, type SourceAt, type SourceCorner, type SupplyState, sourceAt } from './source/at.js'
export { cellChain, cellInputs, followCell, followPort, portChain, portInputs } from './source/chain.js'
export { exampleSupplies, exampleSupply } from './source/examples.js'
export { type Fed, feed } from './source/feed.js'
export { portFields, type ReadSupply, readSupply, type Supply, supplyFields, supplyRecord } from './source/fields.js'
export { type Load, loadFields, type ReadLoad, readLoad } from './source/load.js'
export { type SourceOver, type SupplyRange, sourceOver, voltageOver } from './source/over.js'
export { dutyFor, type LoadCorner, powerLimit, type Solved, solveLoad, type Unsolved } from './source/solve.js'
export { spreadOf, sumOf } from './spread-of.js'
export { type BurstSpec, type Bursts, burstsOf, type Usable, usableBetween } from './use/bursts.js'
export { type CutOff, type CutOffSpec, cutOffAt } from './use/cut-off.js'
export {
  type Drain,
  type ReadStandby,
  readStandby,
  type Shelf,
  shelfLife,
  standbyField,
  standbyFields,
} from './use/standby.js'
