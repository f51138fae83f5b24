import { type Given, InputError, kinds, type PartFields, type Spread } from '@ohmward/quantity'

/** When and on what the reading was calibrated. */
const conditions = {
  atCelsius: {
    symbol: 'T_c',
    unit: 'degC',
    min: -55,
    max: 125,
    otherwise: 25,
    meaning: 'temperature of the board then',
  },
  rail: {
    symbol: 'V_railc',
    unit: 'V',
    above: 0,
    max: 60,
    optional: true,
    meaning: 'rail then; the nominal rail by default',
  },
  short: { symbol: 'R_short', unit: 'ohm', min: 0, max: 1, otherwise: 0, meaning: 'what a shorted input really has' },
} as const

const span = {
  resistor: { symbol: 'R_cal', unit: 'ohm', above: 0, max: 100, meaning: 'the known resistor, as well as it is known' },
} as const satisfies PartFields

/**
 * How the reading is calibrated: not at all, by reading a short, or by reading a short and one known resistor.
 * A calibration is run through the chain with the same parts: what cancels, cancels; drift, noise and resolution stay.
 */
export const calibrationField = kinds(
  { none: {}, zero: conditions, 'zero and span': { ...span, ...conditions } },
  {
    otherwise: 'none',
    meaning: 'calibration with the same parts: none, of the zero by a short, or of zero and span by a known resistor',
    check: ({ kind, resistor, short }: { kind: string; resistor?: Spread; short?: Spread }, field) => {
      if (kind !== 'zero and span' || resistor!.lower > short!.upper) return
      const allowed = `more than the short, ${short!.upper} ohm, over its whole tolerance`
      throw new InputError({ field: `${field}.resistor`, value: resistor!.lower, unit: 'ohm', allowed })
    },
  },
)

/** A calibration as its user writes it. */
export type Calibration = NonNullable<Given<{ readonly calibration: typeof calibrationField }>['calibration']>

/** A calibration that was read. */
export interface ReadCalibration {
  readonly kind: 'none' | 'zero' | 'zero and span'
  readonly atCelsius: Spread | undefined
  readonly rail: Spread | undefined
  readonly short: Spread
  readonly resistor: Spread
}
