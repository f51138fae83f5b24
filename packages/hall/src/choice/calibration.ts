import { exact, type Input, InputError, missingFields, readNumber, readSpread, type Spread } from '@ohmward/quantity'

/**
 * How the zero is found.
 *
 * - `none`: the firmware uses the nominal zero.
 * - `zero`: one reading with the load off, at stated conditions, such as at power-up. Its static part cancels; drift,
 *   what a moved rail does, hysteresis and a turned field stay.
 * - `zero each time`: a reading with the load off just before each use, at the same temperature, with the same remanence
 *   and field; at the same rail, too, unless one is told: where the load sags it, the zero is read at a higher one.
 *
 * A calibration is run through the chain with the same parts: what cancels, cancels.
 */
export type Calibration =
  | 'none'
  | {
      readonly kind: 'zero'
      /** Temperature then; 25 °C unless told. */
      readonly atCelsius?: Input
      /** Rail then; the middle of the range unless told. */
      readonly rail?: Input
      /** Current that flows although the load is off; 0 A unless told. */
      readonly residual?: Input
      /** Conversions averaged to the zero; 16 unless told. */
      readonly samples?: number | string
    }
  | {
      readonly kind: 'zero each time'
      /** Rail with the load off; the one of the reading unless told. */
      readonly rail?: Input
      readonly residual?: Input
      readonly samples?: number | string
    }

/** A calibration that was read. */
export interface ReadCalibration {
  readonly kind: 'none' | 'zero' | 'zero each time'
  readonly atCelsius: Spread | undefined
  readonly rail: Spread | undefined
  readonly residual: Spread
  readonly samples: number
}

/** Reads a calibration. @throws InputError */
export function readCalibration(given: unknown): ReadCalibration {
  if (given === undefined || given === 'none') {
    return { kind: 'none', atCelsius: undefined, rail: undefined, residual: exact(0), samples: 1 }
  }
  const kind = (given as { kind?: unknown } | null)?.kind
  if (kind !== 'zero' && kind !== 'zero each time') {
    throw new InputError({
      field: 'calibration.kind',
      value: kind ?? given,
      allowed: '"none", "zero" or "zero each time"',
    })
  }
  const optional =
    kind === 'zero'
      ? (['residual', 'samples', 'rail', 'atCelsius'] as const)
      : (['residual', 'samples', 'rail'] as const)
  const own: Record<string, unknown> = missingFields(given, ['kind'], 'calibration', optional)
  const { atCelsius, rail, residual, samples = 16 } = own
  return {
    kind,
    atCelsius:
      atCelsius === undefined
        ? undefined
        : readSpread(atCelsius, { field: 'calibration.atCelsius', unit: 'degC', min: -55, max: 125 }),
    rail:
      rail === undefined ? undefined : readSpread(rail, { field: 'calibration.rail', unit: 'V', above: 0, max: 60 }),
    residual:
      residual === undefined
        ? exact(0)
        : readSpread(residual, { field: 'calibration.residual', unit: 'A', min: -100, max: 100 }),
    samples: readNumber(samples, { field: 'calibration.samples', unit: '1', integer: true, min: 1, max: 65536 }),
  }
}
