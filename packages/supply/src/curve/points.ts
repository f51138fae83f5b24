import { InputError, type OwnField, own, readNumber, type Unit } from '@ohmward/quantity'
import type { Curve } from './curve.js'

/** One coordinate of a point: the word that its user writes, its unit and limits. */
interface Coordinate<W extends string> {
  readonly word: W
  readonly unit: Unit
  readonly min: number
  readonly max: number
}

/** What the points of a field must be. */
interface PointsSpec<X extends string, Y extends string> {
  readonly x: Coordinate<X>
  readonly y: Coordinate<Y>
  /** Places that the points must begin and end at, so that nothing is guessed beyond them. */
  readonly ends?: readonly [from: number, to: number]
  /** Whether the value rises from each point to the next, or at least doesn't fall. */
  readonly rises?: 'strictly' | 'or stays'
  /** Curves that are known by a name. */
  readonly named?: Readonly<Record<string, Curve>>
}

/** Points as their user writes them. */
type Points<X extends string, Y extends string> = readonly Readonly<Record<X | Y, number | string>>[]

/**
 * A field for points of a curve: a list such as `[{ celsius: 0, factor: 2.5 }, …]`, the same as text,
 * `0 degC: 2.5, 25 degC: 1`, the name of a known curve, or a curve that was read. Its reader throws an InputError where there are fewer than two
 * points or more than 500, they don't rise in the first coordinate, a value isn't allowed, or falls where it can't.
 */
/*#__NO_SIDE_EFFECTS__*/
export const points = <
  const X extends string,
  const Y extends string,
  const M extends Pick<OwnField<string>, 'meaning' | 'otherwise' | 'optional'>,
>(
  spec: PointsSpec<X, Y>,
  more: M,
) =>
  own<string | Points<X, Y> | Curve>()((given, field) => readPoints(given, field, spec), {
    ...more,
    schema: schemaFor(spec),
  })

function readPoints<X extends string, Y extends string>(given: unknown, field: string, spec: PointsSpec<X, Y>): Curve {
  if (typeof given === 'string' && spec.named && Object.hasOwn(spec.named, given)) return spec.named[given]!
  const list: unknown = typeof given === 'string' ? fromText(given, field, spec) : pointsOf(given, spec)
  if (!Array.isArray(list) || list.length < 2 || list.length > 500) throw refused(given, field, spec)
  const curve: { x: number[]; y: number[] } = { x: [], y: [] }
  list.forEach((point: unknown, i) => {
    const place = typeof given === 'string' ? field : `${field}[${i}]`
    const { x, y } = readPoint(point, place, spec)
    if (i > 0) mustRise(curve, { x, y }, place, spec)
    curve.x.push(x)
    curve.y.push(y)
  })
  mustReach(curve, field, spec)
  return curve
}

/** A curve that was read as points again: what was read may be written where it is asked for. */
function pointsOf(given: unknown, spec: PointsSpec<string, string>): unknown {
  if (typeof given !== 'object' || given === null || !('x' in given && 'y' in given)) return given
  const { x, y }: { x: unknown; y: unknown } = given
  if (!Array.isArray(x) || !Array.isArray(y) || x.length !== y.length) return given
  return x.map((at: unknown, i) => ({ [spec.x.word]: at, [spec.y.word]: y[i] as unknown }))
}

function readPoint<X extends string, Y extends string>(point: unknown, place: string, { x, y }: PointsSpec<X, Y>) {
  const keys = typeof point === 'object' && point !== null && !Array.isArray(point) ? Object.keys(point) : []
  const isPoint = keys.length === 2 && keys.includes(x.word) && keys.includes(y.word)
  if (!isPoint) throw new InputError({ field: place, value: point, allowed: `an object with ${x.word}, ${y.word}` })
  const own = point as Readonly<Record<string, unknown>>
  const read = ({ word, ...limits }: Coordinate<string>) =>
    readNumber(own[word], { ...limits, field: `${place}.${word}` })
  return { x: read(x), y: read(y) }
}

function mustRise(
  curve: Curve,
  { x, y }: { x: number; y: number },
  place: string,
  spec: PointsSpec<string, string>,
): void {
  const [lastX, lastY] = [curve.x[curve.x.length - 1]!, curve.y[curve.y.length - 1]!]
  const hint = 'The points must rise from one to the next'
  if (!(x > lastX)) {
    const { word, unit } = spec.x
    throw new InputError({ field: `${place}.${word}`, value: x, unit, allowed: `more than ${lastX} ${unit}`, hint })
  }
  if (spec.rises === 'strictly' ? y > lastY : spec.rises === undefined || y >= lastY) return
  const { word, unit } = spec.y
  const allowed = `${spec.rises === 'strictly' ? 'more than' : 'at least'} ${lastY} ${unit}`
  throw new InputError({ field: `${place}.${word}`, value: y, unit, allowed, hint })
}

function mustReach({ x }: Curve, field: string, { ends, x: { word, unit } }: PointsSpec<string, string>): void {
  if (ends === undefined) return
  const [first, last] = [x[0]!, x[x.length - 1]!]
  if (first !== ends[0])
    throw new InputError({ field: `${field}[0].${word}`, value: first, unit, allowed: `${ends[0]}, the first point` })
  if (last !== ends[1]) {
    const place = `${field}[${x.length - 1}].${word}`
    throw new InputError({ field: place, value: last, unit, allowed: `${ends[1]}, the last point` })
  }
}

function fromText(text: string, field: string, spec: PointsSpec<string, string>): object[] {
  return text.split(/[,;]/).map((part) => {
    const [x = '', y = '', ...more] = part.split(':')
    if (more.length > 0 || x.trim() === '' || y.trim() === '') throw refused(text, field, spec)
    return { [spec.x.word]: x.trim(), [spec.y.word]: y.trim() }
  })
}

function refused(given: unknown, field: string, { x, y, named }: PointsSpec<string, string>): InputError {
  const names = Object.keys(named ?? {}).map((name) => JSON.stringify(name))
  const list = `a list of 2 to 500 { ${x.word}, ${y.word} }, or text such as "${x.min} ${x.unit}: ${y.min} ${y.unit}, …"`
  return new InputError({ field, value: given, allowed: [...names, list].join(' or ') })
}

function schemaFor({ x, y, named }: PointsSpec<string, string>): object {
  const number = ({ min, max }: Coordinate<string>) => ({
    anyOf: [{ type: 'number', minimum: min, maximum: max }, { type: 'string' }],
  })
  const items = {
    type: 'object',
    properties: { [x.word]: number(x), [y.word]: number(y) },
    required: [x.word, y.word],
    additionalProperties: false,
  }
  const names = Object.keys(named ?? {})
  const list = { type: 'array', items, minItems: 2, maxItems: 500 }
  return { anyOf: [...(names.length > 0 ? [{ enum: names }] : []), { type: 'string' }, list] }
}
