import {
  circuit,
  highestOf,
  plugIn,
  plugInBiased,
  pwmCurrents,
  respondTo,
  respondToPwm,
  voltageAt,
} from '@ohmward/decoupling/waveform'

const source = { voltage: 3.7, resistance: 0.09, inductance: 0.3e-6 }
const polymer = { capacitance: 470e-6, resistance: 0.015, inductance: 3e-9 }
const ceramic = { capacitance: 22e-6, resistance: 3e-3, inductance: 1e-9, bias: { at: [0, 3.7], factor: [1, 0.5] } }
const board = circuit(source, [polymer], 5e-3)
const blade = { kind: 'resistor', resistance: 0.7 } as const
const burst = respondTo(board, blade, { rise: 1e-6, duration: 2e-3, fall: 1e-6 })
const pwm = { frequency: 1e3, duty: 0.5, rise: 1e-6, fall: 1e-6 }

export const examples = [
  () => [burst.rest, burst.lowest],
  () => [voltageAt(burst, 0), voltageAt(burst, 1e-3)],
  () => highestOf(burst),
  () => {
    const steady = respondToPwm(board, blade, pwm)
    return steady && [steady.lowest.value, steady.ripple, pwmCurrents(board, steady)]
  },
  () => {
    const { peak, inrush } = plugIn(board)
    return { peak, inrush }
  },
  () => {
    const { peak, inrush } = plugInBiased(source, [ceramic])
    return { peak, inrush }
  },
]
