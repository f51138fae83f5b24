import { exactly, InputError, name, own, range, readNumber, type Spread, spread, word } from '@ohmward/quantity'

/** The largest error allowed: a share of the reading (`'5 %'`) or a current (`'0.2 A'`). A bare number could be either: 0.27 A is no 27 %. */
function readAllowed(given: unknown, field: string): { readonly share: number } | { readonly amperes: number } {
  if (typeof given !== 'string' || +given >= 0)
    throw new InputError({
      field,
      value: given,
      allowed: 'a share of the reading, such as "5 %", or a current, such as "0.2 A"',
    })
  return given.trim().endsWith('%')
    ? { share: readNumber(given, { field, unit: '1', above: 0, max: 1 }) }
    : { amperes: readNumber(given, { field, unit: 'A', above: 0, max: 1e4 }) }
}

const amperes = { unit: 'A', above: 0, max: 1e4 } as const
const seconds = { unit: 's', min: 0, max: 10 } as const

// Made in functions, so that a bundler drops what isn't used.

/** An error wanted at a current. */
export const errorFields = () => {
  return {
    at: /*#__PURE__*/ exactly({ unit: 'A', min: -1e4, max: 1e4, meaning: 'current at which the error is specified' }),
    allowed: own<string>()(readAllowed, {
      schema: { type: 'string' },
      meaning: 'largest error: a share of the reading, such as 5 %, or a current, such as 0.2 A',
    }),
  } as const
}

/** PWM of the load. */
export const pwmFields = () => {
  return {
    frequency: /*#__PURE__*/ exactly({ symbol: 'f_PWM', unit: 'Hz', min: 1e-3, max: 1e6, meaning: 'frequency' }),
    duty: /*#__PURE__*/ range({ unit: '1', min: 1e-6, max: 1, meaning: 'duties to cover' }),
  } as const
}

/** What else the converter reads in a period. */
export const taskFields = () => {
  return {
    name: /*#__PURE__*/ name({ meaning: 'its name' }, 100),
    window: /*#__PURE__*/ word(['on', 'off'], { meaning: 'while the power switch is on or off' }),
    starts: /*#__PURE__*/ word(['edge', 'turn'], {
      otherwise: 'edge',
      meaning: "what starts recovery and settling: the window's edge, or the task's own turn",
    }),
    recovery: /*#__PURE__*/ exactly({
      ...seconds,
      meaning: 'longest recovery from then on, until the output follows its input',
    }),
    settling: /*#__PURE__*/ exactly({ ...seconds, meaning: 'longest settling after that' }),
    acquisition: /*#__PURE__*/ exactly({ ...seconds, meaning: 'longest sampling time' }),
    conversion: /*#__PURE__*/ exactly({ ...seconds, meaning: 'longest conversion time' }),
    samples: /*#__PURE__*/ exactly({
      unit: '1',
      integer: true,
      min: 1,
      max: 65536,
      otherwise: 1,
      meaning: 'samples in a window',
    }),
  } as const
}

/**
 * How the zero is found.
 *
 * - `none`: the firmware uses the nominal zero.
 * - `zero`: one reading with the load off, at stated conditions, such as at power-up. Its static part cancels; drift,
 *   what a moved rail does, hysteresis and a turned field stay.
 * - `zero each time`: a reading with the load off just before each use, at the same temperature, with the same remanence
 *   and field; at the same rail and supply, too, unless they are given: where the load sags them, the zero is read at higher ones. Sensor
 *   and filter must settle while the load is off: what they still hold of its current is read as zero.
 *
 * A calibration is run through the chain with the same parts: what cancels, cancels.
 */
export function calibrations() {
  const residual = /*#__PURE__*/ spread({
    symbol: 'I_rest',
    unit: 'A',
    min: -100,
    max: 100,
    otherwise: 0,
    meaning: 'current that flows although the load is off',
  })
  const zeroSamples = /*#__PURE__*/ exactly({
    unit: '1',
    integer: true,
    min: 1,
    max: 65536,
    otherwise: 16,
    meaning: 'conversions averaged for the zero',
  })
  const zeroRail = { symbol: 'V_railc', unit: 'V', above: 0, max: 60, optional: true } as const
  const supply = /*#__PURE__*/ spread({
    symbol: 'V_sc',
    unit: 'V',
    above: 0,
    max: 30,
    optional: true,
    meaning: 'supply of the sensor while its zero is read, where that is not the rail; as for the reading by default',
  })
  return {
    none: {},
    zero: {
      atCelsius: /*#__PURE__*/ spread({
        symbol: 'T_c',
        unit: 'degC',
        min: -55,
        max: 125,
        otherwise: 25,
        meaning: 'temperature of the zero reading',
      }),
      rail: /*#__PURE__*/ spread({
        ...zeroRail,
        meaning: 'rail of the zero reading; the middle of the range by default',
      }),
      supply,
      residual,
      samples: zeroSamples,
    },
    'zero each time': {
      rail: /*#__PURE__*/ spread({ ...zeroRail, meaning: 'rail with the load off; as for the reading by default' }),
      supply,
      offTime: /*#__PURE__*/ exactly({
        symbol: 't_off',
        unit: 's',
        above: 0,
        max: 1e3,
        optional: true,
        meaning: 'time for which the load is held off for the zero; the shortest off-time of the PWM by default',
      }),
      residual,
      samples: zeroSamples,
    },
  } as const
}

/** An over-current trip in firmware: it acts when the reading reaches a level. Where the reading is a mean, so are its currents. */
export const tripFields = () => {
  return {
    current: /*#__PURE__*/ exactly({
      ...amperes,
      symbol: 'I_set',
      optional: true,
      meaning: 'trip level, in amperes of the reading',
    }),
    code: /*#__PURE__*/ exactly({
      symbol: 'code_trip',
      unit: 'LSB',
      integer: true,
      min: 0,
      max: 2 ** 32 - 1,
      optional: true,
      meaning: 'trip level as a code of the converter, with the nominal zero, instead of a current',
    }),
    normal: /*#__PURE__*/ exactly({
      ...amperes,
      meaning: 'largest current in normal use, a mean where the reading is one: it must never trip there',
    }),
    withstand: /*#__PURE__*/ exactly({
      ...amperes,
      meaning:
        'smallest current that cell, switch and wiring withstand, a mean where the reading is one: it must have tripped by then',
    }),
  } as const
}

/** What is checked of a trip and of the timing together. */
interface TripFields {
  readonly current?: number | undefined
  readonly code?: number | undefined
  readonly normal: number
  readonly withstand: number
}
type TimingFields = Readonly<Record<'samples' | 'samplesPerWindow', Spread>>

/** Either a current or a code, and room between what is drawn and what is withstood. */
export function checkTrip({ current, code, normal, withstand }: TripFields, field: string): void {
  if ((current === undefined) === (code === undefined)) {
    throw new InputError({ field, value: { current, code }, allowed: 'either current or code' })
  }
  if (!(withstand > normal)) {
    const allowed = `more than normal, ${normal} A`
    throw new InputError({ field: `${field}.withstand`, value: withstand, unit: 'A', allowed })
  }
}

/** A reading takes whole windows. */
export function checkTiming({ samples, samplesPerWindow }: TimingFields, field: string): void {
  if (samples.nominal % samplesPerWindow.nominal === 0) return
  throw new InputError({
    field: `${field}.samplesPerWindow`,
    value: samplesPerWindow.nominal,
    allowed: `a divisor of samples, ${samples.nominal}`,
  })
}
