/**
 * What is timed in two builds. Each takes a build's packages and gives a call. Both builds check the same parts, whatever
 * their examples are by now; where a record has changed, the parts are written in the words of each.
 */
import { railOnList, railOnPath, switchChoice, switchConditions } from './choices.mjs'

const quick = { simulation: false }
const simulated = { simulation: { seed: 1 } }
const cell = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }

const divider = ({ adc, divider: { checkDivider, exampleAmplifiers } }, options) => {
  const choice = {
    load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
    error: '3 %',
    reference: '47 ohm ±1 %',
    gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %' },
    excitationSwitch: { resistance: '1 ohm ±50 %', currentLimit: '0.2 A' },
    amplifier: exampleAmplifiers.zeroDrift,
    converter: adc.exampleConverters['12-bit controller converter'],
  }
  return () => checkDivider(choice, cell, options)
}

export const hallChoice = ({ adc, hall: { exampleSensors } }) => ({
  sensor: exampleSensors.wideSupplyOneWay,
  converter: adc.exampleConverters['12-bit controller converter'],
  current: { from: 0, to: '6 A' },
  errors: [
    { at: '1 A', allowed: '0.25 A' },
    { at: '6 A', allowed: '6 %' },
  ],
  pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.9 } },
  filter: { resistance: '330 ohm ±1 %', capacitance: '1 nF ±10 %' },
  calibration: { kind: 'zero' },
  trip: { current: '8 A', normal: '6.5 A', withstand: '10 A' },
})

const hall = (packages, options) => {
  const choice = hallChoice(packages)
  return () => packages.hall.checkHall(choice, cell, options)
}

const mosfet = ({ mosfet: { checkMosfet } }, options) => {
  return () => checkMosfet(switchChoice, switchConditions, options)
}

const decoupling = ({ decoupling: { checkDecoupling }, supply }, options) => {
  const [choice, conditions] = supply ? railOnPath : railOnList
  return () => checkDecoupling(choice, conditions, options)
}

/** A rail at ever another source resistance, so that nothing can be remembered; a hundred in a call. */
const rails = (waveform, inductance, respond) => {
  let i = 0
  return () => {
    for (let end = i + 100; i < end; i++) {
      const source = { voltage: 3.7, resistance: 0.1 + (i % 1000) * 1e-6, inductance }
      respond(waveform.circuit(source, [{ capacitance: 1e-3, resistance: 0.03, inductance: 0 }], 0.01))
    }
  }
}
const current = { kind: 'current', current: 5 }
const resistor = { kind: 'resistor', resistance: 0.7 }

/** Name, what is measured, and the call. */
export const workloads = [
  ['check of a divider', 'every margin over rail and temperature, three budgets', (it) => divider(it, quick)],
  ['check of a current', 'every margin, two readings with zero, a trip, budgets', (it) => hall(it, quick)],
  ['check of a switch', 'every margin over discharge, ambient and duty, two budgets', (it) => mosfet(it, quick)],
  ['check of a rail', 'ten margins over discharge, temperature and age, a budget', (it) => decoupling(it, quick)],
  ['simulated check of a divider', 'the same with its simulations', (it) => divider(it, simulated)],
  ['simulated check of a current', 'the same with its simulations', (it) => hall(it, simulated)],
  ['simulated check of a switch', 'the same with its simulations', (it) => mosfet(it, simulated)],
  ['simulated check of a rail', 'the same with its simulation', (it) => decoupling(it, simulated)],
  [
    'lowest point of a burst',
    'a resistor, loop inductance, rise and fall, from the parts',
    ({ waveform }) =>
      rails(waveform, 3e-7, (c) => waveform.respondTo(c, resistor, { rise: 1e-5, duration: 1e-2, fall: 1e-5 }).lowest),
  ],
  [
    'lowest point under PWM',
    'steady state, a current, loop inductance, from the parts',
    ({ waveform }) =>
      rails(waveform, 3e-7, (c) =>
        waveform.respondToPwm(c, current, { frequency: 2e4, duty: 0.5, rise: 1e-6, fall: 1e-6 }),
      ),
  ],
  [
    'proof over 16 bits',
    'the best integers of a current for 2^16 codes, every code tried',
    ({ adc: { currentTarget, scaleLinear } }) => {
      const target = currentTarget({ amperesPerCount: 0.00025, zeroCode: 6553.6, half: 0.5, unit: 1e-3 })
      return () => scaleLinear(target, { codes: 65535, word: 32 })
    },
  ],
  [
    'picture of a period',
    '240 points of two poles in steady state, twice, with the schedule',
    (it) => {
      const choice = hallChoice(it)
      return () => it.hall.hallPeriod(choice, cell)
    },
  ],
]
