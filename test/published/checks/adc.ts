import { execute } from '@ohmward/adc'
import {
  BOLTZMANN,
  countVoltage,
  idealCode,
  quantisationNoise,
  quantisationSnr,
  settledBits,
  settlingError,
  settlingTime,
  thermalNoise,
} from '@ohmward/adc/formulas'
import { type PublishedCheck, workedOut } from '../check.js'

const steps = (
  [
    [8, 39.1, 0.05],
    [9, 19.5, 0.05],
    [10, 9.77, 0.005],
    [11, 4.88, 0.005],
    [12, 2.44, 0.005],
    [16, 0.152, 0.001],
  ] as const
).map(
  ([bits, printed, tolerance]): PublishedCheck => ({
    id: `ADC-LSB-${bits}`,
    package: 'adc',
    source: 'Texas Instruments SBAA051A, table 1: 0 to 10 V',
    quantity: `voltage of one count, ${bits} bits`,
    unit: 'mV',
    printed,
    tolerance,
    compute: () => countVoltage({ V_ref: 10, N_bits: bits }) * 1e3,
    ...(bits === 16 && { remark: 'The table cuts 0.15259 off at 0.152; rounded it would be 0.153.' }),
  }),
)

const settling = (
  [
    [6, 4.16, 1.563, 0.0005],
    [8, 5.55, 0.391, 0.0005],
    [10, 6.93, 0.0977, 0.00005],
    [12, 8.32, 0.0244, 0.00005],
    [14, 9.7, 0.0061, 0.00005],
    [16, 11.09, 0.00153, 0.000005],
    [18, 12.48, 0.00038, 0.000005],
    [20, 13.86, 0.000095, 0.0000005],
    [22, 15.25, 0.000024, 0.0000005],
  ] as const
).flatMap(([bits, taus, percent, half]): PublishedCheck[] => [
  {
    id: `ADC-settle-${bits}`,
    package: 'adc',
    source: 'Analog Devices AN-1024, table 1',
    quantity: `time constants to settle to one count of ${bits} bits`,
    unit: '1',
    printed: taus,
    tolerance: 0.005,
    compute: () => settlingTime({ N_bits: bits - 1, tau: 1 }),
    remark: 'One count of N bits is half a count of N − 1 bits, which is what the formula takes.',
  },
  {
    id: `ADC-settle-error-${bits}`,
    package: 'adc',
    source: 'Analog Devices AN-1024, table 1',
    quantity: `one count of ${bits} bits, as the part that is unsettled after that time`,
    unit: '%',
    printed: percent,
    tolerance: half,
    compute: () => settlingError({ t_given: settlingTime({ N_bits: bits - 1, tau: 1 }), tau: 1 }) * 100,
  },
])

const inverse = (
  [
    [1, 1.44],
    [5, 7.21],
    [10, 14.43],
    [18, 25.97],
  ] as const
).map(
  ([taus, printed]): PublishedCheck => ({
    id: `ADC-bits-after-${taus}`,
    package: 'adc',
    source: 'Analog Devices AN-1024, table 1, inverted',
    quantity: `bits settled after ${taus} time constants`,
    unit: 'bit',
    printed,
    tolerance: 0.005,
    compute: () => settledBits({ t_given: taus, tau: 1 }),
    ...workedOut,
  }),
)

const snr = (
  [
    [8, 49.93],
    [10, 61.97],
    [12, 74.01],
    [14, 86.05],
    [16, 98.09],
    [24, 146.26],
  ] as const
).map(
  ([bits, printed]): PublishedCheck => ({
    id: `ADC-SNR-${bits}`,
    package: 'adc',
    source: 'textbook SNR = 6.02 N + 1.76 dB, in its full form 20 log(2^N sqrt 1.5)',
    quantity: `signal-to-noise ratio of ${bits} ideal bits`,
    unit: 'dB',
    printed,
    tolerance: 0.005,
    compute: () => quantisationSnr({ N_bits: bits }),
    ...workedOut,
  }),
)

/** Read as such, in fewer digits than those above. */
const snrRead = (
  [
    [8, 49.9],
    [12, 74.0],
    [16, 98.1],
  ] as const
).map(
  ([bits, printed]): PublishedCheck => ({
    id: `ADC-SNR-read-${bits}`,
    package: 'adc',
    source: 'list of formulas of the trade: theoretical SNR by resolution',
    quantity: `signal-to-noise ratio of ${bits} ideal bits, to a tenth`,
    unit: 'dB',
    printed,
    tolerance: 0.05,
    compute: () => quantisationSnr({ N_bits: bits }),
  }),
)

const fiveVolts = (
  [
    [8, 19.5, 0.05, 'note on measuring below a milliohm: 8 bits over 5 V'],
    [10, 4.883, 0.0005, 'answer in a public forum: 10 bits over 5 V'],
  ] as const
).map(
  ([bits, printed, tolerance, source]): PublishedCheck => ({
    id: `ADC-LSB-5V-${bits}`,
    package: 'adc',
    source,
    quantity: `voltage of one count of ${bits} bits`,
    unit: 'mV',
    printed,
    tolerance,
    compute: () => countVoltage({ V_ref: 5, N_bits: bits }) * 1e3,
  }),
)

const noise = (id: string, R_n: number, T_abs: number, BW_n: number, printed: number, tolerance: number) =>
  ({
    id: `ADC-thermal-${id}`,
    package: 'adc',
    source: 'Johnson noise in two teaching pages, recomputed with the exact Boltzmann constant of the 2019 SI',
    quantity: `thermal noise of ${R_n} ohm at ${T_abs} K over ${BW_n} Hz`,
    unit: 'V',
    printed,
    tolerance,
    compute: () => thermalNoise({ k_B: BOLTZMANN, T_abs, R_n, BW_n }),
  }) satisfies PublishedCheck

const shunt = (id: string, quantity: string, V_pin: number, perCount: number, printed: number): PublishedCheck => ({
  id: `ADC-shunt-${id}`,
  package: 'adc',
  source: 'Texas Instruments SBOS547 (2011), table 1: 10 A, 2 milliohm, 12 V',
  quantity,
  unit: '1',
  printed,
  tolerance: 0.5,
  compute: () => idealCode({ V_pin, V_ref: perCount * 2 ** 15, N_bits: 15 }),
})

/** Codes, settling and noise as documents print them. */
export const checks: PublishedCheck[] = [
  ...steps,
  {
    id: 'ADC-LSB-bipolar-16',
    package: 'adc',
    source: 'Measurement Computing, technical note on resolution: ±5 V, 16 bits',
    quantity: 'voltage of one count',
    unit: 'µV',
    printed: 153,
    tolerance: 0.5,
    compute: () => countVoltage({ V_ref: 10, N_bits: 16 }) * 1e6,
    remark: 'The page misprints 65 536 counts as 65 356; its result is right.',
  },
  ...settling,
  ...inverse,
  ...snr,
  ...snrRead,
  ...fiveVolts,
  {
    id: 'ADC-quantisation-noise',
    package: 'adc',
    source: 'JCGM 100:2008, F.2.2.1: u = 0.29 δx',
    quantity: 'standard uncertainty of a rounding to one count',
    unit: '1',
    printed: 0.29,
    tolerance: 0.005,
    compute: () => quantisationNoise({ V_LSB: 1 }),
    fromMemory: true,
  },
  { ...noise('100k', 100e3, 300, 1e6, 40.7e-6, 0.005e-6), ...workedOut },
  {
    ...noise('100k-old', 100e3, 300, 1e6, 40.69e-6, 0.005e-6),
    source: 'Johnson noise in a teaching page, with k = 1.38e-23 J/K as printed there',
    compute: () => thermalNoise({ k_B: 1.38e-23, T_abs: 300, R_n: 100e3, BW_n: 1e6 }),
  },
  { ...noise('1k', 1e3, 298.15, 1, 4.058e-9, 0.0005e-9), ...workedOut },
  { ...noise('1k-290', 1e3, 290, 1, 4.002e-9, 0.0005e-9), ...workedOut },
  { ...noise('1k-10k', 1e3, 298.15, 10e3, 405.8e-9, 0.05e-9), ...workedOut },
  { ...noise('50', 50, 298.15, 1, 0.907e-9, 0.0005e-9), ...workedOut },
  {
    id: 'ADC-shunt-least',
    package: 'adc',
    source: 'Texas Instruments SBOS547 (2011), section on the calibration register: 15 A over 2^15',
    quantity: 'smallest current for one count',
    unit: 'µA',
    printed: 457.8,
    tolerance: 0.05,
    compute: () => countVoltage({ V_ref: 15, N_bits: 15 }) * 1e6,
    remark: 'The same quotient, amperes in the place of volts.',
  },
  shunt('voltage', 'code of 20 mV at 2.5 µV a count', 20e-3, 2.5e-6, 8000),
  shunt('bus', 'code of 11.98 V at 1.25 mV a count', 11.98, 1.25e-3, 9584),
  {
    id: 'ADC-shunt-current',
    package: 'adc',
    source: 'Texas Instruments SBOS547 (2011), table 1: 8000 · 2560 / 2048',
    quantity: 'current register, 1 mA a count',
    unit: '1',
    printed: 10000,
    tolerance: 0,
    compute: () =>
      execute({ kind: 'linear', word: 32, codes: 32767, multiplier: 2560, add: 0, shift: 11, base: 0 }, 8000),
  },
  {
    id: 'ADC-shunt-power',
    package: 'adc',
    source: 'Texas Instruments SBOS547 (2011), table 1: 10000 · 9584 / 20000',
    quantity: 'power register, 25 mW a count',
    unit: '1',
    printed: 4792,
    tolerance: 0,
    compute: () =>
      execute(
        {
          kind: 'rational',
          word: 32,
          codes: 32767,
          numerator: [10000, 0],
          denominator: [0, 20000],
          base: 0,
          from: 0,
          to: 32767,
          beyond: 0,
        },
        9584,
      ),
    remark: 'The sheet prints 119.82 W beside it; 4792 times 25 mW is 119.80 W.',
  },
]
