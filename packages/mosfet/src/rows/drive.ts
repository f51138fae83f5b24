import type { ReadMosfet } from '../choice.js'
import type { MosfetRow } from './row.js'

/** What the drive can give, and what it has to bear. */
export function driveRows({ drive }: ReadMosfet): MosfetRow[] {
  return [
    ...(drive.kind === 'inverting transistor' ? [saturationRow] : [pinRow(drive.spreads.I_pinmax.lower)]),
    ...(drive.pull === 'none' ? [] : [pullRow(drive.spreads.P_prated.lower)]),
  ]
}

const pinRow = (limit: number): MosfetRow => ({
  id: 'pin-current',
  name: 'peak current of the drive',
  unit: 'A',
  sense: 'at most',
  value: 'I_pin',
  limit,
  catches: ['H09'],
})

const pullRow = (limit: number): MosfetRow => ({
  id: 'pull-power',
  name: "power in the gate's pull resistor",
  unit: 'W',
  sense: 'at most',
  value: 'P_p',
  limit,
  catches: ['H04'],
})

const saturationRow: MosfetRow = {
  id: 'saturation',
  name: 'collector current of the drive',
  unit: 'A',
  sense: 'at least',
  value: 'I_C',
  limit: 'I_p',
  catches: ['H04'],
}
