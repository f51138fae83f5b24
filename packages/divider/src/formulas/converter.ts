import { formula } from '@ohmward/budget'
import { I_pin, R_filt, V_out } from './symbols.js'

/** Voltage at the converter's pin: the pin's leakage drops in the filter's resistor. */
export const pinVoltage = /*#__PURE__*/ formula({
  symbol: 'V_pin',
  quantity: "voltage at the converter's pin",
  unit: 'V',
  inputs: { V_out, I_pin, R_filt },
  expression: 'V_out - I_pin * R_filt',
  compute: ({ V_out, I_pin, R_filt }) => V_out - I_pin * R_filt,
  source: 'Ohm; settled',
})

export { clippedCode, convertedCode, idealCode } from '@ohmward/adc'
