import { avalancheEnergy, deratedAvalancheEnergy } from '../formulas/index.js'
import type { MarginContext, MosfetMargin } from './spec.js'

const spike = [
  'a slower edge at turn-off',
  'short, twisted leads, and a capacitor at the switch',
  'a fast diode across the load',
  'a transistor with a higher voltage or an avalanche rating',
]

/** Ratings of voltage, current and energy; a fifth of the rated voltage is kept for what isn't known. */
export function ratingMargins({ read, circuit }: MarginContext, startCelsius: number): MosfetMargin[] {
  const { gate, surge } = circuit
  const { transistor, openCircuit, frequency, duty, wiring } = read
  const rated = transistor.fields.drainSourceMaximum.lower
  const switches = frequency > 0 && duty.from < 1 && duty.to > 0
  const margins: MosfetMargin[] = [
    {
      id: 'drain-current',
      name: 'drain current, below its rating',
      unit: 'A',
      sense: 'at most',
      value: (x) => gate(x).I_max / x.n,
      limit: transistor.fields.currentMaximum.lower,
      reads: ['I_max', 'n'],
      remedies: ['a larger transistor', 'more of them in parallel', 'a larger load resistance'],
      catches: [],
    },
    {
      id: 'drain-voltage',
      name: 'drain-source voltage at turn-off, below four fifths of its rating',
      unit: 'V',
      sense: 'at most',
      value: (x) => (switches ? surge(x).V_pk : x.V_oc),
      limit: 0.8 * rated,
      reads: switches ? ['V_pk'] : ['V_oc'],
      remedies: spike,
      catches: ['H12'],
    },
  ]
  const energy = transistor.avalancheEnergy
  if (energy !== undefined && rated > openCircuit.to && wiring.inductance.upper > 0) {
    margins.push({
      id: 'avalanche-energy',
      name: 'energy at turn-off if it breaks down, below the single-pulse rating, hot',
      unit: 'J',
      sense: 'at most',
      value: (x) => avalancheEnergy({ E_w: surge(x).E_w, V_DSmax: rated, V_oc: x.V_oc }),
      limit: ({ T_lim, T_ref }) =>
        deratedAvalancheEnergy({ E_AS: energy, T_lim, T_j: Math.min(startCelsius, T_lim), T_ref }),
      reads: ['E_w', 'V_oc', 'T_lim', 'T_ref'],
      remedies: spike,
      catches: ['H11', 'H12'],
    })
  }
  return margins
}
