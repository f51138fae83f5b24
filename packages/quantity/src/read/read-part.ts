import { demandFields } from '../record/valid.js'
import { readSpread } from '../spread/read-spread.js'
import type { Spread } from '../spread/spread.js'
import { demand } from './demand.js'
import { type FieldSpec, refusal } from './field.js'
import { missingFields } from './missing-fields.js'
import type { PartFields } from './part-field.js'

/**
 * Reads a part: every field as a spread, by its word.
 *
 * @param given - what the user wrote
 * @param fields - what the part has
 * @param path - where the part is, in the caller's words: `amplifier`
 * @throws InputError that names all missing and unknown fields at once, or the first field whose value isn't allowed
 */
export function readPart<const F extends PartFields>(
  given: unknown,
  fields: F,
  path: string,
): { [W in keyof F]: Spread } {
  demandFields(fields)
  demand(typeof path === 'string', { field: 'path', value: path, allowed: 'a text' })
  const words = Object.keys(fields)
  const optional = words.filter((word) => fields[word]!.otherwise !== undefined)
  const own = missingFields(
    given,
    words.filter((word) => !optional.includes(word)),
    path,
    optional,
  ) as Record<string, unknown>
  const read = {} as Record<string, Spread>
  for (const word of words) {
    const { symbol: _, meaning: __, magnitude, otherwise, ...limits } = fields[word]!
    const spec = { ...limits, field: path ? `${path}.${word}` : word }
    const spread = readSpread(Object.hasOwn(own, word) ? own[word] : otherwise, spec)
    read[word] = magnitude ? sized(spread, spec) : spread
  }
  return read as { [W in keyof F]: Spread }
}

/**
 * A field of a size without a sign, read: a bare number is about zero, and no sign takes it past the field's largest. A size
 * with limits, none of them below zero, is about zero too, as large as it may be: limits make no sign known. One that
 * is written with a minus, or reaches over zero, is a value with its sign.
 *
 * @throws InputError naming the field
 */
export function sized(spread: Spread, spec: FieldSpec): Spread {
  const most = Math.max(Math.abs(spread.lower), Math.abs(spread.upper))
  const { max = Infinity, below = Infinity } = spec
  if (most > max || most >= below) {
    throw refusal(spec, spread.nominal, `It is a magnitude: neither ${spread.lower} nor ${spread.upper} may exceed it`)
  }
  if (spread.distribution.kind === 'exact') return around(spread.nominal)
  return spread.lower >= 0 ? around(spread.upper) : spread
}

/** A size without a sign as a spread about zero. */
function around(size: number): Spread {
  const half = Math.abs(size)
  if (half === 0) return { nominal: 0, lower: 0, upper: 0, distribution: { kind: 'exact' } }
  return { nominal: 0, lower: -half, upper: half, distribution: { kind: 'rectangular' } }
}
