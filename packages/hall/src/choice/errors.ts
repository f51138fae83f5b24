import { InputError, missingFields, readNumber } from '@ohmward/quantity'

/**
 * The errors wanted, in amperes at currents. A share is one of the current; at 0 A only amperes make sense.
 *
 * @throws InputError
 */
export function readErrors(
  given: unknown,
  { from, to }: { readonly from: number; readonly to: number },
): readonly { readonly at: number; readonly allowed: number }[] {
  if (!(Array.isArray(given) && given.length > 0 && given.length <= 12)) {
    throw new InputError({
      field: 'errors',
      value: given,
      allowed: 'a list of one to twelve errors, each at a current',
    })
  }
  // A list with a hole has nothing there.
  return Array.from(given, (one, i) => {
    const field = `errors[${i}]`
    const own = missingFields(one, ['at', 'allowed'], field)
    const current = { field: `${field}.at`, unit: 'A', min: Math.min(from, 0), max: Math.max(to, 0) } as const
    const at = readNumber(own.at, current)
    const share =
      typeof own.allowed === 'number' || (typeof own.allowed === 'string' && own.allowed.trim().endsWith('%'))
    if (!share)
      return { at, allowed: readNumber(own.allowed, { field: `${field}.allowed`, unit: 'A', above: 0, max: 1e4 }) }
    const part = readNumber(own.allowed, { field: `${field}.allowed`, unit: '1', above: 0, max: 1 })
    if (at === 0) {
      throw new InputError({ field: `${field}.allowed`, value: own.allowed, allowed: 'a current, at 0 A' })
    }
    return { at, allowed: part * Math.abs(at) }
  })
}
