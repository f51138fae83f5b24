import { referenceCelsius } from '../law.js'
import type { MarginContext, MosfetMargin } from './spec.js'

const stronger = [
  'a transistor whose on-resistance is guaranteed at a lower gate voltage',
  'a gate supply that the load does not sag: boosted, or held by a diode where the sag exceeds its drop',
  'less source resistance, or less load current',
]

/** Whether the transistor is on: the level at its gate against the lines of its data sheet. */
export function gateMargins({ read: { transistor, drive, ambient }, circuit }: MarginContext): MosfetMargin[] {
  const { gate } = circuit
  const { thresholdVoltage, thresholdFall, gateSourceMaximum } = transistor.fields
  const margins: MosfetMargin[] = [
    {
      id: 'gate-drive',
      name: 'gate drive, above the lowest voltage with a guaranteed on-resistance',
      unit: 'V',
      sense: 'at least',
      value: (x) => gate(x).V_GS,
      limit: transistor.onResistance[0]!.gateSource,
      reads: ['V_GS'],
      remedies: [...stronger, 'a larger resistor from gate to source, or the resistor on the drive side'],
      catches: ['H01', 'H02', 'H03', 'H04', 'H13'],
    },
    {
      id: 'gate-threshold',
      name: 'gate drive, above the largest threshold, cold',
      unit: 'V',
      sense: 'at least',
      value: (x) => gate(x).V_GS,
      // It is largest in the cold.
      limit: thresholdVoltage.upper + thresholdFall.upper * Math.max(0, referenceCelsius - ambient.from),
      reads: ['V_GS'],
      remedies: stronger,
      catches: ['H01', 'H13'],
    },
    {
      id: 'gate-plateau',
      name: 'gate drive, above the plateau',
      unit: 'V',
      sense: 'at least',
      value: (x) => gate(x).V_GS,
      limit: (x) => x.V_pl + x.V_min,
      reads: ['V_GS', 'V_pl', 'V_min'],
      remedies: stronger,
      catches: ['H04'],
    },
    {
      id: 'gate-maximum',
      name: 'gate-source voltage, below its absolute maximum',
      unit: 'V',
      sense: 'at most',
      value: (x) => gate(x).V_GShigh,
      limit: gateSourceMaximum.lower,
      reads: ['V_GShigh'],
      remedies: ['a lower gate supply', 'a clamp from gate to source'],
      catches: [],
    },
  ]
  const supplyMinimum = drive.spreads.V_supmin.upper
  if (supplyMinimum > 0) {
    margins.push({
      id: 'drive-supply',
      name: 'supply of the gate drive',
      unit: 'V',
      sense: 'at least',
      value: (x) => gate(x).V_sup,
      limit: supplyMinimum,
      reads: ['V_sup'],
      remedies: ['a driver with a lower minimum supply', 'a supply of its own for the driver'],
      catches: ['H02'],
    })
  }
  return margins
}
