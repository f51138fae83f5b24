import { exact, type Input, InputError, missingFields, readSpread, type Spread } from '@ohmward/quantity'

/** When and on what the reading was calibrated. All fields have usual values. */
interface CalibrationConditions {
  /** Temperature of the board then; 25 °C unless told. */
  readonly atCelsius?: Input
  /** Rail then; the nominal rail unless told. */
  readonly rail?: Input
  /** What a shorted input really has; 0 ohm unless told. */
  readonly short?: Input
}

/**
 * How the reading is calibrated: not at all, by reading a short, or by reading a short and one known resistor.
 * A calibration is run through the chain with the same parts: what cancels, cancels; drift, noise and resolution stay.
 */
export type Calibration =
  | 'none'
  | ({ readonly kind: 'zero' } & CalibrationConditions)
  | ({ readonly kind: 'zero and span'; readonly resistor: Input } & CalibrationConditions)

/** A calibration that was read. */
export interface ReadCalibration {
  readonly kind: 'none' | 'zero' | 'zero and span'
  readonly atCelsius: Spread | undefined
  readonly rail: Spread | undefined
  readonly short: Spread
  readonly resistor: Spread
}

/** Reads a calibration. @throws InputError */
export function readCalibration(given: unknown): ReadCalibration {
  const { kind, ...own } = given === undefined || given === 'none' ? { kind: 'none' } : fields(given)
  const spread = (input: unknown, name: string, unit: 'ohm' | 'V' | 'degC', limits: object) =>
    input === undefined ? undefined : readSpread(input, { field: `calibration.${name}`, unit, ...limits })
  const short = spread(own['short'], 'short', 'ohm', { min: 0, max: 1 }) ?? exact(0)
  const resistor = spread(own['resistor'], 'resistor', 'ohm', { above: 0, max: 100 }) ?? exact(1)
  if (kind === 'zero and span' && resistor.lower <= short.upper) {
    const allowed = `more than the short, ${short.upper} ohm, over its whole tolerance`
    throw new InputError({ field: 'calibration.resistor', value: resistor.lower, unit: 'ohm', allowed })
  }
  return {
    kind: kind as ReadCalibration['kind'],
    atCelsius: spread(own['atCelsius'], 'atCelsius', 'degC', { min: -55, max: 125 }),
    rail: spread(own['rail'], 'rail', 'V', { above: 0, max: 60 }),
    short,
    resistor,
  }
}

function fields(given: unknown): Record<string, unknown> {
  const kind = (given as { kind?: unknown } | null)?.kind
  if (kind !== 'zero' && kind !== 'zero and span') {
    throw new InputError({
      field: 'calibration.kind',
      value: kind ?? given,
      allowed: '"none", "zero" or "zero and span"',
    })
  }
  const required = kind === 'zero' ? ['kind'] : ['kind', 'resistor']
  return missingFields(given, required, 'calibration', ['atCelsius', 'rail', 'short'])
}
