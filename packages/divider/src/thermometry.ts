import {
  type Given,
  type Input,
  InputError,
  missingFields,
  own,
  type PartFields,
  part,
  type Read,
  readSpread,
  type Spread,
  spread,
} from '@ohmward/quantity'
import { type Curve, platinumCurve, pointsCurve } from './curve.js'
import { refuseTolerance } from './refuse-tolerance.js'

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
  hotCelsius: { symbol: 'T_h', unit: 'degC', min: -200, max: 2000, meaning: 'temperature to be read' },
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
} as const satisfies PartFields

/** The law between resistance and temperature of an element. */
type Element = 'platinum' | readonly (readonly [celsius: number, ratio: number])[] | { readonly coefficient: Input }

/** The law, read; `coefficient` where it is a straight line. */
export interface Law {
  readonly element: unknown
  readonly curve: Curve | undefined
  readonly coefficient: Spread | undefined
}

const fields = {
  element: own<Element>()((given, field): Law => ({ element: given, ...readElement(given, field) }), {
    schema: {
      oneOf: [
        { const: 'platinum' },
        {
          type: 'array',
          items: { type: 'array', prefixItems: [{ type: 'number' }, { type: 'number' }], minItems: 2, maxItems: 2 },
          minItems: 2,
        },
        {
          type: 'object',
          properties: { coefficient: { anyOf: [{ type: 'number' }, { type: 'string' }, { type: 'object' }] } },
          required: ['coefficient'],
          additionalProperties: false,
        },
      ],
    },
    meaning:
      "'platinum' (IEC 60751), points [°C, ratio] of a measured curve, or a linear coefficient about the rest temperature",
  }),
  limitCelsius: spread({
    symbol: 'T_spotmax',
    unit: 'degC',
    max: 3000,
    optional: true,
    meaning: 'largest temperature that the hottest spot may have',
  }),
  hotSpotFactor: spread({
    symbol: 'k_spot',
    unit: '1',
    min: 1,
    max: 5,
    otherwise: 1.3,
    meaning: 'by how much the hottest spot may rise above the mean, as a factor',
  }),
} as const

/** A thermometry that was read. */
export interface ReadThermometry {
  readonly part: { [W in keyof typeof thermometryFields]: Spread }
  /** The law; undefined for a linear coefficient. */
  readonly curve: Curve | undefined
  readonly coefficient: Spread | undefined
  readonly limitCelsius: Spread | undefined
  readonly hotSpotFactor: Spread
}

const record = { ...fields, ...thermometryFields } as const

/** Temperature from the load's own resistance, by two readings through the same chain: at rest and hot. */
export type Thermometry = Given<typeof record>

/** A thermometry as a field of a choice. */
export const thermometryField = part(record, {
  optional: true,
  meaning: "temperature from the load's own resistance, by two readings: at rest and hot",
  as: ({ element: law, limitCelsius, hotSpotFactor, ...read }: Read<typeof record>): ReadThermometry => {
    refuseTolerance(read.hotCelsius, 'thermometry.hotCelsius', 'degC')
    for (const word of ['restCelsius', 'hotCelsius'] as const) {
      const t = read[word].nominal
      const ratio = law.curve ? law.curve.ratio(t) : 1 + law.coefficient!.upper * (t - read.restCelsius.nominal)
      const isPlatinum = law.element === 'platinum'
      if (ratio > 0 && !(isPlatinum && t > 850)) continue
      const allowed = isPlatinum ? 'at most 850 degC (IEC 60751)' : 'where the element has resistance left'
      throw new InputError({ field: `thermometry.${word}`, value: t, unit: 'degC', allowed })
    }
    return { part: read, curve: law.curve, coefficient: law.coefficient, limitCelsius, hotSpotFactor }
  },
})

function readElement(element: unknown, field: string): Pick<Law, 'curve' | 'coefficient'> {
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
