import {
  burstImpedance,
  checkMosfet,
  currentAt,
  exampleChoice,
  exampleConditions,
  exampleDrives,
  exampleTransistors,
  impedanceAt,
  largestOnResistance,
  lawOf,
  lossAt,
  mosfet,
  mosfetAtWork,
  mosfetChanges,
  runawayDistance,
  sizeMosfet,
  solveJunction,
  sweepMosfet,
} from '@ohmward/mosfet'

const weak = { ...exampleChoice, transistor: exampleTransistors['P-channel, driven from 4.5 V'] }
const law = lawOf({ kind: 'linear', perKelvin: 0.004 })
const balance = { T_a: 50, R_th: 60, P_0: 0.1, D: 0.95, R_on: 0.02, V: 5, r: 0, k: 1 } as const
const curve = [
  { seconds: 1e-3, kelvinPerWatt: 1 },
  { seconds: 1, kelvinPerWatt: 20 },
  { seconds: 100, kelvinPerWatt: 60 },
]

export const examples = [
  () => checkMosfet(exampleChoice, exampleConditions, { simulation: false }).summary,
  () => mosfetChanges(weak, exampleConditions, { checks: 8 }).text,
  () =>
    sweepMosfet(weak, exampleConditions, [{ openCircuit: 3 }, { openCircuit: 4.2 }], ['gate-drive']).map(
      ({ margins }) => margins[0]?.slack,
    ),
  () => {
    const sized = sizeMosfet(
      {
        transistors: { a: exampleTransistors['N-channel, driven from 1.8 V'] },
        drives: { pin: exampleDrives['controller pin'] },
        load: { resistance: '0.7 ohm ±5 %' },
        pwm: { frequency: '100 Hz', duty: { from: 0.05, to: 0.95 } },
        thermal: { junctionToAmbient: '70 K/W ±20 %' },
      },
      exampleConditions,
    )
    return [sized.choices[0]?.choice.drive.gateResistor, sized.largestOnResistance]
  },
  () => mosfetAtWork(mosfet.read(exampleChoice, exampleConditions)).worst,
  () => largestOnResistance(exampleChoice, exampleConditions),
  () => [solveJunction(balance, law), lossAt(balance, law, 80)],
  () => {
    const held = { T_a: 50, R_th: 60, D: 0.95, R_on: 0.02, P_0: 0.1, s: 0 }
    return [currentAt(held, law, 125), runawayDistance(held, law, 5)]
  },
  () => [impedanceAt(curve, 0.1), burstImpedance(curve, { on: 0.1, period: 1, count: 10 })],
]
