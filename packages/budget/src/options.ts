import { InputError, nearestName } from '@ohmward/quantity'

/** Options that all engines share. */
export const shared = ['row', 'fill', 'correlations', 'groups', 'level'] as const

/**
 * Options as they were given: an object without a name that isn't known, for a slip of the pen would pass in silence.
 *
 * @param given - what the caller wrote; `undefined` is no option at all
 * @param known - the names that there are
 * @param field - what these options are called, where it isn't `options`
 * @throws InputError for what is no object, and for a name that isn't known, with the nearest that is
 */
export function knownOptions<T extends object>(given: T, known: readonly string[], field = 'options'): T {
  if (typeof given !== 'object' || given === null || Array.isArray(given)) {
    throw new InputError({ field, value: given, allowed: `an object with ${known.join(', ')}` })
  }
  for (const name of Object.keys(given)) {
    if (known.includes(name)) continue
    const near = nearestName(name, known)
    throw new InputError({
      field: `${field}.${name.length > 60 ? `${name.slice(0, 57)}...` : name}`,
      value: (given as Record<string, unknown>)[name],
      allowed: `no such option, but ${known.join(', ')}`,
      ...(near !== undefined && { hint: `Is "${near}" meant?` }),
    })
  }
  return given
}

/** Throws unless it is a function. */
export function demandFunction(field: string, value: unknown, allowed: string): void {
  if (typeof value !== 'function') throw new InputError({ field, value, allowed })
}

/** Throws unless it is a list. */
export function demandList(field: string, value: unknown): void {
  if (!Array.isArray(value)) throw new InputError({ field, value, allowed: 'a list' })
}

/**
 * What every engine is called with, before it begins.
 *
 * @throws InputError for inputs that are no object, a model that is no function, an option that doesn't exist
 */
export function checkCall(inputs: unknown, model: unknown, options: object, known: readonly string[]): void {
  if (typeof inputs !== 'object' || inputs === null || Array.isArray(inputs)) {
    throw new InputError({ field: 'inputs', value: inputs, allowed: 'an object of numbers and spreads, by name' })
  }
  demandFunction('model', model, 'a function of the inputs that gives a number')
  const { row, fill, correlations, groups } = knownOptions(options, known) as Record<string, unknown>
  if (row !== undefined) demandFunction('row', row, 'a function of columns and an index')
  if (fill !== undefined) demandFunction('fill', fill, 'a function of columns, results and a number')
  if (correlations !== undefined) demandList('correlations', correlations)
  if (groups !== undefined) demandList('groups', groups)
}
