import { InputError, missingFields, readNumber } from '@ohmward/quantity'
import type { Curve } from '../waveform/inside.js'

/** A factor at a temperature. */
export interface CelsiusPoint {
  readonly celsius: number
  readonly factor: number
}

/** A factor at a voltage. */
export interface VoltPoint {
  readonly volts: number
  readonly factor: number
}

/** What a curve has to do. */
interface CurveSpec {
  readonly field: string
  /** `celsius` or `volts`. */
  readonly over: 'celsius' | 'volts'
  readonly falls?: true
  /** Largest factor that can be. */
  readonly most: number
}

/**
 * Reads a list of points, or the same as text: `0 V: 1, 2 V: 0.86, 4.2 V: 0.45`.
 *
 * @throws InputError where it isn't a list of at least two points rising in their variable, a factor isn't above 0 or is
 * larger than it can be, or a curve that can only fall rises
 */
export function readCurve(given: unknown, spec: CurveSpec): Curve {
  const { field, over, falls, most } = spec
  const isText = typeof given === 'string'
  const points: unknown = isText ? pointsOf(given, field, over) : given
  const place = (i: number, more = ''): string => (isText ? field : `${field}[${i}]${more}`)
  const allowed = `a list of at least two { ${over}, factor }, rising in ${over}, factors more than 0 and at most ${most}`
  if (!Array.isArray(points) || points.length < 2) throw new InputError({ field, value: given, allowed })
  const at: number[] = []
  const factor: number[] = []
  points.forEach((point: unknown, i) => {
    const { [over]: x, factor: y } = missingFields(point, [over], place(i), ['factor'])
    const rises = typeof x === 'number' && (i === 0 || x > at[i - 1]!)
    if (!(Number.isFinite(x) && rises)) throw new InputError({ field: place(i), value: x, allowed })
    if (!(Number.isFinite(y) && (y as number) > 0 && (y as number) <= most)) {
      throw new InputError({ field: place(i, '.factor'), value: y, allowed: `more than 0, at most ${most}` })
    }
    if (falls && i > 0 && (y as number) > factor[i - 1]!) {
      const hint = 'DC bias only lowers the capacitance'
      throw new InputError({ field: place(i, '.factor'), value: y, allowed: `at most ${factor[i - 1]}`, hint })
    }
    at.push(x as number)
    factor.push(y as number)
  })
  return { at, factor }
}

/** The points of a text. */
function pointsOf(text: string, field: string, over: 'celsius' | 'volts'): unknown[] {
  return text.split(/[,;]/).map((part) => {
    const [x = '', y = '', ...more] = part.split(':')
    if (more.length > 0 || y.trim() === '') {
      const allowed = `points such as "${over === 'volts' ? '0 V: 1, 4.2 V: 0.45' : '-20 degC: 6, 20 degC: 1'}"`
      throw new InputError({ field, value: text, allowed })
    }
    const at = { field, unit: over === 'volts' ? 'V' : 'degC' } as const
    return { [over]: readNumber(x.trim(), at), factor: readNumber(y.trim(), { ...at, unit: '1' }) }
  })
}

/**
 * Refuses points that don't cover a range: nothing is guessed beyond them.
 *
 * @throws InputError naming the field
 */
export function mustCover(
  curve: Curve | undefined,
  field: string,
  over: 'celsius' | 'volts',
  { from, to }: { readonly from: number; readonly to: number },
): void {
  if (curve === undefined) return
  const [first, last] = [curve.at[0]!, curve.at[curve.at.length - 1]!]
  if (first <= from && last >= to) return
  const unit = over === 'volts' ? 'V' : 'degC'
  const hint = `They go from ${first} to ${last} ${unit}`
  const allowed = from === to ? `points that reach ${to} ${unit}` : `points from ${from} to ${to} ${unit}`
  throw new InputError({ field, value: curve.at.join(', '), allowed, hint })
}

/** The schema of points over a variable: a list, or a text. */
export const curveSchema = (over: 'celsius' | 'volts'): object => ({
  oneOf: [
    { type: 'string' },
    {
      type: 'array',
      minItems: 2,
      items: {
        type: 'object',
        properties: { [over]: { type: 'number' }, factor: { type: 'number', exclusiveMinimum: 0 } },
        required: [over, 'factor'],
        additionalProperties: false,
      },
    },
  ],
})
