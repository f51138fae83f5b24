import {
  exactly,
  type Fields,
  type Given,
  type Input,
  InputError,
  joined,
  missingFields,
  own,
  part,
  type Read,
  readSpread,
  type Spread,
} from '@ohmward/quantity'
import { type Curve, platinumCurve, pointsCurve } from './curve.js'

/** What a temperature reading needs beside the measurement. */
export const thermometryFields = {
  restCelsius: {
    symbol: 'T_0',
    unit: 'degC',
    min: -50,
    max: 200,
    otherwise: '25 degC ±2 K',
    meaning: 'temperature at which the cold value is stored, as well as it is known',
  },
  restExcess: {
    symbol: 'T_e',
    unit: 'K',
    min: 0,
    max: 500,
    otherwise: 0,
    meaning: 'by how much the element may still be warmer than that',
  },
  hotCelsius: /*#__PURE__*/ exactly({
    symbol: 'T_h',
    unit: 'degC',
    min: -200,
    max: 2000,
    meaning: 'temperature to be read',
  }),
  error: { symbol: 'E_T', unit: 'K', above: 0, max: 1000, meaning: 'largest error wanted' },
  elementTimeConstant: {
    symbol: 'tau_e',
    unit: 's',
    min: 0,
    max: 1000,
    otherwise: 0,
    meaning: 'time in which the element and the body that it heats become equal',
  },
  waitAfterOff: {
    symbol: 't_off',
    unit: 's',
    min: 0,
    max: 1e4,
    otherwise: 0,
    meaning: 'time from switching the power off to the reading',
  },
  limitCelsius: {
    symbol: 'T_max',
    unit: 'degC',
    max: 3000,
    optional: true,
    meaning: 'largest temperature that the hottest spot may have',
  },
  hotSpotFactor: {
    symbol: 'F_hs',
    unit: '1',
    min: 1,
    max: 5,
    otherwise: 1.3,
    meaning: 'by how much the hottest spot may rise above the mean, as a factor',
  },
} as const satisfies Fields

/** The law of an element as its user writes it. */
export type Element =
  | 'platinum'
  | readonly (readonly [celsius: number, ratio: number])[]
  | { readonly coefficient: Input }

const point = { type: 'array', prefixItems: [{ type: 'number' }, { type: 'number' }], items: false, minItems: 2 }
const elementSchema = {
  anyOf: [
    { const: 'platinum' },
    { type: 'array', items: point, minItems: 2 },
    {
      type: 'object',
      properties: { coefficient: { anyOf: [{ type: 'number' }, { type: 'string' }, { type: 'object' }] } },
      required: ['coefficient'],
      additionalProperties: false,
    },
  ],
}

const law = {
  element: /*#__PURE__*/ own<Element>()(readElement, {
    schema: elementSchema,
    meaning:
      '"platinum" (IEC 60751), points [°C, ratio] of a measured curve, or a linear coefficient about the rest temperature',
  }),
} as const

const whole = /*#__PURE__*/ joined(law, thermometryFields)

/** Temperature from the load's own resistance, by two readings through the same chain: at rest and hot. */
export const thermometry = /*#__PURE__*/ part(whole, {
  optional: true,
  check: resistanceLeft,
  meaning: "temperature from the load's own resistance",
})

/** A thermometry as its user writes it. */
export interface Thermometry extends Given<typeof whole> {}

/** A thermometry that was read. */
export interface ReadThermometry extends Read<typeof whole> {}

/** What is known of an element: a curve, or a coefficient. */
export interface Law {
  /** Undefined for a linear coefficient. */
  readonly curve: Curve | undefined
  readonly coefficient: Spread | undefined
}

/** An element has resistance left at rest and hot, within the range of its law. @throws InputError */
function resistanceLeft({ element: { curve, coefficient }, ...read }: ReadThermometry, field: string): void {
  const rest = read.restCelsius.nominal
  const at = { restCelsius: rest, hotCelsius: read.hotCelsius }
  for (const [word, t] of Object.entries(at)) {
    const ratio = curve ? curve.ratio(t) : 1 + coefficient!.upper * (t - rest)
    if (ratio > 0 && !(curve?.highest !== undefined && t > curve.highest)) continue
    const allowed =
      curve?.highest !== undefined
        ? `at most ${curve.highest} degC (IEC 60751)`
        : 'where the element has resistance left'
    throw new InputError({ field: `${field}.${word}`, value: t, unit: 'degC', allowed })
  }
}

function readElement(element: unknown, field: string): Law {
  if (element === 'platinum') return { curve: platinumCurve, coefficient: undefined }
  if (Array.isArray(element)) return { curve: pointsCurve(element, field), coefficient: undefined }
  if (typeof element !== 'object' || element === null) {
    throw new InputError({ field, value: element, allowed: '"platinum", points [°C, ratio], or { coefficient }' })
  }
  const { coefficient: given } = missingFields(element, ['coefficient'], field)
  const coefficient = readSpread(given, { field: `${field}.coefficient`, unit: '1/K', max: 0.1 })
  if (coefficient.lower <= 0) {
    throw new InputError({
      field: `${field}.coefficient`,
      value: coefficient.lower,
      unit: '1/K',
      allowed: 'more than 0 1/K over its whole tolerance',
      hint: 'A resistance alloy whose coefficient may be zero tells no temperature: use another sensor',
    })
  }
  return { curve: undefined, coefficient }
}
