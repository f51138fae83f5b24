import { propagate } from '@ohmward/budget'
import { type HallChoice, hallModel, readingOf } from '@ohmward/hall'
import {
  countCurrent,
  fieldCurrent,
  highestOutput,
  MU_0,
  ratiometricZero,
  strayField,
  wantedOn,
  zeroCode,
} from '@ohmward/hall/formulas'
import { type PublishedCheck, workedOut } from '../check.js'

/** A sensor, filter and converter without any error: what is given differs. */
const reading = (more: Parameters<typeof readingOf>[0]) => {
  const none = Object.fromEntries(
    'T_d V_oe D_oe m_q e_S TC_S m_S V_L V_h V_B V_nb V_n V_ol V_oh R_o R_t w_x V_lk e_gain e_offset e_INL e_q e_n h_code'
      .split(' ')
      .map((symbol) => [symbol, 0]),
  )
  const rest = {
    D_x: 1,
    R_b: 1,
    R_filt: 1,
    C_f: 1e-12,
    t_set: 1,
    tau_s: 1e-15,
    N_bits: 16,
    k_dn: 1,
    V_above: 1,
    V_below: 1,
    TC_ref: 0,
  }
  const x: Parameters<typeof readingOf>[0] = { ...none, ...rest, ...more }
  const topology = { output: 'fixed', supply: 'own', reference: 'own', reading: 'on-window', divided: false } as const
  return readingOf({ ...x, V_qn: x.V_q0!, S_n: x.S_0!, V_refn: x.V_ref0! }, topology)
}

const offsets = (
  [
    [50, 3, 60],
    [100, 5, 50],
    [200, 8, 40],
    [400, 19, 47.5],
  ] as const
).map(
  ([S, V, printed]): PublishedCheck => ({
    id: `HALL-offset-${S}`,
    package: 'hall',
    source: 'Texas Instruments TMCS1100-Q1, 2021, electrical characteristics',
    quantity: `offset of ${V} mV as a current, ${S} mV/A`,
    unit: 'mA',
    printed,
    tolerance: printed === 47.5 ? 0.05 : 0.5,
    compute: () =>
      reading({ I_x: 1, V_s: 5, V_s0: 5, V_ref0: 5, V_q0: 1, S_0: S / 1e3, V_oe: V / 1e3 }).I_ind * 1e3 - 1e3,
  }),
)

/** Current at which a sensor in the middle of its supply reaches the end of its swing. */
const headroom = (S_0: number) =>
  reading({ I_x: 1e3, V_s: 4.9, V_s0: 4.9, V_ref0: 5, V_q0: 2.45, V_oh: 0.2, S_0 }).I_ind

const swing = 'Texas Instruments SBOS825E, tables 9-4 and 9-5'
const ranges: PublishedCheck[] = [
  {
    id: 'HALL-top',
    package: 'hall',
    source: swing,
    quantity: 'highest output at 4.9 V, swing to 0.2 V',
    unit: 'V',
    printed: 4.7,
    tolerance: 0.05,
    compute: () => highestOutput({ V_s: 4.9, V_oh: 0.2 }),
  },
  ...(
    [
      [50, 45, 0.5],
      [100, 22.5, 0.05],
    ] as const
  ).map(
    ([S, printed, tolerance]): PublishedCheck => ({
      id: `HALL-range-${S}`,
      package: 'hall',
      source: swing,
      quantity: `largest current at ${S} mV/A and 4.9 V`,
      unit: 'A',
      printed,
      tolerance,
      compute: () => headroom(S / 1e3),
    }),
  ),
]

const ratiometric: PublishedCheck[] = [
  {
    id: 'HALL-ratiometric-output',
    package: 'hall',
    source: 'Texas Instruments SBAS640B (2021), sensitivity of the A2 version at 3.3 V',
    quantity: 'output at 10 mT and 30 mV/mT',
    unit: 'V',
    printed: 1.95,
    tolerance: 0.005,
    compute: () => {
      const zero = ratiometricZero({ V_q0: 1.65, V_oe: 0, D_oe: 0, T_d: 0, m_q: 0, x_s: 0, r_s: 1 })
      return wantedOn({ V_q: zero, S: 0.03, I_on: 10, V_es: 0 })
    },
    remark: 'A field sensor: millitesla stand where a current sensor has amperes.',
  },
  {
    id: 'HALL-ratiometric-zero',
    package: 'hall',
    source: 'Texas Instruments SBAS640B (2021): half of the supply without field',
    quantity: 'shift of the zero by 50 mV of supply',
    unit: 'mV',
    printed: 25,
    tolerance: 0.5,
    compute: () => {
      const at = (V_s: number) =>
        ratiometricZero({ V_q0: 1.65, V_oe: 0, D_oe: 0, T_d: 0, m_q: 0, x_s: 0, r_s: V_s / 3.3 })
      return (at(3.3) - at(3.25)) * 1e3
    },
  },
]

/** 50 A one-way sensor, 0.6 V at zero, 60 mV/A, 5 V over 12 bits. */
const forum = 'worked answer in a public forum: 50 A one-way sensor, 0.6 V zero, 60 mV/A, 5 V, 12 bits'
const fifty = { V_s: 5, V_s0: 5, V_ref0: 5, V_q0: 0.6, S_0: 0.06, N_bits: 12 }
const counts: PublishedCheck[] = [
  ...(
    [
      [0, 492],
      [1, 541],
      [3.75, 676],
    ] as const
  ).map(
    ([I_x, printed]): PublishedCheck => ({
      id: `HALL-counts-${I_x}`,
      package: 'hall',
      source: forum,
      quantity: `code at ${I_x} A`,
      unit: 'LSB',
      printed,
      tolerance: 0.5,
      compute: () =>
        I_x === 0 ? zeroCode({ V_qn: 0.6, k_dn: 1, V_refn: 5, N_bits: 12 }) : reading({ ...fifty, I_x }).code_ideal,
      remark: 'Low authority, exact arithmetic.',
    }),
  ),
  {
    id: 'HALL-count',
    package: 'hall',
    source: forum,
    quantity: 'current for one count',
    unit: 'mA',
    printed: 20.345,
    tolerance: 0.0005,
    compute: () => countCurrent({ V_refn: 5, N_bits: 12, k_dn: 1, S_n: 0.06 }) * 1e3,
    ...workedOut,
  },
]

const wires: PublishedCheck[] = (
  [
    [4, 1.6e-5, 5e-7, 'textbook item: 4 A at 5 cm'],
    [25, 1.0e-4, 5e-6, 'OpenStax College Physics, example 22.6: twice the field of the earth'],
  ] as const
).map(([I_nb, printed, tolerance, source], i) => ({
  id: `HALL-wire-${I_nb}`,
  package: 'hall',
  source,
  ...(i === 1 && { fromMemory: true as const }),
  quantity: `field of ${I_nb} A at 5 cm`,
  unit: 'T',
  printed,
  tolerance,
  compute: () => strayField({ mu_0: MU_0, I_nb, d_nb: 0.05 }),
}))

/** The same field, at other currents and distances. */
const furtherWires: PublishedCheck[] = (
  [
    [5, 0.02, 5.0e-5],
    [68.75, 0.25, 0.55e-4],
  ] as const
).map(([I_nb, d_nb, printed]) => ({
  id: `HALL-wire-${I_nb}-${d_nb}`,
  package: 'hall',
  source: 'worked answer of a physics exercise: field of a long straight wire',
  quantity: `field of ${I_nb} A at ${d_nb} m`,
  unit: 'T',
  printed,
  tolerance: printed / 1e4,
  compute: () => strayField({ mu_0: MU_0, I_nb, d_nb }),
}))

/** The sensor of the worked error calculation: 50 mV/A, reference 1.5 V, rated at 5 V and run from 3.3 V. */
const worked: HallChoice = {
  sensor: {
    output: 'fixed',
    sensitivity: '50 mV/A',
    zeroOutput: '1.5 V',
    ratedSupply: '5 V',
    supplyMinimum: '3 V',
    supplyMaximum: '5.5 V',
    supplyCurrent: '6 mA',
    ratedCurrent: '28 A',
    sensitivityError: '0.7 %',
    sensitivityDrift: 0,
    zeroError: '3 mV',
    zeroDrift: 0,
    // 2 mV/V over the 2 V from the rated supply to the lowest, as a share of 1.5 V.
    zeroSupplyError: 0.004 / 1.5,
    sensitivitySupplyError: 0,
    nonlinearity: 0.0005 * (25 / 28),
    // The error of the common mode (2.5 mA) stands in the place of hysteresis.
    hysteresis: 0.0001,
    noiseDensity: 0,
    bandwidth: '80 kHz',
    lowOutput: '20 mV',
    highOutputDrop: '200 mV',
    conductorResistance: '1.8 mohm',
    fieldCoupling: '1.1 mT/A',
    correlated: [['zeroError', 'zeroSupplyError', 'hysteresis']],
  },
  sensorSupply: '3.3 V',
  converter: {
    bits: 24,
    reference: { kind: 'absolute', voltage: '5 V' },
    offset: 0,
    gain: 0,
    nonlinearity: 0,
    noise: 0,
    switchResistance: 0,
    samplingCapacitance: '1 pF',
    acquisitionTime: '1 us',
    conversionTime: '1 us',
  },
  current: { from: '-28 A', to: '28 A' },
  peakCurrent: '25 A',
  errors: [{ at: '25 A', allowed: '1 %' }],
  // 30 µT around; the error of the reference (10 mA) stands in the place of a neighbour: 5.5 A at 0.1 m make 11 µT.
  surroundings: { steadyField: '30 uT', neighbourCurrent: 5.5, neighbourDistance: 0.1 },
}

const sheet = 'Texas Instruments SBOS820A (2020), room-temperature error calculations, table 1'
const contribution = (current: number, symbol: string) => {
  const conditions = { rail: { from: 5, to: 5 }, ambientCelsius: { from: 25, to: 25 } }
  // The nonlinearity of the table is a share of the reading.
  const choice = { ...worked, sensor: { ...worked.sensor, nonlinearity: (0.0005 * current) / 28 } }
  const { inputs, model, row, groups } = hallModel(choice, conditions, current)
  const { u, contributions } = propagate(inputs, model, { row, groups })
  const own = contributions.find(({ input }) => input === symbol)?.contribution ?? 0
  // Every limit is rectangular: a limit is √3 standard uncertainties, one by one and in the root sum of squares.
  return ((symbol === '' ? u : Math.abs(own)) * Math.sqrt(3) * 100) / current
}
const errors = (
  [
    ['offset', 'V_oe', 0.24, 0.48],
    ['supply', 'm_q', 0.27, 0.54],
    ['field', 'V_B', 0.11, 0.22],
    ['sensitivity', 'e_S', 0.7, 0.7],
    ['nonlinearity', 'V_L', 0.05, 0.05],
    ['all together', '', 0.88, 1.28],
  ] as const
).flatMap(([name, symbol, at25, at12]) =>
  (
    [
      [25, at25],
      [12.5, at12],
    ] as const
  ).map(
    ([current, printed]): PublishedCheck => ({
      id: `HALL-error-${name.replace(' ', '-')}-${current}`,
      package: 'hall',
      source: sheet,
      quantity: `error at ${current} A, ${name}`,
      unit: '%',
      printed,
      tolerance: 0.005,
      compute: () => contribution(current, symbol),
      ...(symbol === '' && {
        remark:
          'Offset, supply and common mode add linearly before the root sum of squares, as the sheet states: without that group it would be 0.80 % and 1.03 %.',
      }),
    }),
  ),
)

export const checks: PublishedCheck[] = [
  ...offsets,
  {
    id: 'HALL-drift',
    package: 'hall',
    source: 'Texas Instruments TMCS1100-Q1, 2021, electrical characteristics',
    quantity: 'drift of the offset, 12 µV/K at 50 mV/A',
    unit: 'µA/K',
    printed: 240,
    tolerance: 5,
    compute: () =>
      (reading({ I_x: 0, V_s: 5, V_s0: 5, V_ref0: 5, V_q0: 1, S_0: 0.05, D_oe: 12e-6, T_d: 100 }).I_ind / 100) * 1e6,
  },
  ...ranges,
  ...ratiometric,
  ...counts,
  ...wires,
  ...furtherWires,
  {
    id: 'HALL-field-share',
    package: 'hall',
    source: sheet,
    quantity: 'current that 30 µT pretend, over 25 A',
    unit: '%',
    printed: 0.11,
    tolerance: 0.005,
    compute: () => (fieldCurrent({ B_f: 30e-6, C_B: 1.1e-3, CMFR_dB: 0 }) / 25) * 100,
  },
  ...errors,
]
