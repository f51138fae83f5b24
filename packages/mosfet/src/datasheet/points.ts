import { type FieldSpec, InputError, missingFields, readNumber, readSpread } from '@ohmward/quantity'
import { absoluteZero, type FactorPoint, type LawText } from '../junction/law.js'
import type { OnResistancePoint } from './table.js'
import { tableOf } from './table-text.js'

type Specs<K extends string> = Readonly<Record<K, Omit<FieldSpec, 'field'>>>

/**
 * Reads a list of points: the first key ascends strictly, the second rises or falls, or stays.
 *
 * @throws InputError naming the point and field, where it is no list, is empty, or out of order
 */
export function readPoints<const K extends string>(
  given: unknown,
  field: string,
  specs: Specs<K>,
  order: 'rising' | 'falling' | 'any',
  fewest = 1,
): Readonly<Record<K, number>>[] {
  const keys = Object.keys(specs) as K[]
  const list = tableOf(given, keys as unknown as [string, string])
  if (!Array.isArray(list) || list.length < fewest) {
    throw new InputError({ field, value: given, allowed: `a list of ${fewest} point${fewest > 1 ? 's' : ''} or more` })
  }
  const place = placeIn(given, field)
  const points = list.map((point: unknown, i) => {
    const own = missingFields(point, keys, place(i))
    const read = {} as Record<K, number>
    for (const key of keys) read[key] = readNumber(own[key], { ...specs[key], field: `${place(i)}.${key}` })
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

/** Reads the guaranteed lines of R_DS(on). @throws InputError where there is none, voltages don't ascend, resistance rises */
export function readOnResistance(given: unknown, field: string): OnResistancePoint[] {
  const list = tableOf(given, ['gateSource', 'maximum'], ['typ', 'typical'])
  if (!Array.isArray(list) || list.length === 0) {
    const hint = 'Without a guaranteed R_DS(on) nothing says at which gate voltage it conducts; the threshold does not'
    throw new InputError({ field, value: given, allowed: 'a list of guaranteed lines, at least one', hint })
  }
  const place = placeIn(given, field)
  const lines = list.map((line: unknown, i): OnResistancePoint => {
    const at = place(i)
    const own = missingFields(line, ['gateSource', 'maximum'], at, ['typical'])
    const gateSource = readNumber(own.gateSource, { field: `${at}.gateSource`, unit: 'V', above: 0, max: 100 })
    const maximum = readSpread(own.maximum, { field: `${at}.maximum`, unit: 'ohm', above: 0, max: 1e3 }).upper
    if (own.typical === undefined) return { gateSource, maximum }
    return {
      gateSource,
      maximum,
      typical: readNumber(own.typical, { field: `${at}.typical`, unit: 'ohm', above: 0, max: maximum }),
    }
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

/** Coldest junction for which a law must make sense, °C. */
const coldest = -55

/** Reads a temperature law. @throws InputError where it isn't one, or makes a resistance of 0 or less from -55 °C up */
export function readLaw(given: unknown, field: string): LawText {
  const { kind } = missingFields(given, ['kind'], field, ['perKelvin', 'exponent', 'referenceCelsius', 'points'])
  if (kind === 'points') {
    const { points } = missingFields(given, ['kind', 'points'], field)
    const specs = {
      celsius: { unit: 'degC', min: absoluteZero, max: 500 },
      factor: { unit: '1', above: 0, max: 100 },
    } as const
    const list = readPoints(points, `${field}.points`, specs, 'rising', 2) as FactorPoint[]
    const [a, b] = list as [FactorPoint, FactorPoint]
    const cold =
      a.factor + ((b.factor - a.factor) / (b.celsius - a.celsius)) * (Math.min(coldest, a.celsius) - a.celsius)
    positive(cold, `${field}.points`, given)
    return { kind, points: list }
  }
  if (kind === 'linear') {
    const { perKelvin, referenceCelsius = 25 } = missingFields(given, ['kind', 'perKelvin'], field, [
      'referenceCelsius',
    ])
    const a = readNumber(perKelvin, { field: `${field}.perKelvin`, unit: '1/K', min: 0, max: 0.1 })
    const reference = readReference(referenceCelsius, field)
    positive(1 + a * (coldest - reference), `${field}.perKelvin`, perKelvin)
    return { kind, perKelvin: a, referenceCelsius: reference }
  }
  if (kind === 'power') {
    const { exponent, referenceCelsius = 25 } = missingFields(given, ['kind', 'exponent'], field, ['referenceCelsius'])
    const m = readNumber(exponent, { field: `${field}.exponent`, unit: '1', min: 1, max: 5 })
    return { kind, exponent: m, referenceCelsius: readReference(referenceCelsius, field) }
  }
  throw new InputError({ field: `${field}.kind`, value: kind, allowed: '"linear", "power" or "points"' })
}

const readReference = (given: unknown, field: string) =>
  readNumber(given, { field: `${field}.referenceCelsius`, unit: 'degC', min: 0, max: 60 })

function positive(factor: number, field: string, value: unknown): void {
  if (factor > 0) return
  throw new InputError({
    field,
    value,
    allowed: `a law whose factor stays above 0 down to ${coldest} °C`,
    hint: `There it is ${factor}`,
  })
}
