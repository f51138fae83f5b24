import type { ReadMosfet } from '../choice.js'
import { hotThreshold } from '../formulas/off.js'
import { referenceCelsius } from '../junction/law.js'
import type { ReadTransistor } from '../parts/transistor.js'
import type { MosfetRow } from './row.js'

/** The level at the gate against the lowest voltage at which the data sheet promises anything. */
export const gateDriveRow = ({ onResistance }: ReadTransistor): MosfetRow => ({
  id: 'gate-drive',
  name: 'gate drive for the guaranteed on-resistance',
  unit: 'V',
  sense: 'at least',
  value: 'V_GS',
  limit: onResistance[0]!.gateSource,
  causes: ['drive-supply', 'saturation'],
  catches: ['H01', 'H02', 'H03', 'H04', 'H13'],
})

/** Whether the transistor is on: the level at its gate against the lines of its data sheet. */
export function gateRows({ transistor, drive, ambient }: ReadMosfet): MosfetRow[] {
  const { thresholdVoltage, thresholdFall, gateSourceMaximum } = transistor.fields
  const rows: MosfetRow[] = [
    gateDriveRow(transistor),
    {
      id: 'gate-threshold',
      name: 'gate drive against the cold threshold',
      unit: 'V',
      sense: 'at least',
      value: 'V_GS',
      // It is largest in the cold.
      limit: hotThreshold({
        V_th: thresholdVoltage.upper,
        k_th: thresholdFall.upper,
        T_hot: Math.min(ambient.from, referenceCelsius),
        T_25: referenceCelsius,
      }),
      catches: ['H01', 'H13'],
    },
    {
      id: 'gate-plateau',
      name: 'gate drive against the plateau',
      unit: 'V',
      sense: 'at least',
      value: 'V_GS',
      limit: 'V_need',
      catches: ['H04'],
    },
    {
      id: 'gate-maximum',
      name: 'highest gate-source voltage',
      unit: 'V',
      sense: 'at most',
      value: 'V_GShigh',
      limit: gateSourceMaximum.lower,
      catches: [],
    },
  ]
  const supplyMinimum = drive.spreads.V_supmin.upper
  if (supplyMinimum > 0) {
    rows.push({
      id: 'drive-supply',
      name: 'supply of the gate drive',
      unit: 'V',
      sense: 'at least',
      value: 'V_sup',
      limit: supplyMinimum,
      catches: ['H02'],
    })
  }
  return rows
}
