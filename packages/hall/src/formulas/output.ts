import { twoTo } from '@ohmward/adc/formulas'
import { formula } from '@ohmward/budget/formula'

/** Current while the load is switched on, where the reading is of just that. */
export const windowCurrent = /*#__PURE__*/ formula({
  symbol: 'I_on',
  quantity: 'current in the on-window',
  unit: 'A',
  inputs: { I_x: ['A', -200, 200] },
  expression: 'I_x',
  compute: ({ I_x }) => I_x,
  source: 'the reading is of the on-current itself',
})

/** Current while the load is switched on, of a mean current at a duty. */
export const onCurrent = /*#__PURE__*/ formula({
  symbol: 'I_on',
  quantity: 'current in the on-window',
  unit: 'A',
  inputs: { I_x: ['A', -200, 200], D_x: ['1', 0.01, 1] },
  expression: 'I_x / D_x',
  compute: ({ I_x, D_x }) => I_x / D_x,
  source: 'mean of a rectangular wave',
})

/** What the sensor would put out in the on-window with room enough. */
export const wantedOn = /*#__PURE__*/ formula({
  symbol: 'V_want',
  quantity: 'output required in the on-window',
  unit: 'V',
  inputs: { V_q: ['V', 0.1, 5], S: ['V/A', 1e-3, 1], I_on: ['A', -200, 200], V_es: ['V', -0.5, 0.5] },
  expression: 'V_q + S * I_on + V_es',
  compute: ({ V_q, S, I_on, V_es }) => V_q + S * I_on + V_es,
  source: 'definition of zero and sensitivity',
})

/** What the sensor would put out with the load off. */
export const wantedOff = /*#__PURE__*/ formula({
  symbol: 'V_rest',
  quantity: 'output required with the load off',
  unit: 'V',
  inputs: { V_q: ['V', 0.1, 5], V_es: ['V', -0.5, 0.5] },
  expression: 'V_q + V_es',
  compute: ({ V_q, V_es }) => V_q + V_es,
  source: 'definition of zero',
})

/** Highest output that the data sheet guarantees. */
export const highestOutput = /*#__PURE__*/ formula({
  symbol: 'V_hi',
  quantity: 'highest output',
  unit: 'V',
  inputs: { V_s: ['V', 1, 30], V_oh: ['V', 0, 1] },
  expression: 'V_s - V_oh',
  compute: ({ V_s, V_oh }) => V_s - V_oh,
  source: 'data sheet: output swing from the supply',
})

/** Output in the on-window, held in what the sensor reaches. Pitfall E02. */
export const outputOn = /*#__PURE__*/ formula({
  symbol: 'V_on',
  quantity: 'output in the on-window',
  unit: 'V',
  inputs: { V_want: ['V', -10, 40], V_ol: ['V', 0, 1], V_hi: ['V', 0, 30] },
  expression: 'max(V_ol, min(V_want, V_hi))',
  compute: ({ V_want, V_ol, V_hi }) => Math.max(V_ol, Math.min(V_want, V_hi)),
  source: 'data sheet: output swing',
  smooth: false,
})

/** Output with the load off, held in what the sensor reaches. */
export const outputOff = /*#__PURE__*/ formula({
  symbol: 'V_off',
  quantity: 'output with the load off',
  unit: 'V',
  inputs: { V_rest: ['V', -10, 40], V_ol: ['V', 0, 1], V_hi: ['V', 0, 30] },
  expression: 'max(V_ol, min(V_rest, V_hi))',
  compute: ({ V_rest, V_ol, V_hi }) => Math.max(V_ol, Math.min(V_rest, V_hi)),
  source: 'data sheet: output swing',
  smooth: false,
})

/** Resistance that the filter's capacitor is charged through. */
export const sourceResistance = /*#__PURE__*/ formula({
  symbol: 'R_src',
  quantity: "source resistance at the filter's capacitor",
  unit: 'ohm',
  inputs: { R_o: ['ohm', 0, 1e3], R_t: ['ohm', 0, 1e6], R_b: ['ohm', 100, 1e6], R_filt: ['ohm', 0, 1e6] },
  expression: '(R_o + R_t) * R_b / (R_o + R_t + R_b) + R_filt',
  compute: ({ R_o, R_t, R_b, R_filt }) => ((R_o + R_t) * R_b) / (R_o + R_t + R_b) + R_filt,
  source: 'Thevenin',
})

/** The same where the output isn't divided. */
export const plainSourceResistance = /*#__PURE__*/ formula({
  symbol: 'R_src',
  quantity: "source resistance at the filter's capacitor",
  unit: 'ohm',
  inputs: { R_o: ['ohm', 0, 1e3], R_filt: ['ohm', 0, 1e6] },
  expression: 'R_o + R_filt',
  compute: ({ R_o, R_filt }) => R_o + R_filt,
  source: 'resistors in series',
})

/** Share of the sensor's output that the divider before the converter passes. */
export const dividerRatio = /*#__PURE__*/ formula({
  symbol: 'k_d',
  quantity: 'share of the output that the divider passes',
  unit: '1',
  inputs: { R_b: ['ohm', 100, 1e6], R_o: ['ohm', 0, 1e3], R_t: ['ohm', 0, 1e6] },
  expression: 'R_b / (R_o + R_t + R_b)',
  compute: ({ R_b, R_o, R_t }) => R_b / (R_o + R_t + R_b),
  source: 'Kirchhoff, voltage law',
})

/** What the pin's leakage drops in the source. */
export const leakageDrop = /*#__PURE__*/ formula({
  symbol: 'V_lk',
  quantity: "drop of the pin's leakage across the source resistance",
  unit: 'V',
  inputs: { I_leak: ['A', -1e-5, 1e-5], R_src: ['ohm', 0, 1e5] },
  expression: 'I_leak * R_src',
  compute: ({ I_leak, R_src }) => I_leak * R_src,
  source: 'Ohm',
})

/** What the sampling capacitor still misses at the end of sampling, as a voltage at the pin. Pitfall D01. */
export const missedVoltage = /*#__PURE__*/ formula({
  symbol: 'V_sm',
  quantity: 'voltage not yet settled in sampling',
  unit: 'V',
  inputs: { n_miss: ['1', -64, 64], V_ref: ['V', 0.5, 30], N_bits: ['1', 8, 16] },
  expression: 'n_miss * V_ref / 2^N_bits',
  compute: ({ n_miss, V_ref, N_bits }) => (n_miss * V_ref) / twoTo(N_bits),
  source: 'definition of a count',
})

/** Voltage at the pin as it is sampled: divided output, less what leakage drops in the source and sampling misses. */
export const pinVoltage = /*#__PURE__*/ formula({
  symbol: 'V_pin',
  quantity: "voltage at the converter's pin",
  unit: 'V',
  inputs: { V_f: ['V', 0, 30], k_d: ['1', 0.05, 1], V_lk: ['V', -0.1, 0.1], V_sm: ['V', -0.1, 0.1] },
  expression: 'V_f * k_d - V_lk - V_sm',
  compute: ({ V_f, k_d, V_lk, V_sm }) => V_f * k_d - V_lk - V_sm,
  source: 'Ohm; superposition',
})

/** Current that a sensor supplied from above the converter's rail drives into the pin's clamp when it saturates. */
export const clampCurrent = /*#__PURE__*/ formula({
  symbol: 'I_clamp',
  quantity: "current into the pin's clamp with the sensor at its highest output",
  unit: 'A',
  inputs: {
    V_hi: ['V', 1, 30],
    k_d: ['1', 0.05, 1],
    V_rail: ['V', 1, 6],
    V_clamp: ['V', 0.3, 0.7],
    R_src: ['ohm', 10, 1e5],
  },
  expression: 'max(V_hi * k_d - V_rail - V_clamp, V_clamp - V_clamp) / R_src',
  compute: ({ V_hi, k_d, V_rail, V_clamp, R_src }) => Math.max(V_hi * k_d - V_rail - V_clamp, 0) / R_src,
  source: 'Ohm; clamps conduct from 0.3 V on, 1 mA is safe: common practice, no source',
  smooth: false,
})
