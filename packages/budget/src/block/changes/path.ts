import { demand } from '@ohmward/quantity'

/** Whether a value has fields of its own. */
const hasFields = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null

/** The value at a path such as `gainResistors.feedback` or `capacitors.0.count`; undefined where there is none. */
export function valueAt(from: unknown, path: string): unknown {
  let here = from
  for (const word of path.split('.')) {
    if (!hasFields(here) || !Object.hasOwn(here, word)) return undefined
    here = here[word]
  }
  return here
}

/** A copy with another value at a path; undefined takes the field away. What isn't on the path is shared. */
export function withValue(from: unknown, path: string, value: unknown): unknown {
  const [word = '', ...rest] = path.split('.')
  const own = hasFields(from) ? from : {}
  const next =
    rest.length === 0 ? value : withValue(Object.hasOwn(own, word) ? own[word] : undefined, rest.join('.'), value)
  if (Array.isArray(own)) return own.map((one, i) => (String(i) === word ? next : one))
  const copy = Object.fromEntries(Object.entries(own).filter(([name]) => name !== word || next !== undefined))
  return next === undefined ? copy : { ...copy, [word]: next }
}

const around = 'conditions.'

/** A choice and its conditions with what a change puts, as it is given: whoever reads it refuses what isn't allowed. @throws InputError for what is no object */
export function changed<C, D>(
  given: { readonly choice: C; readonly conditions: D },
  puts: Readonly<Record<string, unknown>>,
): { choice: C; conditions: D } {
  demand(hasFields(given), { field: 'given', value: given, allowed: 'a choice and its conditions' })
  demand(hasFields(puts), { field: 'puts', value: puts, allowed: 'values by path' })
  const { choice, conditions } = given
  let [c, d]: [unknown, unknown] = [choice, conditions]
  for (const [path, value] of Object.entries(puts)) {
    if (path.startsWith(around)) d = withValue(d, path.slice(around.length), value)
    else c = withValue(c, path, value)
  }
  return { choice: c as C, conditions: d as D }
}

/** What stands at a path of a choice or, after `conditions.`, of its conditions: as given, and as it was read. */
export function standing(
  { choice, conditions, read }: { choice: unknown; conditions: unknown; read: unknown },
  path: string,
): { given: unknown; read: unknown } {
  const isAround = path.startsWith(around)
  const own = isAround ? path.slice(around.length) : path
  return { given: valueAt(isAround ? conditions : choice, own), read: valueAt(read, own) }
}
