import {
  type Input,
  InputError,
  missingFields,
  type PartFields,
  type PartInput,
  readPart,
  readSpread,
  type Spread,
} from '@ohmward/quantity'
import { type Curve, platinumCurve, pointsCurve } from './curve.js'
import { exactly } from './exactly.js'

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

/** Temperature from the load's own resistance, by two readings through the same chain: at rest and hot. */
export type Thermometry = PartInput<typeof thermometryFields> & {
  /** `'platinum'` (IEC 60751), points [°C, ratio] of a measured curve, or a linear coefficient about the rest temperature. */
  readonly element:
    | 'platinum'
    | readonly (readonly [celsius: number, ratio: number])[]
    | { readonly coefficient: Input }
  /** Largest temperature that the hottest spot may have, °C. */
  readonly limitCelsius?: Input
  /** By how much the hottest spot may rise above the mean, as a factor; 1.3 unless told. */
  readonly hotSpotFactor?: Input
}

/** A thermometry that was read. */
export interface ReadThermometry {
  readonly part: { [W in keyof typeof thermometryFields]: Spread }
  /** The law; undefined for a linear coefficient. */
  readonly curve: Curve | undefined
  readonly coefficient: Spread | undefined
  readonly limitCelsius: Spread | undefined
  readonly hotSpotFactor: Spread
}

/** Reads a thermometry. @throws InputError */
export function readThermometry(given: unknown): ReadThermometry {
  const words = Object.keys(thermometryFields)
  const own = missingFields(given, ['element', 'hotCelsius', 'error'], 'thermometry', [
    'limitCelsius',
    'hotSpotFactor',
    ...words,
  ])
  const { element, limitCelsius, hotSpotFactor, ...rest } = own as Record<string, unknown>
  const spread = (input: unknown, name: string, unit: 'degC' | '1', limits: object) =>
    readSpread(input, { field: `thermometry.${name}`, unit, ...limits })
  const part = readPart(rest, thermometryFields, 'thermometry')
  exactly(part.hotCelsius, 'thermometry.hotCelsius', 'degC')
  const law = readElement(element)
  for (const word of ['restCelsius', 'hotCelsius'] as const) {
    const t = part[word].nominal
    const ratio = law.curve ? law.curve.ratio(t) : 1 + law.coefficient!.upper * (t - part.restCelsius.nominal)
    if (ratio > 0 && !(element === 'platinum' && t > 850)) continue
    const allowed = element === 'platinum' ? 'at most 850 degC (IEC 60751)' : 'where the element has resistance left'
    throw new InputError({ field: `thermometry.${word}`, value: t, unit: 'degC', allowed })
  }
  return {
    part,
    ...law,
    limitCelsius: limitCelsius === undefined ? undefined : spread(limitCelsius, 'limitCelsius', 'degC', { max: 3000 }),
    hotSpotFactor: spread(hotSpotFactor ?? 1.3, 'hotSpotFactor', '1', { min: 1, max: 5 }),
  }
}

function readElement(element: unknown): Pick<ReadThermometry, 'curve' | 'coefficient'> {
  const field = 'thermometry.element'
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
