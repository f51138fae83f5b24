import { platinumCelsius, platinumRatio } from '@ohmward/divider'
import {
  actualGain,
  amplifierTimeConstant,
  indicatedRise,
  inputOffset,
  linearRatio,
  senseVoltage,
} from '@ohmward/divider/formulas'
import type { PublishedCheck } from '../check.js'

const platinum = (
  [
    [-200, 18.52],
    [-100, 60.26],
    [-195, 20.68],
    [-150, 39.72],
    [-50, 80.31],
    [-33, 87.04],
    [-10, 96.09],
    [0, 100],
    [10, 103.9],
    [50, 119.4],
    [100, 138.51],
    [150, 157.33],
    [200, 175.86],
    [250, 194.1],
    [300, 212.05],
    [400, 247.09],
    [500, 280.98],
    [600, 313.71],
    [850, 390.48],
  ] as const
).map(
  ([t, printed]): PublishedCheck => ({
    id: `PT-R-${t}`,
    package: 'divider',
    source: 'IEC 60751, table of Pt100 resistances',
    quantity: `resistance of Pt100 at ${t} °C`,
    unit: 'ohm',
    printed,
    tolerance: 0.005,
    compute: () => 100 * platinumRatio(t),
  }),
)

const inverse = (
  [
    [100, 138.51],
    [200, 175.86],
    [-100, 60.26],
  ] as const
).map(
  ([t, ohm]): PublishedCheck => ({
    id: `PT-T-${t}`,
    package: 'divider',
    source: 'IEC 60751, table of Pt100 resistances, read backwards',
    quantity: `temperature of Pt100 at ${ohm} ohm`,
    unit: 'degC',
    printed: t,
    tolerance: 0.0135,
    compute: () => platinumCelsius(ohm / 100),
    remark: 'Half a unit of the last printed digit of the resistance is up to 0.0134 K.',
  }),
)

const offsets = (
  [
    [10, 20, 20],
    [20, 15, 15],
    [50, 10, 10],
    [200, 8, 8],
  ] as const
).map(
  ([gain, microvolts, printed]): PublishedCheck => ({
    id: `OFFSET-A-${gain}`,
    package: 'divider',
    source: 'Texas Instruments, INA241 answer E2E 1204436: current error of the offset across 1 mohm',
    quantity: `current error of ${microvolts} uV at gain ${gain}`,
    unit: 'mA',
    printed,
    tolerance: 0.5,
    compute: () =>
      (inputOffset({ V_os: microvolts * 1e-6, D_os: 0, T_d: 0, V_amp: 5, V_ps: 5, m_ps: 0, V_age: 0 }) / 1e-3) * 1e3,
  }),
)

const gains = (
  [
    [1000, 1e6, 0.1, 0.005],
    [1000, 3e5, 0.33, 0.005],
    [100, 1e6, 0.01, 0.0005],
  ] as const
).map(
  ([G, A, printed, tolerance]): PublishedCheck => ({
    id: `LOOP-${G}-${A}`,
    package: 'divider',
    source: 'Op Amp Applications Handbook (ed. W. Jung, 2005), finite open-loop gain',
    fromMemory: true,
    quantity: `gain lost: noise gain ${G}, open-loop gain ${A}`,
    unit: '%',
    printed,
    tolerance,
    compute: () => (1 - actualGain({ G, a_ol: 1 / A }) / G) * 100,
  }),
)

/** The low-ohm measurement against printed values: platinum, copper, the amplifier. */
export const checks: PublishedCheck[] = [
  ...platinum,
  ...inverse,
  ...offsets,
  ...gains,
  {
    id: 'CU-90',
    package: 'divider',
    source: 'IEC 60028 (annealed copper, 0.00393 /K at 20 °C), in the Industrial Power Engineering Handbook, p. 970',
    quantity: 'resistance of copper at 90 °C over that at 20 °C',
    unit: '1',
    printed: 1.28,
    tolerance: 0.005,
    compute: () => linearRatio({ alpha: 0.00393, T_rise: 70 }),
    remark: 'The page says about 28 % higher.',
  },
  {
    id: 'TUNGSTEN-2000',
    package: 'divider',
    source: 'worked answer of a physics exercise: tungsten, 0.0046 /K, 3 ohm at 20 °C',
    quantity: 'resistance of the filament at 2000 °C',
    unit: 'ohm',
    printed: 30.32,
    tolerance: 0.005,
    compute: () => 3 * linearRatio({ alpha: 0.0046, T_rise: 1980 }),
  },
  {
    id: 'TUNGSTEN-rise',
    package: 'divider',
    source: 'worked answer of a physics exercise: tungsten, 0.0045 /K, 21.4 ohm at 20 °C, 147 ohm hot',
    quantity: 'temperature of the hot filament',
    unit: 'degC',
    printed: 1324.3,
    tolerance: 0.1,
    compute: () => 20 + indicatedRise({ W_ind: 147 / 21.4, W_0: 1, alpha_n: 0.0045 }),
    remark: 'Printed from a rounded line: the last digit is one off.',
  },
  ...(
    [
      [0.01, 0.1, 1e-3, 'note on accurate milliohm measurement'],
      [0.002, 1, 2e-3, 'note on measuring below a milliohm'],
      [0.0001, 1, 100e-6, 'note on measuring below a milliohm'],
      [0.002, 0.01, 20e-6, 'note on measuring below a milliohm'],
    ] as const
  ).map(
    ([R_span, I_t, printed, source]): PublishedCheck => ({
      id: `SENSE-${R_span * 1e3}m-${I_t}`,
      package: 'divider',
      source,
      quantity: `voltage of ${R_span * 1e3} milliohm at ${I_t} A`,
      unit: 'V',
      printed,
      tolerance: printed / 1e9,
      compute: () => senseVoltage({ I_t, I_off: 0, R_span, V_stray: 0 }),
    }),
  ),
  {
    id: 'GBW-10',
    package: 'divider',
    source: 'worked answer of an examination: 1 MHz gain-bandwidth product, 20 dB',
    quantity: 'bandwidth of the closed loop',
    unit: 'kHz',
    printed: 100,
    tolerance: 0.5,
    compute: () => 1e-3 / (2 * Math.PI * amplifierTimeConstant({ G_noise: 10, GBW: 1e6 })),
  },
]
