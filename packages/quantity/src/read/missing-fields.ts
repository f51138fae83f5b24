import { demand } from './demand.js'
import { InputError } from './error.js'
import { nearestName } from './nearest-name.js'

/**
 * Takes the fields of a part out of what was given, or says in one error everything that is wrong with them: which are
 * missing, and which nobody asked for (a slip of the pen would otherwise pass in silence). Only own keys count; a field
 * that holds `undefined` isn't there.
 *
 * @param object - what was given
 * @param names - fields that must be there
 * @param path - where the part is, in the caller's words: `amplifier`
 * @param optional - fields that may be there
 * @param inside - where else a name stands, as a path; nothing where it doesn't
 * @returns a new object with these fields alone
 * @throws InputError where it isn't an object, a field is missing or unknown
 */
export function missingFields<N extends string, O extends string = never>(
  object: unknown,
  names: readonly N[],
  path: string,
  optional: readonly O[] = [],
  inside: (name: string) => string | undefined = () => undefined,
): Record<N, unknown> & Partial<Record<O, unknown>> {
  const areTexts = (list: unknown) => Array.isArray(list) && list.every((one) => typeof one === 'string')
  demand(areTexts(names), { field: 'names', value: names, allowed: 'a list of texts' })
  demand(areTexts(optional), { field: 'optional', value: optional, allowed: 'a list of texts' })
  demand(typeof path === 'string', { field: 'path', value: path, allowed: 'a text' })
  demand(typeof inside === 'function', { field: 'inside', value: inside, allowed: 'a function' })
  const known: readonly string[] = [...names, ...optional]
  const allowed =
    `an object with ${names.join(', ') || 'no required field'}` +
    (optional.length ? `; optional: ${optional.join(', ')}` : '')
  if (typeof object !== 'object' || object === null || Array.isArray(object))
    throw new InputError({ field: path, value: object, allowed })
  const given = Object.entries(object).filter(([, value]) => value !== undefined)
  const here = new Set(given.map(([name]) => name))
  const missing = names.filter((name) => !here.has(name))
  const unknown = [...here].filter((name) => !known.includes(name))
  const hint = [
    missing.length && `Missing: ${missing.join(', ')}`,
    unknown.length && `Unknown: ${listed(unknown.map((name) => named(name, known, inside)))}`,
  ]
  if (missing.length + unknown.length > 0)
    throw new InputError({ field: path, value: object, allowed, hint: hint.filter(Boolean).join('. ') })
  return Object.fromEntries(given) as Record<N, unknown> & Partial<Record<O, unknown>>
}

/** The first names of a list, and how many more there are. */
function listed(names: readonly string[]): string {
  const more = names.length > 6 ? ` and ${names.length - 6} more` : ''
  return names.slice(0, 6).join(', ') + more
}

/** An unknown name, cut to a sensible length, with the nearest of those that exist. */
function named(name: string, known: readonly string[], inside: (name: string) => string | undefined): string {
  const nearest = inside(name) ?? nearestName(name, known)
  if (nearest !== undefined) return `${name} (did you mean ${nearest}?)`
  return name.length > 40 ? `${name.slice(0, 37)}...` : name
}
