import { exactly, type Given, InputError, type NumberField, readRecord, spread } from '@ohmward/quantity'
import type { OnResistancePoint } from './table.js'
import { tableOf } from './table-text.js'

/** What stands in a column of points: always there. */
type Column = NumberField & { readonly optional?: never }

/**
 * Reads a list of points: the first key ascends strictly, the second rises or falls, or stays.
 *
 * @throws InputError naming the point and field, where it is no list, is empty, or out of order
 */
export function readPoints<const K extends string>(
  given: unknown,
  field: string,
  fields: Readonly<Record<K, Column>>,
  order: 'rising' | 'falling' | 'any',
  fewest = 1,
): Readonly<Record<K, number>>[] {
  const keys = Object.keys(fields) as K[]
  const list = tableOf(given, field, keys as unknown as [string, string])
  if (!Array.isArray(list) || list.length < fewest) {
    throw new InputError({ field, value: given, allowed: `a list of ${fewest} point${fewest > 1 ? 's' : ''} or more` })
  }
  const place = placeIn(given, field)
  const points = Array.from(list, (point: unknown, i) => {
    const own = readRecord<Readonly<Record<string, Column>>>({ fields }, point, place(i), `${place(i)}.`)
    const read = {} as Record<K, number>
    for (const key of keys) read[key] = own[key]!
    return read
  })
  const [first, second] = keys as [K, K]
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!]
    ascending(a[first], b[first], `${place(i)}.${first}`)
    const step = b[second] - a[second]
    if ((order === 'rising' && step < 0) || (order === 'falling' && step > 0)) {
      const side = order === 'rising' ? 'at least' : 'at most'
      throw new InputError({
        field: `${place(i)}.${second}`,
        value: b[second],
        allowed: `${side} that of the point before, ${a[second]}`,
      })
    }
  }
  return points
}

/** How a point is named in an error: by its number in a list, by the field alone in a text. */
const placeIn = (given: unknown, field: string) => (i: number) => (typeof given === 'string' ? field : `${field}[${i}]`)

function ascending(before: number, value: number, field: string): void {
  if (value > before) return
  throw new InputError({ field, value, allowed: `more than that of the point before, ${before}: points must ascend` })
}

const lineFields = {
  gateSource: /*#__PURE__*/ exactly({ unit: 'V', above: 0, max: 100, meaning: 'gate-source voltage' }),
  maximum: /*#__PURE__*/ spread({
    symbol: 'R_on',
    unit: 'ohm',
    above: 0,
    max: 1e3,
    meaning: 'guaranteed on-resistance',
  }),
  typical: /*#__PURE__*/ exactly({ unit: 'ohm', above: 0, max: 1e3, optional: true, meaning: 'typical on-resistance' }),
} as const

/** One guaranteed line as its user writes it. */
export type OnResistanceInput = Given<typeof lineFields>

/** Reads the guaranteed lines of R_DS(on). @throws InputError where there is none, voltages don't ascend, resistance rises */
export function readOnResistance(given: unknown, field: string): OnResistancePoint[] {
  const list = tableOf(given, field, ['gateSource', 'maximum'], ['typ', 'typical'])
  if (!Array.isArray(list) || list.length === 0) {
    const hint = 'Only a guaranteed R_DS(on) says at which gate voltage it is on; the threshold does not'
    throw new InputError({ field, value: given, allowed: 'a list of guaranteed lines, at least one', hint })
  }
  const place = placeIn(given, field)
  const lines = Array.from(list, (line: unknown, i): OnResistancePoint => {
    const { maximum, typical, gateSource } = readRecord({ fields: lineFields }, line, place(i), `${place(i)}.`)
    if (typical === undefined) return { gateSource, maximum: maximum.upper }
    if (typical <= maximum.upper) return { gateSource, maximum: maximum.upper, typical }
    const allowed = `at most the guaranteed value, ${maximum.upper} ohm`
    throw new InputError({ field: `${place(i)}.typical`, value: typical, unit: 'ohm', allowed })
  })
  for (let i = 1; i < lines.length; i++) {
    ascending(lines[i - 1]!.gateSource, lines[i]!.gateSource, `${place(i)}.gateSource`)
    if (lines[i]!.maximum > lines[i - 1]!.maximum) {
      throw new InputError({
        field: `${place(i)}.maximum`,
        value: lines[i]!.maximum,
        unit: 'ohm',
        allowed: `at most that of the line before, ${lines[i - 1]!.maximum} ohm`,
      })
    }
  }
  return lines
}
