import type { ReadMosfet } from '../choice.js'
import { longestTimeConstant } from '../formulas/limits.js'
import type { MosfetRow } from './row.js'

/** What the drive can give, and what it has to bear. */
export function driveRows({ drive, frequency }: ReadMosfet): MosfetRow[] {
  const rows: MosfetRow[] =
    drive.kind === 'inverting transistor'
      ? pullRows(drive.spreads.P_prated.lower)
      : [pinRow(drive.spreads.I_pinmax.lower)]
  if (frequency > 0) {
    rows.push({
      id: 'gate-time-constant',
      name: 'time constant of the gate, a hundredth of the period',
      unit: 's',
      sense: 'at most',
      value: 'tau_g',
      limit: longestTimeConstant({ f: frequency }),
      catches: ['H09'],
    })
  }
  return rows
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

const pullRows = (ratedPower: number): MosfetRow[] => [
  {
    id: 'pull-power',
    name: 'power of the pull-up',
    unit: 'W',
    sense: 'at most',
    value: 'P_p',
    limit: ratedPower,
    catches: ['H04'],
  },
  {
    id: 'saturation',
    name: 'collector current of the drive, above that of the pull-up',
    unit: 'A',
    sense: 'at least',
    value: 'I_C',
    limit: 'I_p',
    catches: ['H04'],
  },
]
