import { InputError, missingFields, readNumber } from '@ohmward/quantity'

/** An over-current trip in firmware: it acts when the reading reaches a level. Where the reading is a mean, so are its currents. */
export type Trip = (
  | { /** Level wanted, in amperes of the reading. */ readonly current: number | string; readonly code?: undefined }
  | {
      /** Level as a code of the converter, with the nominal zero. */ readonly code: number
      readonly current?: undefined
    }
) & {
  /** Largest current that normal use draws: it must never trip there. */
  readonly normal: number | string
  /** Smallest of what cell, switch and wiring stand: it must have tripped there. */
  readonly withstand: number | string
}

/** A trip that was read, in amperes or counts. */
export interface ReadTrip {
  readonly level: { readonly current: number } | { readonly code: number }
  readonly normal: number
  readonly withstand: number
}

/** Reads a trip. @throws InputError */
export function readTrip(given: unknown, bits: number): ReadTrip {
  const own = missingFields(given, ['normal', 'withstand'], 'trip', ['current', 'code'])
  if ((own.current === undefined) === (own.code === undefined)) {
    throw new InputError({ field: 'trip', value: given, allowed: 'either current or code' })
  }
  const amperes = (value: unknown, name: string, above = 0) =>
    readNumber(value, { field: `trip.${name}`, unit: 'A', above, max: 1e4 })
  const normal = amperes(own.normal, 'normal')
  const code = { field: 'trip.code', unit: 'LSB', integer: true, min: 0, max: 2 ** bits - 1 } as const
  return {
    level: own.code === undefined ? { current: amperes(own.current, 'current') } : { code: readNumber(own.code, code) },
    normal,
    withstand: amperes(own.withstand, 'withstand', normal),
  }
}
