import type { PartFields } from '@ohmward/quantity'

/** The filter between sensor and converter. */
export const filterFields = {
  resistance: {
    symbol: 'R_filt',
    hasTolerance: true,
    unit: 'ohm',
    min: 0,
    max: 1e6,
    otherwise: 1000,
    meaning: 'series resistor',
  },
  capacitance: {
    symbol: 'C_f',
    hasTolerance: true,
    unit: 'F',
    min: 1e-12,
    max: 1e-3,
    otherwise: 1e-10,
    meaning: "capacitor at the converter's pin; the pin's own by default",
  },
} as const satisfies PartFields

/** A divider that brings a 5 V sensor's output into a 3.3 V converter. */
export const dividerFields = {
  top: {
    symbol: 'R_t',
    hasTolerance: true,
    unit: 'ohm',
    min: 1e-3,
    max: 1e7,
    meaning: "resistor from the sensor's output",
  },
  bottom: { symbol: 'R_b', hasTolerance: true, unit: 'ohm', min: 1e-3, max: 1e7, meaning: 'resistor to ground' },
} as const satisfies PartFields

/** What stands around the sensor. */
export const surroundingsFields = {
  neighbourCurrent: {
    symbol: 'I_nb',
    unit: 'A',
    min: 0,
    max: 1e4,
    otherwise: 0,
    meaning: 'largest current of a neighbouring conductor that the stored zero does not include',
  },
  neighbourDistance: {
    symbol: 'd_nb',
    unit: 'm',
    min: 1e-4,
    max: 10,
    otherwise: 0.02,
    meaning: 'its smallest distance from the sensing element',
  },
  steadyField: {
    symbol: 'B_0',
    unit: 'T',
    min: 0,
    max: 1,
    otherwise: 50e-6,
    meaning: "steady field around the device: the earth's 50 µT, in any direction",
  },
} as const satisfies PartFields

/** When and how often a reading is taken. */
export const timingFields = {
  edge: {
    symbol: 't_edge',
    unit: 's',
    min: 0,
    max: 1,
    otherwise: 1e-6,
    meaning: 'time from the command until the load current is steady: the edge of the power switch',
  },
  samples: {
    symbol: 'M_avg',
    unit: '1',
    min: 1,
    max: 65536,
    integer: true,
    otherwise: 1,
    meaning: 'conversions averaged into one reading',
  },
  samplesPerWindow: {
    symbol: 'M_w',
    unit: '1',
    min: 1,
    max: 65536,
    integer: true,
    otherwise: 1,
    meaning: 'of these, consecutive conversions in one window; samples is a multiple of it',
  },
  interval: {
    symbol: 'T_s',
    unit: 's',
    min: 0,
    max: 1e3,
    otherwise: 0,
    meaning: 'time from one sample or window to the next; 0: the PWM period, or 1 ms without PWM',
  },
} as const satisfies PartFields
