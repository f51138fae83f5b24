import { type Converter, readConverter } from '@ohmward/adc'
import {
  either,
  exactly,
  type Given,
  InputError,
  kinds,
  list,
  own,
  part,
  type Read,
  range,
  readNumber,
  record,
  spread,
  word,
} from '@ohmward/quantity'
import { dividerFields, filterFields, surroundingsFields, timingFields } from './parts/board.js'
import { sensorRecord } from './parts/sensor.js'

/** The largest error wanted: a share of the reading (`'5 %'`, or a bare number) or a current (`'0.2 A'`). */
function readAllowed(given: unknown, field: string): { readonly share: number } | { readonly amperes: number } {
  const isShare = typeof given === 'number' || (typeof given === 'string' && given.trim().endsWith('%'))
  return isShare
    ? { share: readNumber(given, { field, unit: '1', above: 0, max: 1 }) }
    : { amperes: readNumber(given, { field, unit: 'A', above: 0, max: 1e4 }) }
}

function readName(given: unknown, field: string): string {
  if (typeof given === 'string' && given.length > 0 && given.length <= 100) return given
  throw new InputError({ field, value: given, allowed: 'a name of 1 to 100 letters' })
}

const amperes = { unit: 'A', above: 0, max: 1e4 } as const
const seconds = { unit: 's', min: 0, max: 10 } as const

const errorFields = {
  at: exactly({ unit: 'A', min: -1e4, max: 1e4, meaning: 'current at which the error is wanted' }),
  allowed: own<number | string>()(readAllowed, {
    schema: { type: ['number', 'string'] },
    meaning: 'largest error: a share of the reading, such as 5 %, or a current, such as 0.2 A',
  }),
} as const

const pwmFields = {
  frequency: exactly({ symbol: 'f_PWM', unit: 'Hz', min: 1e-3, max: 1e6, meaning: 'frequency' }),
  duty: range({ unit: '1', above: 0, max: 1, meaning: 'duties to cover' }),
} as const

const taskFields = {
  name: own<string>()(readName, { schema: { type: 'string', minLength: 1, maxLength: 100 }, meaning: 'its name' }),
  window: word(['on', 'off'], { meaning: 'while the power switch is on or off' }),
  starts: word(['edge', 'turn'], {
    otherwise: 'edge',
    meaning: "what starts recovery and settling: the window's edge, or the task's own turn",
  }),
  recovery: exactly({ ...seconds, meaning: 'from then until the chain works at all, longest' }),
  settling: exactly({ ...seconds, meaning: 'then, until the value stands, longest' }),
  acquisition: exactly({ ...seconds, meaning: 'sampling time, longest' }),
  conversion: exactly({ ...seconds, meaning: 'conversion time, longest' }),
  samples: exactly({ unit: '1', integer: true, min: 1, max: 65536, otherwise: 1, meaning: 'samples in a window' }),
} as const

const residual = spread({
  symbol: 'I_rest',
  unit: 'A',
  min: -100,
  max: 100,
  otherwise: 0,
  meaning: 'current that flows although the load is off',
})
const zeroSamples = exactly({
  unit: '1',
  integer: true,
  min: 1,
  max: 65536,
  otherwise: 16,
  meaning: 'conversions averaged to the zero',
})
const zeroRail = { symbol: 'V_railc', unit: 'V', above: 0, max: 60, optional: true } as const

/**
 * How the zero is found.
 *
 * - `none`: the firmware uses the nominal zero.
 * - `zero`: one reading with the load off, at stated conditions, such as at power-up. Its static part cancels; drift,
 *   what a moved rail does, hysteresis and a turned field stay.
 * - `zero each time`: a reading with the load off just before each use, at the same temperature, with the same remanence
 *   and field; at the same rail, too, unless one is told: where the load sags it, the zero is read at a higher one.
 *
 * A calibration is run through the chain with the same parts: what cancels, cancels.
 */
const calibrations = {
  none: {},
  zero: {
    atCelsius: spread({
      symbol: 'T_c',
      unit: 'degC',
      min: -55,
      max: 125,
      otherwise: 25,
      meaning: 'temperature of the zero reading',
    }),
    rail: spread({ ...zeroRail, meaning: 'rail of the zero reading; the middle of the range unless told' }),
    residual,
    samples: zeroSamples,
  },
  'zero each time': {
    rail: spread({ ...zeroRail, meaning: 'rail with the load off; the one of the reading unless told' }),
    residual,
    samples: zeroSamples,
  },
} as const

const tripFields = {
  current: exactly({ ...amperes, symbol: 'I_set', optional: true, meaning: 'level, in amperes of the reading' }),
  code: exactly({
    symbol: 'code_trip',
    unit: 'LSB',
    integer: true,
    min: 0,
    max: 2 ** 32 - 1,
    optional: true,
    meaning: 'level as a code of the converter, with the nominal zero; in the place of a current',
  }),
  normal: exactly({ ...amperes, meaning: 'largest current that normal use draws: it must never trip there' }),
  withstand: exactly({
    ...amperes,
    meaning: 'smallest of what cell, switch and wiring stand: it must have tripped there',
  }),
} as const

/** Either a current or a code, and room between what is drawn and what is withstood. */
function checkTrip({ current, code, normal, withstand }: Read<typeof tripFields>, field: string): void {
  if ((current === undefined) === (code === undefined)) {
    throw new InputError({ field, value: { current, code }, allowed: 'either current or code' })
  }
  if (!(withstand > normal)) {
    const allowed = `more than normal, ${normal} A`
    throw new InputError({ field: `${field}.withstand`, value: withstand, unit: 'A', allowed })
  }
}

/** A reading takes whole windows. */
function checkTiming({ samples, samplesPerWindow }: Read<typeof timingFields>, field: string): void {
  if (samples.nominal % samplesPerWindow.nominal === 0) return
  throw new InputError({
    field: `${field}.samplesPerWindow`,
    value: samplesPerWindow.nominal,
    allowed: `a divisor of samples, ${samples.nominal}`,
  })
}

/** What a measurement of current is made of. */
export const hallRecord = /*#__PURE__*/ record({
  sensor: sensorRecord,
  sensorSupply: either(['rail'], spread({ symbol: 'V_s', unit: 'V', above: 0, max: 30, meaning: 'its own supply' }), {
    otherwise: 'rail',
    meaning: 'supply of the sensor: the rail, or one of its own',
  }),
  converter: own<Converter>()(readConverter, { schema: { type: 'object' }, meaning: 'the converter' }),
  current: range({ unit: 'A', min: -1e4, max: 1e4, meaning: 'currents in the on-window that must be read' }),
  errors: list(part(errorFields, { meaning: 'an error wanted' }), {
    least: 1,
    most: 12,
    meaning: 'errors wanted, each at a current; where the reading is a mean, at a mean current',
  }),
  resolution: exactly({
    ...amperes,
    optional: true,
    meaning: 'smallest step and noise wanted; the smallest of the errors unless told',
  }),
  peakCurrent: exactly({
    ...amperes,
    symbol: 'I_pk',
    optional: true,
    meaning: 'largest current that has flowed before a reading, for hysteresis; the largest to be read unless told',
  }),
  reading: word(['on-window', 'averaged'], {
    otherwise: 'on-window',
    meaning: 'sampled while the load is on, or the mean that the filter makes of the period',
  }),
  pwm: part(pwmFields, { optional: true, meaning: 'PWM of the load; absent where the current is steady' }),
  wait: exactly({
    symbol: 't_wait',
    unit: 's',
    above: 0,
    max: 10,
    optional: true,
    meaning: 'from the edge to the sample; as long as the settling needs unless told',
  }),
  filter: part(filterFields, { meaning: 'filter between sensor and converter' }),
  divider: part(dividerFields, { optional: true, meaning: 'divider before the converter' }),
  surroundings: part(surroundingsFields, { meaning: 'what stands around the sensor' }),
  timing: part(timingFields, { check: checkTiming, meaning: 'when and how often a reading is taken' }),
  calibration: kinds(calibrations, { otherwise: 'none', meaning: 'how the zero is found' }),
  power: word(['squared reading', 'voltage times reading'], {
    optional: true,
    meaning: "how the load's power is computed from the reading; nothing is watched unless told",
  }),
  divideFrom: exactly({
    ...amperes,
    optional: true,
    meaning: 'smallest current at which the firmware divides by the reading, as for a resistance',
  }),
  otherTasks: list(part(taskFields, { meaning: 'a task' }), {
    least: 0,
    most: 32,
    optional: true,
    meaning: 'what else the converter reads in a period, such as a resistance in the off-window',
  }),
  leastUse: exactly({
    unit: '1',
    min: 0,
    max: 1,
    otherwise: 0.4,
    meaning: "share of the sensor's span that the largest current should use at least",
  }),
  trip: part(tripFields, { optional: true, check: checkTrip, meaning: 'over-current trip in firmware' }),
})

/** What must be covered while the measurement works. */
export const hallConditions = /*#__PURE__*/ record({
  rail: range({ unit: 'V', above: 0, max: 60, meaning: 'rail at the moment of the measurement, sagged by the load' }),
  ambientCelsius: range({ unit: 'degC', min: -55, max: 125, meaning: 'air around the board, inside the case' }),
})

/** A measurement of current as its designer chose it. */
export interface HallChoice extends Given<typeof hallRecord> {}

/** What must be covered while the measurement works. */
export interface HallConditions extends Given<typeof hallConditions> {}
