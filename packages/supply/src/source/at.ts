import { demand, exact, InputError, type Spread } from '@ohmward/quantity'
import { type CellsAt, cellsAt } from '../cell/state.js'
import { cellOpenCircuit, cellSourceResistance, portOpenCircuit, portSourceResistance } from '../formulas/source.js'
import { demandCelsius, demandSource } from '../given.js'
import { demandNames } from '../names.js'
import { type Stretch, stretchOf } from '../path/at.js'
import { spreadOf, sumOf } from '../spread-of.js'
import { demandSupply } from '../taken.js'
import type { ReadSupply } from './fields.js'

/** In what state a supply is. A port takes no notice of charge and age. */
export interface SupplyState {
  /** State of charge, 0 to 1; cells need it. */
  readonly charge?: number
  /** Temperature of cells, conductors and board unless those have their own, degC. */
  readonly celsius: number
  /** From new (0, by default) to the end of life (1). */
  readonly age?: number
  /** Temperature of the power path, degC; that of the cells by default. */
  readonly pathCelsius?: number
  /** The node that is looked at: a tap of the path; its end, at the load, by default. */
  readonly tap?: string
}

/** What a load sees: an open-circuit voltage behind a resistance, with tolerances as spreads. */
export interface SourceAt {
  /** V */
  readonly openCircuit: Spread
  /** ohm */
  readonly resistance: Spread
  /** H */
  readonly inductance: Spread
  /** Current that the source holds at most, A; cells have none, their limits are margins. */
  readonly currentLimit: Spread | undefined
  /** The cells behind it, where it is a cell. */
  readonly cells: CellsAt | undefined
  /** The power path in front of the node. */
  readonly path: Stretch
}

/** One board of the source: plain numbers. */
export interface SourceCorner {
  /** Open-circuit voltage, V. */
  readonly V_oc: number
  /** Source resistance, ohm. */
  readonly R_s: number
  /** Current limit, A. */
  readonly I_lim?: number
}

/**
 * The source that a load sees in a state of charge, temperature and age: voltage and resistance at the node that is
 * looked at.
 *
 * @throws InputError where the supply is none, a condition is missing, isn't finite or is outside what the curves state, or the path has no
 *   such tap; where nothing is left of the voltage behind the diodes of the path
 */
export function sourceAt(supply: ReadSupply, state: SupplyState): SourceAt {
  demandSupply(supply)
  demandNames(state, 'state', ['celsius'], ['charge', 'age', 'pathCelsius', 'tap'])
  const { celsius, pathCelsius = celsius, tap } = state
  demandCelsius(celsius)
  demandCelsius(pathCelsius, 'pathCelsius')
  const path = stretchOf(supply.path ?? [], pathCelsius, tap === undefined ? 'whole' : { before: tap })
  return sourceBehind(supply, state, path)
}

/** The same with a path that was summed up before. */
export function sourceBehind(supply: ReadSupply, state: SupplyState, path: Stretch): SourceAt {
  const { source } = supply
  if (source.kind === 'port') {
    return withVoltage({
      openCircuit: spreadOf(portOpenCircuit, { V_port: source.voltage, V_drop: path.drop }),
      resistance: spreadOf(portSourceResistance, { R_lead: source.leadResistance, R_path: path.resistance }),
      inductance: sumOf([source.leadInductance, supply.inductance]),
      currentLimit: source.currentLimit,
      cells: undefined,
      path,
    })
  }
  const { charge, celsius, age = 0 } = state
  if (charge === undefined) throw new InputError({ field: 'charge', value: charge, allowed: 'a number from 0 to 1' })
  const cells = cellsAt(source, { charge, celsius, age })
  return withVoltage({
    openCircuit: spreadOf(cellOpenCircuit, { V_bat: cells.voltage, V_drop: path.drop }),
    resistance: spreadOf(cellSourceResistance, { R_bat: cells.resistance, R_path: path.resistance }),
    inductance: supply.inductance,
    currentLimit: undefined,
    cells,
    path,
  })
}

/**
 * The source as nominal parts make it, or at its weakest or strongest: what makes the deepest sag, and the largest current.
 *
 * @throws InputError where it is no source or the corner has another name
 */
export function cornerOf(source: SourceAt, which: 'nominal' | 'weakest' | 'strongest'): SourceCorner {
  demandSource(source)
  const { openCircuit: V, resistance: R, currentLimit: I } = source
  const limit = (value: number | undefined) => (value === undefined ? {} : { I_lim: value })
  const isCorner = which === 'nominal' || which === 'weakest' || which === 'strongest'
  demand(isCorner, { field: 'which', value: which, allowed: '"nominal", "weakest" or "strongest"' })
  if (which === 'nominal') return { V_oc: V.nominal, R_s: R.nominal, ...limit(I?.nominal) }
  if (which === 'weakest') return { V_oc: V.lower, R_s: R.upper, ...limit(I?.lower) }
  return { V_oc: V.upper, R_s: R.lower, ...limit(I?.upper) }
}

/** A plain voltage and resistance as a source, for a block that was given no more. */
export const plainSource = (openCircuit: Spread, resistance: Spread): SourceAt => ({
  openCircuit,
  resistance,
  inductance: exact(0),
  currentLimit: undefined,
  cells: undefined,
  path: { resistance: exact(0), drop: exact(0) },
})

function withVoltage(source: SourceAt): SourceAt {
  const { lower } = source.openCircuit
  if (lower > 0) return source
  const hint = 'The diodes of the path drop all of the voltage'
  throw new InputError({ field: 'path', value: lower, unit: 'V', allowed: 'an open-circuit voltage above 0 V', hint })
}
