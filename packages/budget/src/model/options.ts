import { demand, missingFields } from '@ohmward/quantity'

/** Options that all engines share. */
export const shared = ['row', 'fill', 'correlations', 'groups', 'level'] as const

/**
 * Options as they were given, none of which may be unknown: a slip of the pen would otherwise pass in silence.
 *
 * @param given - what the caller wrote
 * @param known - the names that there are
 * @param field - what these options are called, where it isn't `options`
 * @throws InputError for what is no object, and for a name that isn't known, with the nearest that is
 */
export function knownOptions<T extends object>(given: T, known: readonly string[], field = 'options'): T {
  if (!isKnown(given, known)) missingFields(given, [], field, known)
  return given
}

/** Whether it is an object of known names alone: nearly all are, and the list of what is wrong needn't be made. */
function isKnown(given: unknown, known: readonly string[]): boolean {
  if (typeof given !== 'object' || given === null || Array.isArray(given)) return false
  for (const name of Object.keys(given)) if (!known.includes(name)) return false
  return true
}

/** Throws unless it is a function. */
export function demandFunction(field: string, value: unknown, allowed: string): void {
  demand(typeof value === 'function', { field, value, allowed })
}

/** Throws unless it is left out or a whole number, `least` or more. */
export function demandCount(field: string, value: unknown, least = 1): void {
  const isCount = value === undefined || (Number.isInteger(value) && (value as number) >= least)
  demand(isCount, { field, value, allowed: `a whole number of ${least} or more` })
}

/** Throws unless it is a list. */
export function demandList(field: string, value: unknown): void {
  demand(Array.isArray(value), { field, value, allowed: 'a list' })
}

/**
 * What every engine is called with, before it begins.
 *
 * @throws InputError for inputs that are no object, a model that is no function, an option that doesn't exist
 */
export function checkCall(inputs: unknown, model: unknown, options: object, known: readonly string[]): void {
  const isRecord = typeof inputs === 'object' && inputs !== null && !Array.isArray(inputs)
  demand(isRecord, { field: 'inputs', value: inputs, allowed: 'an object of numbers and spreads, by name' })
  demandFunction('model', model, 'a function of the inputs that gives a number')
  const { row, fill, correlations, groups } = knownOptions(options, known) as Record<string, unknown>
  if (row !== undefined) demandFunction('row', row, 'a function of columns and an index')
  if (fill !== undefined) demandFunction('fill', fill, 'a function of columns, results and a number')
  if (correlations !== undefined) demandList('correlations', correlations)
  if (groups !== undefined) demandList('groups', groups)
}
