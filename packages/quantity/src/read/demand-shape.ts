import { demand } from './demand.js'
import { missingFields } from './missing-fields.js'

const isText = (value: unknown): boolean => typeof value === 'string'
const isObject = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** What a value may be held to be, by what an error says is allowed. */
const looks = {
  'a text': isText,
  'a list of texts': (value: unknown) => Array.isArray(value) && value.every(isText),
  'a finite number': (value: unknown) => Number.isFinite(value),
  'a finite number or a text': (value: unknown) => isText(value) || Number.isFinite(value),
  'true or false': (value: unknown) => typeof value === 'boolean',
  'a list': (value: unknown) => Array.isArray(value),
  'an object': isObject,
  'a function': (value: unknown) => typeof value === 'function',
  anything: () => true,
} as const

type Look = keyof typeof looks

/** What an object holds, by its keys; after a question mark what may be left out. */
export type Shape = Readonly<Record<string, Look | `?${Look}`>>

/** A shape made ready: what each key is held to, and those that must be there. */
interface Rules {
  readonly of: ReadonlyMap<string, Look>
  readonly required: ReadonlySet<string>
}

const ready = /*#__PURE__*/ new WeakMap<Shape, Rules>()

function rulesOf(shape: Shape): Rules {
  demand(isObject(shape), { field: 'shape', value: shape, allowed: 'an object' })
  const of = new Map<string, Look>()
  const required = new Set<string>()
  for (const [key, told] of Object.entries(shape)) {
    const isOptional = isText(told) && told.startsWith('?')
    const look = (isOptional ? told.slice(1) : told) as Look
    const isLook = isText(look) && Object.hasOwn(looks, look)
    demand(isLook, { field: `shape.${key}`, value: told, allowed: Object.keys(looks).join(', ') })
    of.set(key, look)
    if (!isOptional) required.add(key)
  }
  const rules = { of, required }
  ready.set(shape, rules)
  return rules
}

/**
 * Throws unless it is an object of this shape, without a key that the shape doesn't name.
 *
 * @param field - what the object is called
 * @throws InputError naming the missing and the unknown keys, with the nearest name of one that exists, or the first whose value
 *   isn't allowed
 */
export function demandShape(given: unknown, field: string, shape: Shape): void {
  demandText('field', field)
  const rules = ready.get(shape) ?? rulesOf(shape)
  if (!isOfShape(given, rules)) refuse(given, field, rules)
}

/** Whether it is: in one pass, for nearly all are, and each field of each module is asked as it is loaded. */
function isOfShape(given: unknown, { of, required }: Rules): boolean {
  if (!isObject(given)) return false
  const own = given as Readonly<Record<string, unknown>>
  let missing = required.size
  for (const key of Object.keys(own)) {
    const value = own[key]
    if (value === undefined) continue
    const look = of.get(key)
    if (look === undefined || !looks[look](value)) return false
    if (required.has(key)) missing--
  }
  return missing === 0
}

/** Says what is wrong with it. */
function refuse(given: unknown, field: string, { of, required }: Rules): void {
  missingFields(
    given,
    [...required],
    field,
    [...of.keys()].filter((key) => !required.has(key)),
  )
  for (const [key, value] of Object.entries(given as object)) {
    const look = of.get(key)
    if (look === undefined || value === undefined || looks[look](value)) continue
    demand(false, { field: `${field}.${key}`, value, allowed: look })
  }
}

/** Throws unless it is a text. @throws InputError */
export function demandText(field: string, value: unknown): void {
  demand(isText(value), { field, value, allowed: 'a text' })
}
