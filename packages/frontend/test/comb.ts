import { type Design, exampleDesign } from '@ohmward/frontend'

/**
 * A beekeeper's uncapping comb, invented: one cell, controller, converter and current sensor behind a resistor with its hold-up
 * capacitor, no regulator; a pin of that rail drives an N-channel switch at 5 kHz, the load hangs on the main rail and is cold of less
 * resistance than at work; a standby LED and a divider stay on.
 */
export const comb: Design = {
  version: 1,
  name: 'uncapping comb',
  supply: {
    source: {
      kind: 'cell',
      openCircuit: 'NMC 21700',
      capacity: '3000 mAh ±5 %',
      resistance: '14 mohm ±25 %',
      continuousCurrent: '10 A',
      pulseCurrent: '20 A',
    },
    path: [
      { name: 'cell tabs', resistance: '3 mohm ±50 %' },
      { name: 'protection', resistance: '12 mohm ±20 %', tripVoltage: '0.15 V ±15 %' },
      { name: 'wiring and copper', resistance: '6 mohm ±20 %', tap: 'board' },
      { name: 'plug of the comb', resistance: '6 mohm ±50 %' },
    ],
    inductance: '0.2 uH ±30 %',
  },
  board: 'board',
  load: { resistance: '0.9 ohm ±5 %', temperatureCoefficient: '1.1e-3 ±10 %', workingCelsius: 140, rise: '1 us' },
  pwm: { frequency: '5 kHz', duty: { from: 0.2, to: 0.6 } },
  divider: {
    ...exampleDesign.divider,
    topology: 'load at rail',
    load: { from: '0.7 ohm', to: '1.3 ohm', nominal: '0.9 ohm' },
    error: '30 %',
    reference: '33 ohm ±0.5 %',
    timing: { wait: '30 us' },
  },
  hall: {
    ...exampleDesign.hall,
    sensor: { ...exampleDesign.hall.sensor, supplyMinimum: '2.2 V', bandwidth: '400 kHz' },
    current: { from: '0 A', to: '5.5 A' },
    errors: [
      { at: '1 A', allowed: '0.3 A' },
      { at: '4 A', allowed: '8 %' },
    ],
    filter: { resistance: '330 ohm ±1 %', capacitance: '470 pF ±10 %' },
    wait: '20 us',
    trip: { current: '7 A', normal: '5.5 A', withstand: '10 A' },
  },
  mosfet: {
    transistor: {
      channel: 'N',
      onResistance: '2.5 V: 18 mohm typ 13 mohm; 4.5 V: 11 mohm typ 8.5 mohm',
      temperatureLaw: {
        kind: 'points',
        points: '-50 degC: 0.76; 25 degC: 1; 75 degC: 1.2; 125 degC: 1.45; 150 degC: 1.6',
      },
      thresholdVoltage: '0.8 V ±0.3 V',
      gateSourceMaximum: '10 V',
      drainSourceMaximum: '20 V',
      currentMaximum: '9 A',
      gateCharge: '14 nC',
      gateSourceCharge: '2.2 nC',
      gateDrainCharge: '3 nC',
      plateauVoltage: '1.6 V',
      inputCapacitance: '1.1 nF',
    },
    drive: {
      kind: 'pin',
      gateResistor: '22 ohm ±1 %',
      resistance: '25 ohm ±40 %',
      sinkResistance: '22 ohm ±40 %',
      currentMaximum: '0.1 A',
      pull: { at: 'gate', resistance: '47 kohm ±1 %' },
    },
    thermal: { junctionToAmbient: '90 K/W ±20 %' },
    wiring: { inductance: '0.1 uH' },
  },
  decoupling: {
    capacitors: [
      {
        name: 'polymer',
        capacitance: '220 uF ±20 %',
        ratedVoltage: 6.3,
        seriesResistance: '20 mohm',
        rippleCurrent: '4 A',
        thermalResistance: 50,
        lifeHours: 2000,
      },
    ],
  },
  controller: {
    brownOut: '2.1 V ±3 %',
    lowestSupply: '1.8 V',
    current: '14 mA ±15 %',
    internalReference: { voltage: '1.2 V ±3 %' },
  },
  rails: [
    {
      name: 'logic',
      source: 'main',
      through: { kind: 'resistor', resistance: '6.8 ohm ±5 %', capacitance: '220 uF ±20 %' },
    },
  ],
  lives: { controller: 'logic', sensor: 'logic', amplifier: 'main', converter: 'logic' },
  monitor: {
    reads: 'at rest',
    pause: '1 min',
    lacking: 0.1,
    stop: '3.15 V',
    hysteresis: '0.25 V',
    calibration: '1 %',
    divider: { upper: '470 kohm ±1 %', lower: '220 kohm ±1 %', capacitance: '100 nF ±10 %', interval: '1 s' },
  },
  bursts: { time: '30 s', watchdog: '60 s' },
  standby: [
    { name: 'controller asleep', current: '6 uA ±50 %' },
    { name: 'standby LED', current: '60 uA ±30 %' },
  ],
  requirements: { usableCharge: 0.85, standbyDays: 180 },
  ambientCelsius: { from: '-10 degC', to: '45 degC' },
}
