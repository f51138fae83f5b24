import {
  at,
  branchCurrent,
  branchVoltage,
  circuit,
  contentAt,
  derivative,
  envelope,
  extremeOf,
  factorAt,
  highestAbove,
  highestOf,
  integralOfProduct,
  loadCurrent,
  lowest,
  negative,
  plugIn,
  plugInBiased,
  pwmCurrents,
  pwmStart,
  respondThroughDiode,
  respondTo,
  respondToPwm,
  rippleCurrents,
  sourceCurrent,
  straightened,
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
  () => [highestOf(burst), highestAbove(burst, 3.8)],
  () => extremeOf(burst.pieces, -1, sourceCurrent),
  () => {
    const { piece } = burst.pieces[1]!
    return [sourceCurrent, loadCurrent].map((current) => at(current(piece), 1e-4))
  },
  () => {
    const { piece } = burst.pieces[1]!
    return [at(branchVoltage(piece, 0), 1e-4), at(branchCurrent(piece, 0), 1e-4)]
  },
  () => {
    const { piece } = burst.pieces[1]!
    return [lowest(piece.voltage, piece.duration), -lowest(negative(piece.voltage), piece.duration).value]
  },
  () => {
    const { piece } = burst.pieces[1]!
    return [at(derivative(piece.voltage), 1e-4), envelope(piece.voltage, 1e-4)]
  },
  () => {
    const { piece } = burst.pieces[1]!
    return integralOfProduct(piece.voltage, loadCurrent(piece), piece.duration)
  },
  () => {
    const steady = respondToPwm(board, blade, pwm)
    return (
      steady && [
        steady.lowest.value,
        steady.ripple,
        pwmCurrents(board, steady),
        rippleCurrents(board, steady),
        pwmStart(board, blade, steady),
      ]
    )
  },
  () => {
    const without = respondToPwm(board, blade, pwm)
    const open = circuit(source, [polymer], 0)
    const diode = { forwardVoltage: 0.28, at: 10e-3, scale: 0.03, resistance: 0.1 }
    return without && respondThroughDiode(open, { capacitance: 470e-6, current: 5e-3, diode }, blade, without)?.level
  },
  () => {
    const { peak, inrush } = plugIn(board)
    return { peak, inrush }
  },
  () => {
    const { peak, inrush } = plugInBiased(source, [ceramic])
    return { peak, inrush }
  },
  () => [factorAt(ceramic.bias, 1.85), contentAt(ceramic, 3.7), straightened([ceramic], 3.7, 1)],
]
