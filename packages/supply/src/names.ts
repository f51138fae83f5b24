import { missingFields } from '@ohmward/quantity'

/**
 * Refuses what is no object, and a name in it that nobody asked for: with a slip of the pen in `age`, cells would be taken
 * for new. Cheap where all is well, as it is in a walk.
 *
 * @throws InputError with the nearest name that there is
 */
export function demandNames(
  given: object,
  field: string,
  required: readonly string[],
  optional: readonly string[] = [],
) {
  const isObject = typeof given === 'object' && given !== null && !Array.isArray(given)
  if (isObject && Object.keys(given).every((name) => required.includes(name) || optional.includes(name))) return
  missingFields(given, required, field, optional)
}
