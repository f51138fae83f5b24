import { exactly, type Fields, type Given, InputError, joined, own, part, type Read } from '@ohmward/quantity'
import { type Element, elementSchema, readElement } from './law.js'

/** What a temperature reading needs beside the measurement. */
export const thermometryFields = {
  restCelsius: {
    symbol: 'T_0',
    unit: 'degC',
    min: -50,
    max: 200,
    otherwise: '25 degC ±2 K',
    meaning: 'temperature at which the cold value is stored, with its uncertainty',
  },
  restExcess: {
    symbol: 'T_e',
    unit: 'K',
    min: 0,
    max: 500,
    otherwise: 0,
    meaning: 'how much warmer than that the element may still be',
  },
  hotCelsius: /*#__PURE__*/ exactly({
    symbol: 'T_h',
    unit: 'degC',
    min: -200,
    max: 2000,
    meaning: 'temperature to be read',
  }),
  error: { symbol: 'E_T', unit: 'K', above: 0, max: 1000, meaning: 'largest error allowed' },
  elementTimeConstant: {
    symbol: 'tau_e',
    unit: 's',
    min: 0,
    max: 1000,
    otherwise: 0,
    meaning: 'thermal settling time of the element and the body that it heats',
  },
  waitAfterOff: {
    symbol: 't_off',
    unit: 's',
    min: 0,
    max: 1e4,
    otherwise: 0,
    meaning: 'time from switching the power off to the reading',
  },
  lawError: {
    symbol: 'E_law',
    unit: 'K',
    magnitude: true,
    max: 500,
    otherwise: 0,
    meaning: 'how far the element may be off its law, beyond the tolerance of its class, at rest and hot each',
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

const law = {
  element: /*#__PURE__*/ own<Element>()(readElement, {
    schema: elementSchema,
    meaning:
      '"platinum" (IEC 60751, class B, or { platinum: class }), "tungsten", points [°C, ratio] of a measured curve, or a linear coefficient',
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

/** An element has resistance left at rest and hot, within the range of its law. @throws InputError */
function resistanceLeft({ element, ...read }: ReadThermometry, field: string): void {
  const { inputs, ratio, from, to, source } = element
  const rest = read.restCelsius.nominal
  const { alpha, q_alpha } = inputs
  const least = (t: number) =>
    alpha && q_alpha
      ? Math.min(...[q_alpha.lower, q_alpha.upper].map((q) => ratio(t, rest, alpha.upper, q)))
      : ratio(t, rest, 0, 0)
  const at = { restCelsius: rest, hotCelsius: read.hotCelsius }
  for (const [word, t] of Object.entries(at)) {
    const isInside = t >= from && t <= to
    if (isInside && least(t) > 0) continue
    const allowed = isInside
      ? 'a temperature at which the resistance stays above 0 ohm'
      : `from ${from} to ${to} degC (${source})`
    throw new InputError({ field: `${field}.${word}`, value: t, unit: 'degC', allowed })
  }
}
