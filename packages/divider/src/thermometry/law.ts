import {
  exactly,
  format,
  type Input,
  InputError,
  missingFields,
  oneOf,
  readRecord,
  type Spread,
} from '@ohmward/quantity'
import { classTolerance, curvedRatio, indicatedRise, linearRatio } from '../formulas/index.js'
import { type Curve, type MeasuredCurve, platinumCurve, pointsCurve } from './curve.js'
import { tungstenCurve } from './tungsten.js'

/**
 * Tolerance classes of platinum resistors (IEC 60751), each over the range of wire-wound ones; film resistors keep theirs
 * over less. `calibrated`: the element was held against a thermometer, and what that leaves is `lawError`.
 */
const classes = {
  AA: { a_class: 0.1, b_class: 0.0017, from: -50, to: 250 },
  A: { a_class: 0.15, b_class: 0.002, from: -100, to: 450 },
  B: { a_class: 0.3, b_class: 0.005, from: -196, to: 600 },
  C: { a_class: 0.6, b_class: 0.01, from: -196, to: 600 },
  calibrated: { a_class: 0, b_class: 0, from: -200, to: 850 },
} as const

/**
 * Change of a metal's coefficient by its rise, relative and per kelvin: above that of platinum (IEC 60751), and of copper and
 * tungsten (from memory). By a handbook's table tungsten bends by 2.1e-4 from the 0.45 %/K at 20 °C that most tables give, by 2.7e-4
 * from 0.44 %/K, by 3.3e-4 from 0.433 %/K, the slope of that table itself: the safe side. Nickel and iron bend by more.
 */
const CURVATURE = 3.5e-4

/** Tolerance class of a platinum element. */
export type PlatinumClass = keyof typeof classes

/** The law of an element as its user writes it. */
export type Element =
  | 'platinum'
  | 'tungsten'
  | { readonly platinum: PlatinumClass }
  | readonly (readonly [celsius: number, ratio: number])[]
  | { readonly coefficient: Input; readonly curvature?: Input; readonly atCelsius?: number | string }

/** What is known of an element. */
export interface Law {
  /** In words, for the assumptions. */
  readonly text: string
  /** Range of the law in degrees Celsius, and where that is from. */
  readonly from: number
  readonly to: number
  readonly source: string
  /** How far an element may lie off the law at a temperature, in kelvin. */
  readonly tolerance: (celsius: number) => number
  /** Inputs that the law brings: coefficient and curvature. */
  readonly inputs: Readonly<Record<string, Spread>>
  /** Resistance at a temperature over that at `T_0`, with the inputs at values. */
  readonly ratio: (celsius: number, T_0: number, alpha: number, q_alpha: number) => number
  /** Temperature that the firmware takes from the ratio of two readings. */
  readonly celsius: (ratio: number, T_0: number) => number
}

const point = { type: 'array', prefixItems: [{ type: 'number' }, { type: 'number' }], items: false, minItems: 2 }
const value = { anyOf: [{ type: 'number' }, { type: 'string' }, { type: 'object' }] }
const objectOf = (properties: object, required: readonly string[]) => ({
  type: 'object',
  properties,
  required,
  additionalProperties: false,
})

/** The schema of an element. */
export const elementSchema = /*#__PURE__*/ (() => ({
  anyOf: [
    { enum: ['platinum', 'tungsten'] },
    objectOf({ platinum: { enum: Object.keys(classes) } }, ['platinum']),
    { type: 'array', items: point, minItems: 2 },
    objectOf({ coefficient: value, curvature: value, atCelsius: value }, ['coefficient']),
  ],
}))()

/** Reads the law of an element. @throws InputError */
export function readElement(element: unknown, field: string): Law {
  if (element === 'platinum') return platinumLaw('B')
  if (element === 'tungsten') return tungstenLaw
  if (Array.isArray(element)) return pointsLaw(pointsCurve(element, field))
  if (typeof element !== 'object' || element === null) {
    const allowed =
      '"platinum", "tungsten", { platinum: class }, points [°C, ratio], or { coefficient, curvature, atCelsius }'
    throw new InputError({ field, value: element, allowed })
  }
  if (Object.hasOwn(element, 'platinum')) {
    const given = missingFields(element, ['platinum'], field)
    return platinumLaw(oneOf(given.platinum, Object.keys(classes) as PlatinumClass[], `${field}.platinum`))
  }
  return linearLaw(element, field)
}

/** A law by a curve; the ratio at rest, asked for with every reading, is kept. */
function ofCurve(curve: Curve): Pick<Law, 'inputs' | 'ratio' | 'celsius'> {
  let [known, W_0] = [Number.NaN, Number.NaN]
  const atRest = (T_0: number) => {
    if (T_0 !== known) [known, W_0] = [T_0, curve.ratio(T_0)]
    return W_0
  }
  return {
    inputs: {},
    ratio: (celsius, T_0) => curve.ratio(celsius) / atRest(T_0),
    celsius: (ratio, T_0) => curve.celsius(ratio * atRest(T_0)),
  }
}

function platinumLaw(name: PlatinumClass): Law {
  const { a_class, b_class, from, to } = classes[name]
  const tolerance = (t_C: number) => classTolerance({ a_class, b_class, t_C })
  const text = name === 'calibrated' ? 'platinum by IEC 60751, calibrated' : `platinum by IEC 60751, class ${name}`
  const source = name === 'calibrated' ? 'IEC 60751' : `class ${name}, IEC 60751; the curve itself to 850 degC`
  return { text, from, to, source, tolerance, ...ofCurve(platinumCurve) }
}

const tungstenLaw: Law = /*#__PURE__*/ (() => ({
  text: 'tungsten, pure and annealed, by its table',
  from: -50,
  to: 1200,
  source: 'the table of tungsten',
  // Two handbooks differ by up to 3 % of the rise, the most about 300 °C.
  tolerance: (t_C: number) => classTolerance({ a_class: 1, b_class: 0.03, t_C }),
  ...ofCurve(tungstenCurve),
}))()

const pointsLaw = (curve: MeasuredCurve): Law => ({
  text: 'the element by its points',
  from: curve.from,
  to: curve.to,
  source: 'its points',
  tolerance: () => 0,
  ...ofCurve(curve),
})

const linearFields = {
  coefficient: {
    symbol: 'alpha',
    unit: '1/K',
    max: 0.1,
    meaning: 'temperature coefficient of the resistance at the temperature to which it is referred',
  },
  curvature: {
    symbol: 'q_alpha',
    unit: '1/K',
    magnitude: true,
    max: 0.01,
    otherwise: CURVATURE,
    meaning: 'by how much the coefficient over a rise may change for each kelvin of it, relative, either sign',
  },
  atCelsius: /*#__PURE__*/ exactly({
    unit: 'degC',
    min: -200,
    max: 1000,
    optional: true,
    meaning: 'temperature to which the coefficient is referred; restCelsius by default',
  }),
} as const

/** A straight line, which no metal keeps to: over the temperature its coefficient changes. */
function linearLaw(element: object, field: string): Law {
  const { coefficient, curvature, atCelsius } = readRecord({ fields: linearFields }, element, field, `${field}.`)
  if (coefficient.lower <= 0) {
    throw new InputError({
      field: `${field}.coefficient`,
      value: coefficient.lower,
      unit: '1/K',
      allowed: 'more than 0 1/K over its whole tolerance',
      hint: 'An alloy whose coefficient may be zero is no thermometer: use another sensor',
    })
  }
  const alpha_n = coefficient.nominal
  const most = format(curvature.upper, '1', { as: '%', digits: 2 })
  const at = atCelsius === undefined ? '' : ` at ${format(atCelsius, 'degC')}`
  return {
    text: `a straight line of ${format(alpha_n, '1/K')}${at}, whose coefficient changes by up to ${most} for each kelvin (platinum by 0.015 %; from memory copper and tungsten by 0.012 to 0.033 %, nickel by 0.12 %, iron by some 0.16 %: give points)`,
    from: -273.15,
    to: 3000,
    source: 'a straight line',
    tolerance: () => 0,
    inputs: { alpha: coefficient, q_alpha: curvature },
    ratio: (celsius, T_0, alpha, q_alpha) => {
      const T_r = atCelsius ?? T_0
      const at = (t: number) => curvedRatio({ alpha, q_alpha, T_rise: t - T_r })
      return T_r === T_0 ? at(celsius) : at(celsius) / at(T_0)
    },
    celsius: (W_ind, T_0) => {
      const T_r = atCelsius ?? T_0
      const W_0 = linearRatio({ alpha: alpha_n, T_rise: T_0 - T_r })
      return T_r + indicatedRise({ W_ind, W_0, alpha_n })
    },
  }
}
