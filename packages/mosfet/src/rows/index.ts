import { type BlockRow, holdRow } from '@ohmward/budget'
import type { Switch } from '../chain/switch.js'
import type { ReadMosfet } from '../choice.js'
import type { Heat } from '../junction/heat.js'
import { driveRows } from './drive.js'
import { edgeRows } from './edges.js'
import { gateDriveRow, gateRows } from './gate.js'
import { heatRows } from './heat.js'
import { offRows } from './off.js'
import { ratingRows } from './ratings.js'
import { blockRow, limitRow, type MosfetRow } from './row.js'

/** Everything but the heat of the junction: what is watched, by the symbols of the chain. */
export function coldRows(read: ReadMosfet, { topology }: Switch): MosfetRow[] {
  return [
    ...gateRows(read),
    ...driveRows(read),
    ...offRows(read, topology),
    ...ratingRows(read, topology),
    ...edgeRows(read),
  ]
}

/** Rows that say nothing where the gate doesn't get over the plateau: the edge then has no end. */
const ofEdges: ReadonlySet<string> = /*#__PURE__*/ (() =>
  new Set(['on-edge', 'longest-edge', 'safe-area', 'freewheel-power']))()

/** Everything that is watched in a switch. */
export function rowsOf(read: ReadMosfet, circuit: Switch, heat: Heat): BlockRow[] {
  const rows = coldRows(read, circuit)
  const gateDrive = limitRow(gateDriveRow(read.transistor), circuit)
  const plateau = limitRow(rows.find(({ id }) => id === 'gate-plateau')!, circuit)
  const isStuck = () => holdRow(plateau).margin.slack < 0
  const doubt = () => (isStuck() ? 'the gate may not get over the plateau, and then the edge has no end' : undefined)
  return [
    ...heatRows(read, heat, { gateSlack: () => holdRow(gateDrive).margin.slack, edges: doubt }),
    ...rows.map((row) => blockRow(ofEdges.has(row.id) ? { ...row, doubt } : row, circuit, heat)),
  ]
}
