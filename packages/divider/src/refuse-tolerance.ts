import { InputError, type Spread, type Unit } from '@ohmward/quantity'

/** Refuses a tolerance where one value is meant: it would mean nothing. @throws InputError */
export function refuseTolerance({ lower, upper, nominal }: Spread, field: string, unit: Unit): void {
  if (lower === upper) return
  const allowed = `one value: ${nominal} without a tolerance`
  throw new InputError({ field, value: `${lower} to ${upper}`, unit, allowed })
}
