import { formula } from '@ohmward/budget/formula'

/**
 * Voltage at the converter's pin: the pin's leakage drops in the filter's resistor. `s_set` is what is still missing of the
 * way from what stood there before, up or down, as a share of the amplifier's supply or of the reference, whichever is more:
 * a saturated output may come closer to the supply than its data sheet guarantees, and another channel have been sampled.
 * `e_add` is what else a data sheet states as a share of the reading.
 */
export const pinVoltage = /*#__PURE__*/ formula({
  symbol: 'V_pin',
  quantity: "voltage at the converter's pin",
  unit: 'V',
  inputs: {
    V_out: ['V', 0, 36],
    e_add: ['1', -0.1, 0.1],
    s_set: ['1', -1, 1],
    V_amp: ['V', 1, 36],
    V_ref: ['V', 0.5, 36],
    I_pin: ['A', -1e-6, 1e-6],
    R_filt: ['ohm', 0, 1e5],
  },
  expression: 'V_out * (1 + e_add) + s_set * max(V_amp, V_ref) - I_pin * R_filt',
  compute: (x) => x.V_out * (1 + x.e_add) + x.s_set * Math.max(x.V_amp, x.V_ref) - x.I_pin * x.R_filt,
  source: 'Ohm; superposition',
  smooth: false,
})

export { clippedCode, convertedCode, idealCode } from '@ohmward/adc/formulas'
