import { exactly, InputError, part, type Read, type Spread, spread } from '@ohmward/quantity'
import { type ReadTransistor, resistanceOfCopper } from './transistor.js'

const fields = {
  junctionToAmbient: /*#__PURE__*/ spread({
    symbol: 'R_thJA',
    unit: 'K/W',
    above: 0,
    max: 1e4,
    optional: true,
    meaning: 'thermal resistance from junction to ambient on your board',
  }),
  copperSquareMillimetres: /*#__PURE__*/ exactly({
    unit: '1',
    above: 0,
    optional: true,
    meaning: "copper area in mm², from which the transistor's points give it",
  }),
  tolerance: /*#__PURE__*/ exactly({
    unit: '1',
    min: 0,
    below: 1,
    optional: true,
    meaning: 'tolerance of what the copper gives; 20 % by default',
  }),
  spreadingTime: /*#__PURE__*/ exactly({
    symbol: 't_th',
    unit: 's',
    min: 1e-3,
    max: 1e3,
    optional: true,
    meaning:
      'time in which the junction would reach its final temperature, rising with the square root of time: for pulses, where the transistor has no transient impedance; 0.3 s by default',
  }),
} as const

/** How far a thermal resistance may lie from what the copper gives, by default. */
export const copperTolerance = 0.2

/**
 * The same for pulses where no curve is given, s. Normalised curves of small parts lie between 0.3 and 2 s, those of large
 * ones later; common practice, no source.
 */
export const spreadingTime = 0.3

/** The cooling of a choice. */
export const thermalPart = /*#__PURE__*/ part(fields, {
  check: oneOfTwo,
  meaning: 'junction to ambient on your board, or the copper area',
})

/** What is known of the cooling of a board. */
interface Cooling {
  readonly junctionToAmbient: Spread
  /** Copper area from which that came, mm². */
  readonly copperArea: number | undefined
  readonly spreadingTime: number
}

/** The cooling of a board. @throws InputError without points for a copper area */
export function thermalOf(given: Read<typeof fields>, { copper }: ReadTransistor): Cooling {
  const { junctionToAmbient, copperSquareMillimetres, tolerance = copperTolerance } = given
  const { spreadingTime: time = spreadingTime } = given
  if (junctionToAmbient !== undefined) return { junctionToAmbient, copperArea: undefined, spreadingTime: time }
  if (copper === undefined) {
    const allowed = 'points of thermal resistance against copper area'
    throw new InputError({ field: 'transistor.copper', value: undefined, allowed })
  }
  const field = 'thermal.copperSquareMillimetres'
  const { area, resistance: nominal } = resistanceOfCopper(copper, copperSquareMillimetres, field)
  const distribution = tolerance === 0 ? ({ kind: 'exact' } as const) : ({ kind: 'rectangular' } as const)
  return {
    junctionToAmbient: { nominal, lower: nominal * (1 - tolerance), upper: nominal * (1 + tolerance), distribution },
    copperArea: area,
    spreadingTime: time,
  }
}

/** @throws InputError where it isn't one of the two, or a tolerance stands beside a resistance that has its own */
function oneOfTwo({ junctionToAmbient, copperSquareMillimetres, tolerance }: Read<typeof fields>, field: string): void {
  if ((junctionToAmbient === undefined) === (copperSquareMillimetres === undefined)) {
    const value = junctionToAmbient === undefined ? undefined : 'both'
    throw new InputError({ field, value, allowed: '{ junctionToAmbient } or { copperSquareMillimetres }' })
  }
  if (junctionToAmbient === undefined || tolerance === undefined) return
  const allowed = 'nothing with junctionToAmbient, which has its own'
  throw new InputError({ field: `${field}.tolerance`, value: tolerance, allowed })
}
