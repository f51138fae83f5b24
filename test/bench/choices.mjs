/** The switch and the rail that both builds check: the example parts of the version before the second cut. */

export const switchChoice = {
  transistor: {
    channel: 'P',
    onResistance: '1.8 V: 32 mohm typ 22 mohm; 2.5 V: 19 mohm typ 14.5 mohm; 4.5 V: 12.5 mohm typ 9.8 mohm',
    temperatureLaw: {
      kind: 'points',
      points: '-50 degC: 0.78; 25 degC: 1; 75 degC: 1.19; 125 degC: 1.42; 150 degC: 1.55',
    },
    thresholdVoltage: '0.7 V ±0.3 V',
    thresholdFall: '2.5 mV/K',
    gateSourceMaximum: '10 V',
    drainSourceMaximum: '20 V',
    currentMaximum: '11 A',
    gateCharge: '32 nC',
    gateSourceCharge: '4.5 nC',
    gateDrainCharge: '8 nC',
    plateauVoltage: '1.5 V',
    gateResistance: '6 ohm',
    outputCapacitance: '380 pF',
    inputCapacitance: '2.3 nF',
    reverseCapacitance: '320 pF',
    gateLeakage: '1 uA',
    copper: '40: 115 K/W; 650: 48 K/W',
    transientImpedance:
      '0.1 ms: 0.35 K/W; 1 ms: 1.1 K/W; 10 ms: 3.4 K/W; 0.1 s: 9 K/W; 1 s: 19 K/W; 10 s: 36 K/W; 100 s: 47 K/W; 1000 s: 48 K/W',
    safePulses: '10 us: 900 W; 100 us: 320 W; 1 ms: 105 W; 10 ms: 34 W; 100 ms: 12 W',
  },
  drive: {
    kind: 'inverting transistor',
    gateResistor: '47 ohm ±1 %',
    baseResistor: '1 kohm ±1 %',
    basePullDown: '2.2 kohm ±1 %',
    highLevel: '2.3 V',
    pull: { at: 'gate', resistance: '1 kohm ±1 %' },
    resetPull: '30 kohm',
  },
  load: { resistance: '0.7 ohm ±5 %' },
  pwm: { frequency: '100 Hz', duty: { from: 0.05, to: 0.95 } },
  thermal: { copperSquareMillimetres: 250 },
  wiring: { inductance: '0.3 uH' },
}

export const switchConditions = {
  openCircuit: { from: 3, to: 4.2 },
  sourceResistance: '90 mohm ±30 mohm',
  ambientCelsius: { from: 0, to: 50 },
}

const capacitors = [
  {
    name: 'polymer 470 uF',
    capacitance: '470 uF ±20 %',
    ratedVoltage: 6.3,
    seriesResistance: '12 mohm',
    cold: [
      { celsius: -55, factor: 1.2 },
      { celsius: 20, factor: 1 },
      { celsius: 105, factor: 1 },
    ],
    wornCapacitance: 0.8,
    wornResistance: 1.5,
    rippleCurrent: '4 A',
    thermalResistance: 50,
    lifeHours: 2000,
    volume: 320,
    count: 2,
  },
  {
    name: 'ceramic X5R 47 uF',
    capacitance: '47 uF ±20 %',
    ratedVoltage: 6.3,
    seriesResistance: '3 mohm',
    bias: [
      { volts: 0, factor: 1 },
      { volts: 2, factor: 0.86 },
      { volts: 3, factor: 0.68 },
      { volts: 4.2, factor: 0.45 },
      { volts: 6.3, factor: 0.24 },
    ],
    temperature: [
      { celsius: -55, factor: 0.85 },
      { celsius: 25, factor: 1 },
      { celsius: 85, factor: 0.85 },
    ],
    ageing: 0.05,
    rippleCurrent: '4 A',
    thermalResistance: 90,
    volume: 12,
  },
]

const rail = {
  capacitors,
  load: { resistance: '0.7 ohm ±5 %', rise: '20 us' },
  idle: '12 mA',
  limits: { brownOut: '2.1 V ±5 %', clock: '1.7 V', amplifier: '1.8 V' },
}
const insertion = { contactSurge: '150 A', shortVoltage: '0.6 V ±0.1 V', shortDelay: '200 us', railMaximum: '6 V' }
const surroundings = { ambientCelsius: { from: 0, to: 50 }, ageYears: { from: 0, to: 5 } }
const inductance = '0.3 uH ±30 %'

/** Choice and conditions of the version before the cut: the resistances of the source by name, a range of its voltage. */
export const railOnList = [
  {
    ...rail,
    source: {
      cellResistance: '25 mohm ±20 %',
      ageFactor: 1.8,
      contacts: '6 mohm ±4 mohm',
      protection: '12 mohm ±3 mohm',
      switchResistance: '12 mohm ±3 mohm',
      wiring: '8 mohm ±20 %',
      inductance,
    },
    insertion: { ...insertion, tripVoltage: '0.2 V ±15 mV' },
  },
  { ...surroundings, openCircuit: { from: 3, to: 4.2 } },
]

/** The same parts as a cell with its curve, behind a path; the charge is that of the same voltages. */
export const railOnPath = [
  {
    ...rail,
    source: {
      source: {
        kind: 'cell',
        openCircuit: '0: 3 V; 0.5: 3.6 V; 1: 4.2 V',
        capacity: '4 Ah',
        resistance: '25 mohm ±20 %',
        ageFactor: 1.8,
        continuousCurrent: '30 A',
      },
      path: [
        { name: 'contacts', resistance: '6 mohm ±4 mohm' },
        { name: 'protection', resistance: '12 mohm ±3 mohm', tripVoltage: '0.2 V ±15 mV' },
        { name: 'switch', resistance: '12 mohm ±3 mohm' },
        { name: 'wiring', resistance: '8 mohm ±20 %', tap: 'board' },
      ],
      inductance,
    },
    tap: 'board',
    insertion,
  },
  { ...surroundings, charge: { from: 0, to: 1 } },
]
