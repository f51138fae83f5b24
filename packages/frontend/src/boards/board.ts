import type { Spread } from '@ohmward/quantity'
import { followCell, followPort, type ReadElement, resistanceOf } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'
import { conductorOf } from '../walk/choices.js'
import { beforeBoard, behindBoard } from '../walk/path.js'
import type { SolvedPlace } from '../walk/solve.js'
import { at } from './draw.js'

/** Where in their spreads the parts of one board lie, by name: drawn once, whatever the place. */
export type Shares = (name: string) => number

/** Supply and load of one board at a place. */
export interface BoardAt {
  readonly V_oc: number
  readonly R_s: number
  /** Load with what is in series behind the board, the switch apart, ohm. */
  readonly R_L: number
  /** Board with the load off and on, V. */
  readonly rest: number
  readonly rail: number
  /** A */
  readonly current: number
}

/** One board: the same cell, path, load, switch and controller at every place. */
export function boardAt(design: ReadDesign, solved: SolvedPlace, idle: Spread, shares: Shares): BoardAt {
  const { place, own, switch: on } = solved
  const { supply, board, hall } = design
  const value = (name: string, spread: Spread) => at(spread, shares(name))
  const ohms = (path: readonly ReadElement[]) =>
    path.reduce((sum, one) => sum + value(`path ${one.name}`, resistanceOf(one, place.celsius)), 0)
  const { V_oc, R_s } = sourceOf(design, solved, value, ohms(beforeBoard(supply.path ?? [], board)))
  const R_L =
    value('load', own) + ohms(behindBoard(supply.path ?? [], board)) + shares('conductor') * conductorOf(hall.sensor)
  const R_on = value('switch', on)
  const rest = V_oc - value('idle', idle) * R_s
  const wanted = rest / (R_s + R_L + R_on)
  const limit = supply.source.kind === 'port' ? value('limit', supply.source.currentLimit) : Infinity
  const current = Math.min(wanted, limit)
  return { V_oc, R_s, R_L, rest, rail: current * (R_L + R_on), current }
}

/** The source of one board, through the chain of the supply. */
function sourceOf(
  { supply, board }: ReadDesign,
  { source }: SolvedPlace,
  value: (name: string, spread: Spread) => number,
  R_path: number,
): { readonly V_oc: number; readonly R_s: number } {
  const V_drop = beforeBoard(supply.path ?? [], board).reduce(
    (sum, one) => sum + value(`drop ${one.name}`, one.drop),
    0,
  )
  if (supply.source.kind === 'port') {
    const { voltage, leadResistance } = supply.source
    const y = {
      V_port: value('port', voltage),
      R_lead: value('leads', leadResistance),
      R_path,
      V_drop,
      V_oc: 0,
      R_s: 0,
    }
    followPort(y)
    return y
  }
  const inputs = source.cells!.inputs
  const y = {
    n_s: inputs.n_s.nominal,
    U_0: inputs.U_0.nominal,
    e_oc: value('cell voltage', inputs.e_oc),
    R_cell: value('cell resistance', inputs.R_cell),
    k_T: inputs.k_T.nominal,
    k_q: inputs.k_q.nominal,
    k_old: value('cell age', inputs.k_old),
    x_age: inputs.x_age.nominal,
    R_path,
    V_drop,
    V_bat: 0,
    k_age: 0,
    R_bat: 0,
    V_oc: 0,
    R_s: 0,
  }
  followCell(y)
  return y
}
