import { converterField } from '@ohmward/adc'
import { furtherErrors } from '@ohmward/budget'
import { either, exactly, type Given, kinds, list, part, range, record, spread, word } from '@ohmward/quantity'
import { dividerFields, filterFields, surroundingsFields, timingFields } from './parts/board.js'
import { sensorRecord } from './parts/sensor.js'
import { calibrations, checkTiming, checkTrip, errorFields, pwmFields, taskFields, tripFields } from './parts/use.js'

const amperes = { unit: 'A', above: 0, max: 1e4 } as const

// Made in functions, so that a bundler drops what isn't used.

const choiceFields = () =>
  /*#__PURE__*/ record({
    sensor: sensorRecord,
    sensorSupply: /*#__PURE__*/ either(
      ['rail'],
      spread({ symbol: 'V_s', unit: 'V', above: 0, max: 30, meaning: 'its own supply' }),
      {
        otherwise: 'rail',
        meaning: 'supply of the sensor: the rail, or one of its own',
      },
    ),
    converter: converterField,
    current: /*#__PURE__*/ range({
      unit: 'A',
      min: -1e4,
      max: 1e4,
      meaning: 'currents in the on-window that must be read',
    }),
    errors: /*#__PURE__*/ list(part(errorFields(), { meaning: 'an allowed error' }), {
      least: 1,
      most: 12,
      meaning: 'allowed errors, each at a current; where the reading is a mean, at a mean current',
    }),
    resolution: /*#__PURE__*/ exactly({
      ...amperes,
      optional: true,
      meaning: 'smallest step and noise wanted; the smallest of the errors by default',
    }),
    peakCurrent: /*#__PURE__*/ exactly({
      ...amperes,
      symbol: 'I_pk',
      optional: true,
      meaning: 'largest current that has flowed before a reading, for hysteresis; the largest to be read by default',
    }),
    reading: /*#__PURE__*/ word(['on-window', 'averaged'], {
      otherwise: 'on-window',
      meaning: 'sampled while the load is on, or the mean that the filter makes of the period',
    }),
    pwm: /*#__PURE__*/ part(pwmFields(), {
      optional: true,
      meaning: 'PWM of the load; absent where the current is steady',
    }),
    wait: /*#__PURE__*/ exactly({
      symbol: 't_wait',
      unit: 's',
      above: 0,
      max: 10,
      optional: true,
      meaning: 'time from the edge to the sample; by default as long as settling takes',
    }),
    filter: /*#__PURE__*/ part(filterFields, { meaning: 'filter between sensor and converter' }),
    divider: /*#__PURE__*/ part(dividerFields, { optional: true, meaning: 'divider before the converter' }),
    surroundings: /*#__PURE__*/ part(surroundingsFields, { meaning: 'what surrounds the sensor' }),
    timing: /*#__PURE__*/ part(timingFields, { check: checkTiming, meaning: 'when and how often a reading is taken' }),
    calibration: /*#__PURE__*/ kinds(calibrations(), { otherwise: 'none', meaning: 'how the zero is found' }),
    power: /*#__PURE__*/ word(['squared reading', 'voltage times reading'], {
      optional: true,
      meaning: "how the load's power is computed from the reading; not checked by default",
    }),
    divideFrom: /*#__PURE__*/ exactly({
      ...amperes,
      optional: true,
      meaning: 'smallest current at which the firmware divides by the reading, as for a resistance',
    }),
    otherTasks: /*#__PURE__*/ list(part(taskFields(), { meaning: 'a task' }), {
      least: 0,
      most: 32,
      optional: true,
      meaning: 'what else the converter reads in a period, such as a resistance in the off-window',
    }),
    leastUse: /*#__PURE__*/ exactly({
      unit: '1',
      min: 0,
      max: 1,
      optional: true,
      meaning: "share of the sensor's span that the largest current must use at least; only advised by default",
    }),
    further: furtherErrors({
      voltage: "largest error at the sensor's output, at its rated supply",
      current: 'largest error of the current',
      share: 'largest error as a share of the current',
    }),
    trip: /*#__PURE__*/ part(tripFields(), {
      optional: true,
      check: checkTrip,
      meaning: 'over-current trip in firmware',
    }),
  })

/** What a measurement of current is made of. */
export const hallRecord = /*#__PURE__*/ choiceFields()

const conditionFields = () =>
  /*#__PURE__*/ record({
    rail: /*#__PURE__*/ range({
      unit: 'V',
      above: 0,
      max: 60,
      meaning: 'rail at the moment of the measurement, sagged by the load',
    }),
    ambientCelsius: /*#__PURE__*/ range({
      unit: 'degC',
      min: -55,
      max: 125,
      meaning: 'air around the board, inside the case',
    }),
    nominalRail: /*#__PURE__*/ exactly({
      unit: 'V',
      above: 0,
      max: 60,
      optional: true,
      meaning: 'rail that the firmware assumes where it needs one; the middle of the range by default',
    }),
  })

/** What must be covered while the measurement works. */
export const hallConditions = /*#__PURE__*/ conditionFields()

/** A measurement of current as its designer chose it. */
export interface HallChoice extends Given<typeof hallRecord> {}

/** What must be covered while the measurement works. */
export interface HallConditions extends Given<typeof hallConditions> {}
