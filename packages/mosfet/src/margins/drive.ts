import { gateTimeConstant, peakPinCurrent, pullCurrent, pullPower } from '../formulas/index.js'
import type { MarginContext, MosfetMargin } from './spec.js'

/** What the drive itself must bear: its current, its pull-up's power, its transistor's saturation. */
export function driveMargins({ read: { transistor, drive, frequency }, circuit }: MarginContext): MosfetMargin[] {
  const { gate } = circuit
  const { spreads } = drive
  const margins: MosfetMargin[] = []
  if (drive.kind !== 'inverting transistor') {
    margins.push({
      id: 'pin-current',
      name: 'peak current of the drive',
      unit: 'A',
      sense: 'at most',
      value: (x) => peakPinCurrent({ V_GShigh: gate(x).V_GShigh, R_drv: x.R_drv, R_g: x.R_g }),
      limit: spreads.I_pinmax.lower,
      reads: ['V_GShigh', 'R_drv', 'R_g'],
      remedies: ['a larger gate resistor: 47 to 220 ohm from a controller pin', 'a driver'],
      catches: ['H09'],
    })
  } else {
    // The transistor carries current while a P-channel switch is on, and while an N-channel switch is off.
    const share = transistor.channel === 'P' ? (D: number) => D : (D: number) => 1 - D
    margins.push(
      {
        id: 'pull-power',
        name: 'power of the pull-up',
        unit: 'W',
        sense: 'at most',
        value: (x) => pullPower({ V_GShigh: gate(x).V_GShigh, R_p: x.R_p, D_p: share(x.D) }),
        limit: spreads.P_prated.lower,
        reads: ['V_GShigh', 'R_p', 'D'],
        remedies: [
          'a larger pull-up, if its slower edge is allowed',
          'a pull-up of a larger rating',
          'a drive that pulls both ways',
        ],
        catches: ['H04'],
      },
      {
        id: 'saturation',
        name: 'collector current of the drive, above that of the pull-up',
        unit: 'A',
        sense: 'at least',
        value: (x) => circuit.drive(x).I_C,
        limit: (x) => pullCurrent({ V_GShigh: gate(x).V_GShigh, R_p: x.R_p }),
        reads: ['I_C', 'V_GShigh', 'R_p'],
        remedies: ['a smaller base resistor', 'a larger pull-up'],
        catches: ['H04'],
      },
    )
  }
  if (frequency > 0) {
    margins.push({
      id: 'gate-time-constant',
      name: 'time constant of the gate, a hundredth of the period',
      unit: 's',
      sense: 'at most',
      value: (x) => gateTimeConstant({ R_gon: circuit.drive(x).R_gon, n: x.n, C_iss: x.C_iss }),
      limit: 0.01 / frequency,
      reads: ['R_gon', 'n', 'C_iss'],
      remedies: ['a lower frequency', 'a smaller gate resistor', 'a driver'],
      catches: ['H09'],
    })
  }
  return margins
}
