import { currentAt, lawOf, runawayDistance, solveJunction } from '@ohmward/mosfet'
import {
  dividedLevel,
  exponentialEdge,
  gateSourceVoltage,
  largestCurrent,
  peakPinCurrent,
  resetLevel,
  resistiveEdgeLoss,
  saggedRail,
  sourceLift,
  turnOffPeak,
  wiringEnergy,
} from '@ohmward/mosfet/formulas'
import type { TrapRow } from '../check.js'

const linear = lawOf({ kind: 'linear', perKelvin: 0.004 })
const power = lawOf({ kind: 'power', exponent: 2.3 })
const small = { T_a: 40, R_th: 250, P_0: 0, D: 1, R_on: 0.03 }

/** Junction of the H05 lines through the solver. */
function junction(I: number, R_th: number, R_on: number, T_a: number): number {
  const found = solveJunction({ T_a, R_th, P_0: 0, D: 1, R_on, V: I, r: 1, k: 0 }, linear)
  return found.kind === 'balance' ? found.T_j : Number.NaN
}

/** The closed form of the linear law. */
function closed(I: number, th: number, R: number, T_a: number, k = 0.004): number {
  const p = th * I * I * R
  return (T_a + p * (1 - 25 * k)) / (1 - p * k)
}

/** Where the power law has its last balance: T = m T_a/(m - 1), absolute. */
function lastOfPower(m: number, th: number, R: number, T_a: number): number {
  const T = (m * (T_a + 273.15)) / (m - 1)
  return Math.sqrt((T - T_a - 273.15) / (th * R * (T / 298.15) ** m))
}

const hot = (I: number, printed: number, tolerance: number, th = 250, R = 0.03, T_a = 40): TrapRow => ({
  trap: 'H05',
  statement: `junction at ${I} A, ${R * 1e3} mohm, ${th} K/W, ${T_a} °C, 0.4 % for each kelvin`,
  printed,
  tolerance,
  unit: '°C',
  independent: () => closed(I, th, R, T_a),
  library: () => junction(I, th, R, T_a),
})

/** MOSFET switch: the arithmetic of pitfalls H. */
export const rows: TrapRow[] = [
  {
    trap: 'H02',
    statement: 'current of 0.5 ohm behind 0.1 ohm at 3.4 V',
    printed: 5.67,
    tolerance: 0.005,
    unit: 'A',
    independent: () => 3.4 / 0.6,
    library: () => largestCurrent({ V_oc: 3.4, R_s: 0.1, R_L: 0.5, R_sh: 0 }),
  },
  {
    trap: 'H02',
    statement: 'supply of the gate at that sag',
    printed: 2.83,
    tolerance: 0.005,
    unit: 'V',
    independent: () => (3.4 * 0.5) / 0.6,
    library: () => saggedRail({ V_oc: 3.4, I_max: 3.4 / 0.6, R_s: 0.1 }),
  },
  {
    trap: 'H02',
    statement: 'the same behind a diode of 0.3 V',
    printed: 2.53,
    tolerance: 0.005,
    unit: 'V',
    independent: () => (3.4 * 0.5) / 0.6 - 0.3,
  },
  {
    trap: 'H03',
    statement: '3.3 V through 470 ohm with 10 kohm at the gate',
    printed: 3.152,
    tolerance: 0.0005,
    unit: 'V',
    independent: () => (3.3 * 10) / 10.47,
    library: () => dividedLevel({ V_drv: 3.3, R_p: 10e3, R_ser: 470 }),
  },
  {
    trap: 'H03',
    statement: '5 V through 330 ohm with 1 kohm at the gate',
    printed: 3.76,
    tolerance: 0.005,
    unit: 'V',
    independent: () => 5 / 1.33,
    library: () => dividedLevel({ V_drv: 5, R_p: 1e3, R_ser: 330 }),
  },
  {
    trap: 'H04',
    statement: '10 % to 90 % of 1 nF through 10 kohm',
    printed: 22,
    tolerance: 0.5,
    unit: 'µs',
    independent: () => 2.2 * 10e3 * 1e-9 * 1e6,
    library: () => exponentialEdge({ R_p: 10e3, C_iss: 1e-9 }) * 1e6,
  },
  {
    trap: 'H04',
    statement: '50 nC at 1 mA',
    printed: 50,
    tolerance: 0.5,
    unit: 'µs',
    independent: () => (50e-9 / 1e-3) * 1e6,
  },
  hot(3, 138, 0.5),
  hot(4, 285, 0.5),
  hot(8, 88, 0.5, 50, 0.012),
  {
    trap: 'H05',
    statement: 'loop gain at 3 A, 30 mohm, 250 K/W',
    printed: 0.27,
    tolerance: 0.005,
    unit: '1',
    independent: () => 250 * 9 * 0.03 * 0.004,
    library: () => {
      const found = solveJunction({ ...small, V: 3, r: 1, k: 0 }, linear)
      return found.kind === 'balance' ? found.loopGain : Number.NaN
    },
  },
  {
    trap: 'H05',
    statement: 'current that brings the junction to 150 °C',
    printed: 3.13,
    tolerance: 0.005,
    unit: 'A',
    independent: () => Math.sqrt(110 / (250 * 0.03 * 1.5)),
    library: () => currentAt({ ...small, s: 0 }, linear, 150),
  },
  {
    trap: 'H05',
    statement: 'asymptote of runaway, linear law',
    printed: 5.77,
    tolerance: 0.005,
    unit: 'A',
    independent: () => 1 / Math.sqrt(250 * 0.03 * 0.004),
    library: () => runawayDistance({ ...small, s: 0 }, linear, 3).current ?? Number.NaN,
  },
  {
    trap: 'H05',
    statement: 'last balance of a power law with exponent 2.3',
    printed: 2.78,
    tolerance: 0.005,
    unit: 'A',
    independent: () => lastOfPower(2.3, 250, 0.03, 40),
    library: () => runawayDistance({ ...small, s: 0 }, power, 2).current ?? Number.NaN,
  },
  {
    trap: 'H07',
    statement: 'resistive edges of 23 µs, 4.2 V, 8 A, 1 kHz',
    printed: 0.13,
    tolerance: 0.005,
    unit: 'W',
    independent: () => (4.2 * 8 * 23e-6 * 1e3) / 6,
    library: () => resistiveEdgeLoss({ V_oc: 4.2, I_max: 8, f_edge: 1e3, t_edge: 23e-6, n: 1 }),
  },
  {
    trap: 'H07',
    statement: 'the same at 10 kHz',
    printed: 1.29,
    tolerance: 0.005,
    unit: 'W',
    independent: () => (4.2 * 8 * 23e-6 * 1e4) / 6,
    library: () => resistiveEdgeLoss({ V_oc: 4.2, I_max: 8, f_edge: 1e4, t_edge: 23e-6, n: 1 }),
  },
  {
    trap: 'H08',
    statement: 'level of a pull-up of 35 kohm against 10 kohm at 3.3 V',
    printed: 0.73,
    tolerance: 0.005,
    unit: 'V',
    independent: () => (3.3 * 10) / 45,
    library: () => resetLevel({ V_weak: 3.3, R_weak: 35e3, R_p: 10e3, I_leak: 0 }),
  },
  {
    trap: 'H09',
    statement: 'peak current through 100 ohm at 3.3 V',
    printed: 33,
    tolerance: 0.5,
    unit: 'mA',
    independent: () => (3.3 / 100) * 1e3,
    library: () => peakPinCurrent({ V_GShigh: 3.3, R_drv: 0, R_g: 100 }) * 1e3,
  },
  {
    trap: 'H12',
    statement: 'spike of 0.2 µH, 8 A in 100 ns',
    printed: 16,
    tolerance: 0.5,
    unit: 'V',
    independent: () => (0.2e-6 * 8) / 100e-9,
    library: () => turnOffPeak({ V_oc: 0, L_w: 0.2e-6, I_max: 8, t_f: 100e-9 }),
  },
  {
    trap: 'H12',
    statement: 'energy of 0.2 µH at 8 A',
    printed: 6.4,
    tolerance: 0.05,
    unit: 'µJ',
    independent: () => 0.5 * 0.2e-6 * 64 * 1e6,
    library: () => wiringEnergy({ L_w: 0.2e-6, I_max: 8 }) * 1e6,
  },
  {
    trap: 'H13',
    statement: 'gate-source voltage left with the source at 2.5 V and the gate at 3.3 V',
    printed: 0.8,
    tolerance: 0.05,
    unit: 'V',
    independent: () => 3.3 - 2.5,
    library: () => gateSourceVoltage({ V_G: 3.3, V_lift: sourceLift({ I_max: 2.5 / 0.7, R_sh: 0.7 }) }),
  },
]
