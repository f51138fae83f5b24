import { exactly, type Fields, type PartFields } from '@ohmward/quantity'

/** The resistances of the load that must be read, and the one of the design. */
export const loadRange = {
  from: /*#__PURE__*/ exactly({ unit: 'ohm', min: 0, max: 100, meaning: 'smallest resistance that must be read' }),
  to: /*#__PURE__*/ exactly({ unit: 'ohm', above: 0, max: 100, meaning: 'largest resistance that must be read' }),
  nominal: /*#__PURE__*/ exactly({
    symbol: 'R_xn',
    unit: 'ohm',
    min: 0,
    max: 100,
    optional: true,
    meaning: 'nominal resistance; the middle of the range by default',
  }),
  currentLimit: /*#__PURE__*/ exactly({
    unit: 'A',
    above: 0,
    max: 100,
    optional: true,
    meaning: 'largest test current that the load allows, whatever its switch does',
  }),
} as const

/** The load between its sense points, and what heating it by the test current does. */
export const loadFields = {
  temperatureCoefficient: {
    symbol: 'alpha_x',
    unit: '1/K',
    min: -0.01,
    max: 0.01,
    otherwise: 0,
    meaning: 'temperature coefficient of its resistance',
  },
  thermalResistance: {
    symbol: 'R_thx',
    unit: 'K/W',
    min: 0,
    max: 1e5,
    otherwise: 0,
    meaning: 'thermal resistance to the surroundings',
  },
  heatCapacity: { symbol: 'C_thx', unit: 'J/K', min: 0, max: 1e6, otherwise: 0, meaning: 'heat capacity' },
} as const satisfies PartFields

/** The switch that connects the excitation: a controller's pin or a transistor. */
export const excitationSwitchFields = {
  resistance: { symbol: 'R_sw', unit: 'ohm', min: 0, max: 1e3, otherwise: 0, meaning: 'on-resistance' },
  saturation: {
    symbol: 'V_sat',
    unit: 'V',
    min: 0,
    max: 5,
    otherwise: 0,
    meaning: 'saturation voltage, on top of the resistance',
  },
  currentLimit: {
    symbol: 'I_lim',
    unit: 'A',
    above: 0,
    max: 100,
    otherwise: 1,
    meaning: 'largest test current that the switch or pin allows',
  },
} as const satisfies PartFields

/** The reference resistor, beside its resistance. */
export const referenceFields = {
  temperatureCoefficient: {
    symbol: 'alpha_ref',
    unit: '1/K',
    magnitude: true,
    max: 0.01,
    otherwise: 1e-4,
    meaning: 'largest temperature coefficient, either sign',
  },
  ageing: {
    symbol: 'd_ref',
    unit: '1',
    magnitude: true,
    max: 0.1,
    otherwise: 0,
    meaning: 'largest change over its life, as a share, either sign',
  },
  ratedPower: {
    symbol: 'P_rated',
    unit: 'W',
    above: 0,
    max: 1e3,
    otherwise: 0.25,
    meaning: 'rated dissipation at the ambient',
  },
  thermalResistance: {
    symbol: 'R_thref',
    unit: 'K/W',
    min: 0,
    max: 1e4,
    otherwise: 150,
    meaning: 'thermal resistance to the surroundings',
  },
} as const satisfies PartFields

/** The two resistors that set the gain; a difference amplifier has each of them twice. */
export const gainFields = {
  feedback: {
    symbol: 'R_f',
    hasTolerance: true,
    unit: 'ohm',
    above: 0,
    max: 1e8,
    meaning: 'resistor from the output to the inverting input',
  },
  ground: {
    symbol: 'R_g',
    hasTolerance: true,
    unit: 'ohm',
    above: 0,
    max: 1e7,
    meaning: 'resistor from the inverting input to ground, or to the sense point in a difference amplifier',
  },
  ratioDrift: {
    symbol: 'alpha_G',
    unit: '1/K',
    magnitude: true,
    max: 0.01,
    otherwise: 1e-4,
    meaning: 'largest drift of the ratio of the two, either sign; in a difference amplifier of each pair by itself',
  },
  ratioAgeing: {
    symbol: 'd_G',
    unit: '1',
    magnitude: true,
    max: 0.05,
    otherwise: 0,
    meaning: 'largest change of the ratio over its life, as a share, either sign; of each pair by itself',
  },
  ratioTolerance: {
    symbol: 'e_net',
    unit: '1',
    magnitude: true,
    max: 0.1,
    optional: true,
    meaning:
      'tolerance of the ratio, where the resistors are one matched network; by default each has its full tolerance',
  },
} as const satisfies Fields

/** What stands around the measurement. */
export const surroundingsFields = {
  leadResistance: {
    symbol: 'R_lead',
    unit: 'ohm',
    min: 0,
    max: 100,
    otherwise: 0,
    meaning: 'wires, traces and contacts in series with the load',
  },
  contactVariation: {
    symbol: 'R_con',
    unit: 'ohm',
    magnitude: true,
    max: 1,
    otherwise: 0,
    meaning: 'contact resistance change from one reading to the next, either way',
  },
  switchInSpan: {
    symbol: 'R_ds',
    unit: 'ohm',
    min: 0,
    max: 10,
    otherwise: 0,
    meaning: 'on-resistance of a switch between the sense points',
  },
  switchLeakage: {
    symbol: 'I_off',
    unit: 'A',
    min: 0,
    max: 0.01,
    otherwise: 0,
    meaning: 'off-state leakage of the power switch, hot: 0 to its maximum',
  },
  thermoelectric: {
    symbol: 'S_emf',
    unit: 'V/K',
    magnitude: true,
    max: 1e-3,
    otherwise: 5e-6,
    meaning: 'thermoelectric voltage of the junctions, per kelvin',
  },
  junctionDifference: {
    symbol: 'T_j',
    unit: 'K',
    magnitude: true,
    max: 500,
    otherwise: 2,
    meaning: 'largest temperature difference between the sense junctions',
  },
  groundCurrent: {
    symbol: 'I_o',
    unit: 'A',
    min: 0,
    max: 10,
    otherwise: 0,
    meaning: 'current of other circuits in the shared ground while measuring',
  },
  sharedGround: {
    symbol: 'R_sh',
    unit: 'ohm',
    min: 0,
    max: 1,
    otherwise: 0,
    meaning: 'ground between load and converter that the test current shares with other circuits',
  },
  protectionResistance: {
    symbol: 'R_p',
    unit: 'ohm',
    min: 0,
    max: 1e6,
    otherwise: 1e3,
    meaning: 'series resistor that protects the sense input',
  },
  clampLeakage: {
    symbol: 'I_leak',
    unit: 'A',
    magnitude: true,
    max: 1e-4,
    otherwise: 1e-8,
    meaning: 'largest leakage of the clamp at the sense input, hot',
  },
  undershoot: {
    symbol: 'V_under',
    unit: 'V',
    min: 0,
    max: 100,
    otherwise: 1,
    meaning: 'how far switching edges drive the sense line below ground',
  },
} as const satisfies PartFields

/** When the reading is taken. */
export const timingFields = {
  wait: {
    symbol: 't_wait',
    unit: 's',
    min: 0,
    max: 10,
    otherwise: 1e-3,
    meaning: 'time from the command that switches the excitation on and the power off, to the sample',
  },
  edge: {
    symbol: 't_edge',
    unit: 's',
    min: 0,
    max: 1,
    otherwise: 0,
    meaning: 'time from that command until the power is off: delay and edge of the power switch',
  },
  filter: {
    symbol: 'tau_f',
    unit: 's',
    min: 0,
    max: 1,
    otherwise: 0,
    meaning: 'time constant of the filter before the converter',
  },
  filterResistance: {
    symbol: 'R_filt',
    unit: 'ohm',
    min: 0,
    max: 1e6,
    otherwise: 100,
    meaning: 'source resistance that the converter sees',
  },
  measuringDuty: {
    symbol: 'd_m',
    unit: '1',
    min: 0,
    max: 1,
    otherwise: 0.01,
    meaning: 'share of the time in which the test current flows',
  },
  referenceSettling: {
    symbol: 't_ref',
    unit: 's',
    min: 0,
    max: 10,
    otherwise: 0,
    meaning: "settling time of the converter's reference after it is switched on or changed over",
  },
  samples: {
    symbol: 'n_avg',
    unit: '1',
    min: 1,
    max: 65536,
    integer: true,
    otherwise: 1,
    meaning: 'conversions averaged into one reading',
  },
} as const satisfies PartFields
