import {
  ageing,
  chargeForRamp,
  chargeForStep,
  effectiveCapacitance,
  inrush,
  overshoot,
  releaseCapacitance,
  rippleCurrentLimit,
  targetImpedance,
} from '@ohmward/decoupling/formulas'
import { circuit, plugIn } from '@ohmward/decoupling/waveform'
import { type PublishedCheck, workedOut } from '../check.js'

const textbook = 'second-order step response, textbook table (Ogata, Modern Control Engineering)'
const own = 'decoupling'

/** Overshoot of the rail's own waveform when a lone capacitor with this damping ratio is plugged in. */
function overshootOfWaveform(zeta: number): number {
  const [L, C] = [1e-6, 1e-5]
  const resistance = 2 * zeta * Math.sqrt(L / C)
  const c = circuit({ voltage: 1, resistance, inductance: L }, [{ capacitance: C, resistance: 0, inductance: 0 }], 0)
  return 100 * (plugIn(c).peak - 1)
}

const overshoots: readonly (readonly [zeta: number, printed: number])[] = [
  [0.1, 72.92],
  [0.2, 52.66],
  [0.3, 37.23],
  [0.4, 25.38],
  [0.5, 16.3],
  [0.6, 9.48],
  [0.7, 4.6],
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: the table prints 0.707
  [0.707, 4.33],
  [0.8, 1.52],
  [0.9, 0.15],
]

/** The same, read on the scale of a printed nomogram of second-order systems, at 30, 45 and 60 degrees. */
const nomogram: readonly (readonly [degrees: number, zeta: number, printed: number, tolerance: number])[] = [
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: the scale prints 0.434
  [30, 0.866, 0.434, 0.0005],
  [45, Math.SQRT1_2, 4.32, 0.005],
  [60, 0.5, 16.3, 0.005],
]

/** Effective capacitance of ceramics in printed designs: count, value in µF, share left, printed total in µF. */
const deratings: readonly (readonly [n: number, microfarads: number, k: number, printed: number, digits: number])[] = [
  [12, 47, 0.73, 412, 0.5],
  [7, 22, 0.58, 89, 0.5],
  [4, 47, 0.6, 112.8, 0.05],
  [6, 47, 0.48, 135, 0.5],
]

/** Printed values of bulk capacitance, ripple, derating and ringing. */
export const checks: PublishedCheck[] = [
  {
    id: 'WE-WPMDB-ramp',
    package: own,
    source: 'Wurth WPMDB1400362Q data sheet, p. 25',
    quantity: 'output capacitance for a step of 2.5 A, 6 µs, 0.1 V',
    unit: 'uF',
    printed: 75,
    tolerance: 0.5,
    compute: () => chargeForRamp({ I_step: 2.5, t_on: 6e-6, V_drop: 0.1 }) * 1e6,
    remark: 'the current of an inductor rises in a straight line, so half of the charge of a step',
  },
  {
    id: 'TPS40200-release-3V3',
    package: own,
    source: 'TI TPS40200-EP, SGLS371A, p. 22',
    quantity: 'capacitance for load release, 33 µH, 2.25 A, 3.3 V, 0.1 V',
    unit: 'uF',
    printed: 249,
    tolerance: 0.5,
    compute: () => releaseCapacitance({ L: 33e-6, I_step: 2.25, V_s: 3.3, V_over: 0.1 }) * 1e6,
  },
  {
    id: 'TPS40200-release-5V',
    package: own,
    source: 'TI TPS40200-EP, SGLS371A, p. 22',
    quantity: 'capacitance for load release, 33 µH, 2.25 A, 5 V, 0.1 V',
    unit: 'uF',
    printed: 165,
    tolerance: 0.5,
    compute: () => releaseCapacitance({ L: 33e-6, I_step: 2.25, V_s: 5, V_over: 0.1 }) * 1e6,
  },
  {
    id: 'TPS40200-step',
    package: own,
    source: 'TI TPS40200-EP, SGLS371A, p. 22',
    quantity: 'capacitance for a load step of 2.25 A over 0.8 periods of 300 kHz, 60 mV',
    unit: 'uF',
    printed: 100,
    tolerance: 0.5,
    compute: () => chargeForStep({ I_step: 2.25, t_on: 0.8 / 300e3, V_drop: 0.06 }) * 1e6,
  },
  {
    id: 'EDLC-motor',
    package: own,
    source:
      'page of a maker, "The funcition of super capacitor" (28 May 2016), example: a motor of 0.5 A for 2 s, 5 V to 3 V',
    quantity: 'capacitance for 0.5 A over 2 s and 2 V',
    unit: 'F',
    printed: 0.5,
    tolerance: 0.05,
    compute: () => chargeForStep({ I_step: 0.5, t_on: 2, V_drop: 2 }),
    remark: 'the page counts energy, (5 V + 3 V) I t / (25 V² - 9 V²), which is the same at a constant current',
  },
  {
    id: 'Intel-683073-target',
    package: own,
    source: 'Intel 683073 (2022), 1.1.2',
    quantity: 'target impedance, 1.1 V, 5 %, 1.5 A',
    unit: 'mohm',
    printed: 36.7,
    tolerance: 0.05,
    compute: () => targetImpedance({ V_drop: 1.1 * 0.05, I_step: 1.5 }) * 1e3,
  },
  {
    id: 'SNVA406-ripple-half',
    package: own,
    source: 'TI SNVA406C (LM27402), input capacitor',
    quantity: 'ripple current of 20 A at a duty of 0.5',
    unit: 'A',
    printed: 10,
    tolerance: 0.05,
    compute: () => rippleCurrentLimit({ I_step: 20, D: 0.5 }),
  },
  {
    id: 'SNVA406-ripple-quarter',
    package: own,
    source: 'TI SNVA406C (LM27402), input capacitor',
    quantity: 'ripple current as a share of the output current at a duty of 0.25',
    unit: '1',
    printed: 0.433,
    tolerance: 0.0005,
    compute: () => rippleCurrentLimit({ I_step: 1, D: 0.25 }),
    ...workedOut,
  },
  ...deratings.map(
    ([n, microfarads, k, printed, tolerance]): PublishedCheck => ({
      id: `TPS54KB20-derating-${n}x${microfarads}`,
      package: own,
      source: 'worked designs in TI data sheets (TPS54KB20 and kin), output capacitors',
      quantity: `effective capacitance of ${n} x ${microfarads} µF at ${Math.round(k * 100)} %`,
      unit: 'uF',
      printed,
      tolerance,
      compute: () => effectiveCapacitance({ n_C: n, C_r: microfarads, k_bias: k, k_temp: 1, k_life: 1 }),
    }),
  ),
  {
    id: 'X7R-ageing-1000h',
    package: own,
    source: 'EDN Asia, "Can you trust class 2 capacitors", ageing of X7R',
    quantity: 'loss after 1000 h at 3 % per decade',
    unit: '%',
    printed: 9,
    tolerance: 0.5,
    compute: () => 100 * (1 - ageing({ a_dec: 0.03, t_age: 1000, t_ref: 1 })),
    remark: 'linear in decades; compounded it would be 8.7 %',
  },
  ...overshoots.map(
    ([zeta, printed]): PublishedCheck => ({
      id: `overshoot-${zeta}`,
      package: own,
      source: textbook,
      fromMemory: true,
      quantity: `overshoot at a damping ratio of ${zeta}`,
      unit: '%',
      printed,
      tolerance: printed === 16.3 || printed === 4.6 ? 0.05 : 0.005,
      compute: () => 100 * overshoot({ zeta }),
    }),
  ),
  ...overshoots.slice(0, 6).map(
    ([zeta, printed]): PublishedCheck => ({
      id: `overshoot-waveform-${zeta}`,
      package: own,
      source: textbook,
      fromMemory: true,
      quantity: `overshoot of the exact waveform at a damping ratio of ${zeta}`,
      unit: '%',
      printed,
      tolerance: printed === 16.3 ? 0.05 : 0.005,
      compute: () => overshootOfWaveform(zeta),
    }),
  ),
  ...nomogram.flatMap(([degrees, zeta, printed, tolerance]): PublishedCheck[] => [
    {
      id: `overshoot-nomogram-${degrees}`,
      package: own,
      source: 'nomogram of second-order systems, scale of the overshoot',
      quantity: `overshoot where the pole stands ${degrees} degrees from the axis`,
      unit: '%',
      printed,
      tolerance,
      compute: () => 100 * overshoot({ zeta }),
    },
    {
      id: `overshoot-nomogram-waveform-${degrees}`,
      package: own,
      source: 'nomogram of second-order systems, scale of the overshoot',
      quantity: `overshoot of the exact waveform where the pole stands ${degrees} degrees from the axis`,
      unit: '%',
      printed,
      tolerance,
      compute: () => overshootOfWaveform(zeta),
    },
  ]),
  {
    id: 'LTC3226-charge-current',
    package: own,
    source: 'LTC3226 data sheet, p. 13',
    quantity: 'charging current through 6 ohm from 5 V at 4.8 V',
    unit: 'mA',
    printed: 33.3,
    tolerance: 0.05,
    compute: () => inrush({ V_s: 2 * 2.5 - 4.8, R_s: 2 * 2.5 + 1, ESR_e: 0 }) * 1e3,
    remark: 'open-loop resistance 2 x 2.5 ohm and 1/(1 MHz x 1 µF)',
  },
]
