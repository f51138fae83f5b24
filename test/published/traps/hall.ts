import {
  countCurrent,
  fieldCurrent,
  MU_0,
  meanSquareShare,
  rangeUsed,
  ratiometricZero,
  rippleAbove,
  rippleBelow,
  strayField,
} from '@ohmward/hall/formulas'
import type { TrapRow } from '../check.js'

const field = () => strayField({ mu_0: MU_0, I_nb: 8, d_nb: 0.01 })
const zeroShift = (share: number) => {
  const at = (m_q: number) => ratiometricZero({ V_q0: 2.5, V_oe: 0, D_oe: 0, T_d: 0, m_q, x_s: 1, r_s: 1.1 })
  return (at(share) - at(0)) / 1.1 / 0.1
}

/** Hall sensor: the arithmetic of pitfalls E. */
export const rows: TrapRow[] = [
  {
    trap: 'E01',
    statement: 'cell at 3.0 V against a sensor from 4.5 V',
    printed: -1.5,
    tolerance: 0,
    unit: 'V',
    independent: () => 3 - 4.5,
  },
  {
    trap: 'E02',
    statement: 'largest current of 100 mV/A about 2.5 V below 3.3 V',
    printed: 8,
    tolerance: 0.001,
    unit: 'A',
    independent: () => (3.3 - 2.5) / 0.1,
    library: () => 1 / rangeUsed({ S_n: 0.1, I_max: 1, V_span: 3.3 - 2.5 }),
  },
  {
    trap: 'E02',
    statement: '2 % of a 5 V sensor supply, as a shift of the zero',
    printed: 0.5,
    tolerance: 0.001,
    unit: 'A',
    independent: () => (2.5 * 0.02) / 0.1,
    library: () => (ratiometricZero({ V_q0: 2.5, V_oe: 0, D_oe: 0, T_d: 0, m_q: 0, x_s: 0, r_s: 1.02 }) - 2.5) / 0.1,
  },
  ...(
    [
      [0.005, 0.12, 0.005],
      [0.01, 0.25, 0.0005],
    ] as const
  ).map(
    ([share, printed, tolerance]): TrapRow => ({
      trap: 'E03',
      statement: `ratiometry error of ${share * 100} % of 2.5 V at 100 mV/A`,
      printed,
      tolerance,
      unit: 'A',
      independent: () => (2.5 * share) / 0.1,
      library: () => zeroShift(share),
    }),
  ),
  {
    trap: 'E06',
    statement: 'field of 8 A at 10 mm',
    printed: 160,
    tolerance: 0.5,
    unit: 'µT',
    independent: () => ((4e-7 * Math.PI * 8) / (2 * Math.PI * 0.01)) * 1e6,
    library: () => field() * 1e6,
  },
  ...(
    [
      [1.5, 0.1, 0.01],
      [0.5, 0.3, 0.025],
    ] as const
  ).map(
    ([coupling, printed, tolerance]): TrapRow => ({
      trap: 'E06',
      statement: `160 µT at a coupling of ${coupling} mT/A, as a current`,
      printed,
      tolerance,
      unit: 'A',
      independent: () => 0.16 / coupling,
      library: () => fieldCurrent({ B_f: field(), C_B: coupling * 1e-3, CMFR_dB: 0 }),
    }),
  ),
  ...(
    [
      [1.5, 0.03, 0.005],
      [0.5, 0.1, 0.0005],
    ] as const
  ).map(
    ([coupling, printed, tolerance]): TrapRow => ({
      trap: 'E06',
      statement: `the earth's 50 µT at a coupling of ${coupling} mT/A, as a current`,
      printed,
      tolerance,
      unit: 'A',
      independent: () => 0.05 / coupling,
      library: () => fieldCurrent({ B_f: 50e-6, C_B: coupling * 1e-3, CMFR_dB: 0 }),
    }),
  ),
  {
    trap: 'E07',
    statement: 'current for one count at 5 V, 10 bits, 100 mV/A',
    printed: 49,
    tolerance: 0.5,
    unit: 'mA',
    independent: () => 5000 / 1024 / 0.1,
    library: () => countCurrent({ V_refn: 5, N_bits: 10, k_dn: 1, S_n: 0.1 }) * 1e3,
  },
  {
    trap: 'E08',
    statement: 'ripple left at 20 times the corner, duty 0.5, above and below the mean together',
    printed: 7.8,
    tolerance: 0.05,
    unit: '%',
    independent: () => Math.tanh(Math.PI / 40) * 100,
    library: () => {
      const x = { D_PWM: 0.5, f_PWM: 20e3, tau_f: 1 / (2 * Math.PI * 1e3) }
      return (rippleAbove(x) + rippleBelow(x)) * 100
    },
  },
  {
    trap: 'E09',
    statement: 'power from the squared mean current at a duty of 0.25',
    printed: 25,
    tolerance: 0,
    unit: '%',
    independent: () => ((0.25 * 8) ** 2 / (0.25 * 8 ** 2)) * 100,
    library: () => meanSquareShare({ I_avg: 2, I_on: 8, D_PWM: 0.25 }) * 100,
  },
  {
    trap: 'E10',
    statement: 'counts of 6 A at 100 mV/A, 5 V, 10 bits',
    printed: 123,
    tolerance: 0.5,
    unit: 'LSB',
    independent: () => (0.6 / 5) * 1024,
    library: () => 6 / countCurrent({ V_refn: 5, N_bits: 10, k_dn: 1, S_n: 0.1 }),
  },
  {
    trap: 'E10',
    statement: 'the same as a share of the half that one direction has',
    printed: 24,
    tolerance: 0.5,
    unit: '%',
    independent: () => (0.6 / 2.5) * 100,
    library: () => rangeUsed({ S_n: 0.1, I_max: 6, V_span: 2.5 }) * 100,
  },
]
