import { exactly, type Given, InputError, kinds, own } from '@ohmward/quantity'
import { absoluteZero, type FactorPoint, type LawText, referenceCelsius } from '../junction/law.js'
import { readPoints } from './points.js'

/** Coldest junction for which a law must make sense, °C. */
const coldest = -55

const reference = /*#__PURE__*/ exactly({
  symbol: 'T_ref',
  unit: 'degC',
  min: 0,
  max: 60,
  otherwise: referenceCelsius,
  meaning: 'temperature at which the on-resistance is stated',
})

const factorFields = /*#__PURE__*/ (() =>
  ({
    celsius: exactly({ unit: 'degC', min: absoluteZero, max: 500, meaning: 'junction' }),
    factor: exactly({ unit: '1', above: 0, max: 100, meaning: 'resistance, relative to that at the reference' }),
  }) as const)()

/** How the on-resistance of a transistor goes with temperature, by its kind. */
export const lawField = /*#__PURE__*/ kinds(
  /*#__PURE__*/ (() =>
    ({
      linear: {
        perKelvin: exactly({ symbol: 'a_R', unit: '1/K', min: 0, max: 0.1, meaning: 'rise for each kelvin: 0.45 %/K' }),
        referenceCelsius: reference,
      },
      power: {
        exponent: exactly({
          symbol: 'm_R',
          unit: '1',
          min: 1,
          max: 5,
          meaning: 'exponent of the absolute temperature: 2.3',
        }),
        referenceCelsius: reference,
      },
      points: {
        points: own<string | readonly { readonly celsius: number | string; readonly factor: number | string }[]>()(
          (given, field) => readPoints(given, field, factorFields, 'rising', 2),
          {
            schema: { type: ['array', 'string'] },
            meaning: 'points of the normalised curve: 25 degC: 1; 125 degC: 1.42',
          },
        ),
      },
    }) as const)(),
  {
    check: staysAboveZero,
    meaning: 'on-resistance against temperature: a straight line, a power, or points of a curve',
  },
)

/** A temperature law as its user writes it: texts where a number stands, points as one text or as a list. */
export type LawInput = Exclude<Given<{ of: typeof lawField }>['of'], string>

/** @throws InputError where a law makes a resistance of 0 or less from -55 °C up */
function staysAboveZero(law: LawText, field: string, given: unknown): void {
  if (law.kind === 'linear') {
    const factor = 1 + law.perKelvin * (coldest - (law.referenceCelsius ?? referenceCelsius))
    positive(factor, `${field}.perKelvin`, law.perKelvin)
  }
  if (law.kind === 'points') positive(coldFactor(law.points), `${field}.points`, given)
}

/** Factor at the coldest junction: the first segment is carried on. */
function coldFactor([a, b]: readonly FactorPoint[]): number {
  const slope = (b!.factor - a!.factor) / (b!.celsius - a!.celsius)
  return a!.factor + slope * (Math.min(coldest, a!.celsius) - a!.celsius)
}

function positive(factor: number, field: string, value: unknown): void {
  if (factor > 0) return
  const allowed = `a law whose factor stays above 0 down to ${coldest} °C`
  throw new InputError({ field, value, allowed, hint: `There it is ${factor}` })
}
