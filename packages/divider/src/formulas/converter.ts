import { formula } from '@ohmward/budget'

/** Voltage at the converter's pin: the pin's leakage drops in the filter's resistor. */
export const pinVoltage = /*#__PURE__*/ formula({
  symbol: 'V_pin',
  quantity: "voltage at the converter's pin",
  unit: 'V',
  inputs: { V_out: ['V', 0, 36], I_pin: ['A', -1e-6, 1e-6], R_filt: ['ohm', 0, 1e5] },
  expression: 'V_out - I_pin * R_filt',
  compute: (x) => x.V_out - x.I_pin * x.R_filt,
  source: 'Ohm',
})

export { clippedCode, convertedCode, idealCode } from '@ohmward/adc/formulas'
