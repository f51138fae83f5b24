import { exampleAmplifiers } from '@ohmward/divider'
import { type Design, exampleDesign } from '@ohmward/frontend'

/**
 * A de-icing ring, invented: one cell at -10 degC at the end of its life, a load that is cold of four fifths of its resistance at work, pulsed
 * 200 times a second in bursts of half a minute; the cells are read under load against an internal reference that nothing calibrates.
 */
export const deicingRing: Design = {
  ...exampleDesign,
  name: 'de-icing ring',
  supply: {
    source: {
      kind: 'cell',
      openCircuit: 'NMC 21700',
      capacity: '5000 mAh ±4 %',
      resistance: '15 mohm ±20 %',
      continuousCurrent: '15 A',
      pulseCurrent: '20 A',
    },
    path: [
      { name: 'cell tabs', resistance: '2 mohm ±50 %' },
      { name: 'protection', resistance: '8 mohm ±15 %', tripVoltage: '0.1 V ±10 %' },
      { name: 'copper', resistance: '5 mohm ±20 %', tap: 'board' },
      { name: 'plug', resistance: '6 mohm ±50 %', currentLimit: '8 A' },
    ],
    inductance: '0.15 uH ±30 %',
  },
  load: { resistance: '0.8 ohm ±4 %', temperatureCoefficient: '0.0035 ±5 %', workingCelsius: 60, rise: '2 us' },
  pwm: { frequency: '200 Hz', duty: { from: 0.2, to: 0.9 } },
  divider: {
    ...exampleDesign.divider,
    amplifier: exampleAmplifiers.zeroDrift,
    load: { from: '0.6 ohm', to: '1.1 ohm', nominal: '0.8 ohm' },
    error: '8 %',
    timing: { wait: '0.3 ms' },
  },
  hall: {
    ...exampleDesign.hall,
    wait: '0.4 ms',
    errors: [
      { at: '1 A', allowed: '0.3 A' },
      { at: '5 A', allowed: '8 %' },
    ],
  },
  controller: { ...exampleDesign.controller, brownOut: '2.4 V ±3 %', internalReference: { voltage: '1.2 V ±2 %' } },
  monitor: { reads: 'under load', warning: '3.1 V', stop: '2.9 V', latch: '3.2 V', hysteresis: '0.5 V' },
  bursts: { time: '30 s', watchdog: '40 s', stuckEnergy: '1000 J' },
  requirements: {
    usableCharge: 0.6,
    standbyDays: 150,
    power: '5 W',
    powerLimit: '12 W',
    powerError: '20 %',
    bursts: 60,
  },
  ambientCelsius: { from: '-10 degC', to: '-10 degC' },
  age: { from: 1, to: 1 },
}
