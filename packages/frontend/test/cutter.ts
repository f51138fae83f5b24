import type { Design } from '@ohmward/frontend'

/**
 * A hand-held foam cutter, invented: two cells in series, a wire of 1.1 ohm, and everything that measures behind a regulator of
 * 3.0 V. The load's rail stands at 8.4 V, 5 V above the pins that read it.
 */
export const cutter = {
  version: 1,
  name: 'hand-held foam cutter',
  supply: {
    source: {
      kind: 'cell',
      inSeries: 2,
      openCircuit: 'NMC 21700',
      capacity: '3000 mAh \u00b14 %',
      resistance: '16 mohm \u00b125 %',
      continuousCurrent: '15 A',
      pulseCurrent: '25 A',
    },
    path: [
      {
        name: 'cell contacts',
        resistance: '8 mohm \u00b150 %',
        currentLimit: '15 A',
      },
      {
        name: 'protection',
        resistance: '10 mohm \u00b120 %',
        tripVoltage: '0.25 V \u00b110 %',
        thermalResistance: 60,
        highestCelsius: 125,
      },
      {
        name: 'wiring and copper',
        resistance: '8 mohm \u00b120 %',
        thermalResistance: 30,
        highestCelsius: 90,
        tap: 'board',
      },
      {
        name: 'wire clamps',
        resistance: '10 mohm \u00b150 %',
        currentLimit: '15 A',
        thermalResistance: 40,
        highestCelsius: 105,
      },
    ],
    inductance: '0.3 uH \u00b130 %',
  },
  board: 'board',
  load: {
    resistance: '1.1 ohm \u00b15 %',
    temperatureCoefficient: '100 ppm/K',
    workingCelsius: '350 degC',
    rise: '10 us',
  },
  pwm: {
    frequency: '200 Hz',
    duty: {
      from: 0.1,
      to: 0.8,
    },
  },
  divider: {
    load: {
      from: '0.9 ohm',
      to: '1.5 ohm',
      nominal: '1.1 ohm',
      temperatureCoefficient: '100 ppm/K',
    },
    error: '5 %',
    reference: '47 ohm \u00b10.1 %',
    gainResistors: {
      feedback: '22 kohm \u00b10.1 %',
      ground: '1 kohm \u00b10.1 %',
    },
    excitationSwitch: {
      resistance: '0.5 ohm \u00b120 %',
      currentLimit: '0.2 A',
    },
    surroundings: {
      leadResistance: '20 mohm \u00b150 %',
    },
    amplifier: {
      offsetVoltage: '80 uV',
      offsetDrift: '0.5 uV/K',
      biasCurrent: '200 pA',
      offsetCurrent: '100 pA',
      openLoopGainDb: 105,
      commonModeRejectionDb: 95,
      supplyRejectionDb: 95,
      offsetSupply: '3 V',
      gainBandwidth: '1.2 MHz',
      slewRate: '0.7 V/us',
      highOutputDrop: '40 mV',
      lowOutput: '15 mV',
      sinkCurrent: '1 mA',
      commonModeLow: '-0.1 V',
      commonModeHighDrop: '0 V',
      recovery: '40 us',
      noiseDensity: '45 nV/Hz^0.5',
      supplyMinimum: '2.2 V',
      supplyMaximum: '5.5 V',
    },
    converter: {
      bits: 12,
      reference: {
        kind: 'rail',
      },
      offset: '3 LSB',
      gain: '0.1 %',
      nonlinearity: '2 LSB',
      noise: '0.7 LSB',
      switchResistance: '1 kohm',
      samplingCapacitance: '8 pF',
      acquisitionTime: '2 us',
      conversionTime: '1 us',
      leakage: '50 nA',
    },
    timing: {
      wait: '0.5 ms',
    },
  },
  hall: {
    sensor: {
      output: 'ratiometric',
      sensitivity: '160 mV/A',
      zeroOutput: '0.33 V',
      ratedSupply: '3.3 V',
      supplyMinimum: '2.85 V',
      supplyMaximum: '3.6 V',
      supplyCurrent: '7 mA',
      ratedCurrent: '15 A',
      sensitivityError: '1.5 %',
      sensitivityDrift: '200 ppm/K',
      zeroError: '8 mV',
      zeroDrift: '80 uV/K',
      zeroSupplyError: '0.5 %',
      sensitivitySupplyError: '0.5 %',
      nonlinearity: '0.3 %',
      hysteresis: '0.05 %',
      noiseDensity: '16 uV/Hz^0.5',
      bandwidth: '80 kHz',
      lowOutput: '0.15 V',
      highOutputDrop: '0.2 V',
      conductorResistance: '1.2 mohm',
      fieldCoupling: '1 mT/A',
      fieldRejectionDb: 40,
    },
    converter: {
      bits: 12,
      reference: {
        kind: 'rail',
      },
      offset: '3 LSB',
      gain: '0.1 %',
      nonlinearity: '2 LSB',
      noise: '0.7 LSB',
      switchResistance: '1 kohm',
      samplingCapacitance: '8 pF',
      acquisitionTime: '2 us',
      conversionTime: '1 us',
      leakage: '50 nA',
    },
    current: {
      from: '0 A',
      to: '8 A',
    },
    errors: [
      {
        at: '1 A',
        allowed: '0.3 A',
      },
      {
        at: '7 A',
        allowed: '6 %',
      },
    ],
    filter: {
      resistance: '330 ohm \u00b11 %',
      capacitance: '1 nF \u00b110 %',
    },
    calibration: {
      kind: 'zero',
    },
    trip: {
      current: '9.5 A',
      normal: '8 A',
      withstand: '12 A',
    },
  },
  mosfet: {
    transistor: {
      channel: 'P',
      onResistance: '4.5 V: 6 mohm',
      temperatureLaw: {
        kind: 'power',
        exponent: 2.3,
      },
      thresholdVoltage: '1.6 V \u00b10.6 V',
      gateSourceMaximum: '12 V',
      drainSourceMaximum: '20 V',
      currentMaximum: '15 A',
      gateCharge: '18 nC',
      gateSourceCharge: '4 nC',
      gateDrainCharge: '5 nC',
      plateauVoltage: '2.4 V',
      gateResistance: '2 ohm',
      outputCapacitance: '450 pF',
      inputCapacitance: '1.8 nF',
      reverseCapacitance: '120 pF',
    },
    drive: {
      kind: 'inverting transistor',
      gateResistor: '47 ohm \u00b11 %',
      baseResistor: '2.2 kohm \u00b11 %',
      basePullDown: '4.7 kohm \u00b11 %',
      highLevel: '2.6 V',
      pull: {
        at: 'gate',
        resistance: '1 kohm \u00b11 %',
      },
    },
    thermal: {
      junctionToAmbient: 60,
    },
    wiring: {
      inductance: '0.5 uH',
    },
  },
  decoupling: {
    capacitors: [
      {
        name: 'polymer 220 uF',
        capacitance: '220 uF \u00b120 %',
        ratedVoltage: 16,
        seriesResistance: '18 mohm',
        rippleCurrent: '3 A',
        count: 2,
        wornCapacitance: 0.8,
        wornResistance: 1.5,
        lifeHours: 2000,
      },
    ],
    insertion: {
      contactSurge: '200 A',
      railMaximum: '12 V',
    },
  },
  controller: {
    brownOut: '2.4 V \u00b13 %',
    lowestSupply: '2.3 V',
    current: '12 mA',
    internalReference: {
      voltage: '1.2 V \u00b12 %',
    },
  },
  bursts: {
    time: '60 s',
    watchdog: '90 s',
    stuckEnergy: '6 kJ',
  },
  standby: [
    {
      name: 'controller asleep',
      current: '4 uA \u00b150 %',
    },
    {
      name: 'regulator',
      current: '5 uA',
    },
    {
      name: 'protection',
      current: '4 uA \u00b150 %',
    },
  ],
  requirements: {
    usableCharge: 0.85,
    standbyDays: 180,
    powerLimit: '45 W',
    powerError: '12 %',
    power: '20 W',
  },
  ambientCelsius: {
    from: '5 degC',
    to: '40 degC',
  },
  rails: [
    {
      name: 'logic',
      source: 'main',
      through: {
        kind: 'regulator',
        voltage: '3.0 V \u00b11.5 %',
        dropout: '0 A: 0 V, 100 mA: 0.25 V',
        currentLimit: '150 mA',
        quiescentCurrent: '5 uA',
        lowestInput: '2.5 V',
        highestInput: '12 V',
        responseTime: '10 us',
        outputCapacitance: '4.7 uF ±40 %',
        thermalResistance: 200,
      },
    },
  ],
  lives: {
    controller: 'logic',
    sensor: 'logic',
    amplifier: 'logic',
    converter: 'logic',
    sensorCurrent: '7 mA',
    amplifierCurrent: '0.3 mA',
  },
} as const satisfies Design

/** Read at the rail, as a switch at ground leaves the wire. */
export const atRail = { ...cutter.divider, topology: 'load at rail' } as const

/** The same with an N-channel switch at ground, its driver on the battery. */
export const lowSide = {
  ...cutter,
  divider: atRail,
  mosfet: {
    ...cutter.mosfet,
    transistor: { ...cutter.mosfet.transistor, channel: 'N' },
    drive: {
      kind: 'driver',
      gateResistor: '1 kohm',
      resistance: '8 ohm',
      sinkResistance: '6 ohm',
      currentMaximum: '1.5 A',
      supplyMinimum: '3.5 V',
      pull: { at: 'gate', resistance: '100 kohm ±1 %' },
    },
  },
} as const satisfies Design
