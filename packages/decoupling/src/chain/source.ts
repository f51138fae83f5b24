import { chain, type PlaceOf } from '@ohmward/budget'
import { placeOf, valueAt } from '@ohmward/supply'
import { ageFactor, batteryResistance, cellSourceResistance, portSourceResistance } from '@ohmward/supply/formulas'
import type { ReadSource } from '../choice/choice.js'
import {
  diodeDrop,
  emissionVoltage,
  peakOfLogic,
  restCurrent,
  restingVoltage,
  restVoltage,
  sourceVoltage,
  wornShare,
} from '../formulas/index.js'
import { type Path, pathOf } from './path.js'

const rail = [sourceVoltage, restCurrent, restVoltage, peakOfLogic, diodeDrop, emissionVoltage] as const
const more = ['L', 'I_lim', 'P_want', 'R_iso', 'r_d', 'C_h', 'I_step', 'R_L', 'P_L', 'f_pwm', 'D'] as const

/** From cells and their power path to the rail at rest; `k_T` and `k_q` are read from the cell's curves. */
export const cellChain = /*#__PURE__*/ (() =>
  chain([wornShare, restingVoltage, ageFactor, batteryResistance, cellSourceResistance, ...rail], more))()

/** From a port and its power path to the rail at rest. */
export const portChain = /*#__PURE__*/ (() => chain([wornShare, portSourceResistance, ...rail], more))()

/** From plain numbers to the rail at rest. */
export const plainChain = /*#__PURE__*/ (() => chain([wornShare, ...rail], more))()

const chains = { cell: cellChain, port: portChain, plain: plainChain } as const

/** The chain of a source. */
export const chainOf = ({ kind }: ReadSource) => chains[kind]

/** What every source leaves: the rail at rest, the logic rail's diode and current. */
export type RailPlace = PlaceOf<typeof plainChain.formulas, (typeof more)[number]>

/** A source's place of work, its path, and what fills them for one board. */
export interface SourcePlace {
  readonly rail: RailPlace
  readonly path: Path
  readonly follow: () => void
}

/** Makes the place of a source; inputs that aren't put are 0. */
export function sourcePlace(source: ReadSource): SourcePlace {
  const path = pathOf(source)
  if (source.kind === 'cell') {
    const { cell, charge, isByCharge } = source
    const y = zeroed(cellChain)
    y.n_s = cell.inSeries
    y.k_q = valueAt(cell.chargeFactor, charge.from)
    let celsius = Number.NaN
    const follow = () => {
      y.x_age = wornShare(y)
      y.U_0 = restingVoltage(y)
      // Boards come in rows at one temperature.
      if (y.T_a !== celsius) y.k_T = valueAt(cell.temperatureFactor, y.T_a)
      celsius = y.T_a
      if (isByCharge) {
        const q = placeOf(cell.openCircuit, y.U_0)
        y.k_q = valueAt(cell.chargeFactor, Math.min(Math.max(q, charge.from), charge.to))
      }
      y.k_age = ageFactor(y)
      y.R_bat = batteryResistance(y)
      y.R_path = path.follow(y.T_a)
      y.R_s = cellSourceResistance(y)
      followRail(y)
    }
    return { rail: y, path, follow }
  }
  if (source.kind === 'port') {
    const y = zeroed(portChain)
    const follow = () => {
      y.x_age = wornShare(y)
      y.R_path = path.follow(y.T_a)
      y.R_s = portSourceResistance(y)
      followRail(y)
    }
    return { rail: y, path, follow }
  }
  const y = zeroed(plainChain)
  const follow = () => {
    y.x_age = wornShare(y)
    followRail(y)
  }
  return { rail: y, path, follow }
}

function followRail(y: RailPlace): void {
  y.V_s = sourceVoltage(y)
  y.I_q = restCurrent(y)
  y.V_rest = restVoltage(y)
  y.I_top = peakOfLogic(y)
  y.V_fT = diodeDrop(y)
  y.V_e = emissionVoltage(y)
}

/** A place whose inputs are 0. */
function zeroed<P extends object>({
  place,
  inputs,
}: {
  readonly place: () => P
  readonly inputs: readonly (keyof P)[]
}): P {
  const y = place()
  for (const name of inputs) Object.assign(y, { [name]: 0 })
  return y
}
