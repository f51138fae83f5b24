import type { Distribution } from './spread.js'

/** The shapes, and what each must say beside its name. */
const shapes: Readonly<Record<Distribution['kind'], readonly string[]>> = {
  exact: [],
  rectangular: [],
  triangular: [],
  arcsine: [],
  trapezoidal: ['top'],
  normal: ['coverage'],
  t: ['coverage', 'degreesOfFreedom'],
}

/** The top of a trapezium is a share of its base; the other numbers are above 0. */
const isSound = (name: string, x: unknown) =>
  typeof x === 'number' && Number.isFinite(x) && (name === 'top' ? x >= 0 && x <= 1 : x > 0)

/** What a distribution may be, in words. */
export const knownShapes =
  'exact, rectangular, triangular, arcsine, trapezoidal 0.5, normal k=2 or t k=2 dof=9, numbers above 0'

/** A distribution made of the fields that its kind has, or `undefined` where one is missing, unknown or out of its range. */
export function distributionFrom(given: unknown): Distribution | undefined {
  if (typeof given !== 'object' || given === null || !Object.hasOwn(given, 'kind')) return undefined
  const { kind } = given as { kind: unknown }
  if (typeof kind !== 'string' || !Object.hasOwn(shapes, kind)) return undefined
  const result: Record<string, unknown> = { kind }
  for (const name of shapes[kind as Distribution['kind']]) {
    const value = Object.hasOwn(given, name) ? (given as Record<string, unknown>)[name] : undefined
    if (!isSound(name, value)) return undefined
    result[name] = value
  }
  // What the shape has no use for isn't ignored: degrees of freedom inside a normal one, a misspelled coverage.
  const own = ['kind', ...shapes[kind as Distribution['kind']]]
  if (Object.entries(given).some(([name, value]) => value !== undefined && !own.includes(name))) return undefined
  return result as unknown as Distribution
}

const words = /\s(exact|rectangular|triangular|arcsine|trapezoidal|normal|t)(?=\s|$)(.*)$/s
const details = /^(?:\s+([\d.]+))?(?:\s+k\s*=\s*([\d.]+))?(?:\s+dof\s*=\s*([\d.]+))?$/

/** A text with the distribution cut off its end, if it names one; `distribution` is `undefined` where it can't be read. */
export function cutDistribution(text: string): {
  readonly before: string
  readonly named: boolean
  readonly distribution?: Distribution | undefined
  readonly degreesOfFreedom?: number | undefined
} {
  const match = words.exec(text)
  if (!match) return { before: text, named: false }
  const [, kind = '', rest = ''] = match
  const found = details.exec(rest.trimEnd())
  const before = text.slice(0, match.index)
  if (!found) return { before, named: true }
  const [top, coverage, degreesOfFreedom] = found.slice(1).map((x) => (x === undefined ? undefined : Number(x)))
  const spare = (top !== undefined && kind !== 'trapezoidal') || (coverage !== undefined && !/^(normal|t)$/.test(kind))
  if (spare || (degreesOfFreedom !== undefined && !(degreesOfFreedom > 0))) return { before, named: true }
  const isT = kind === 't'
  const distribution = distributionFrom({ kind, top, coverage, degreesOfFreedom: isT ? degreesOfFreedom : undefined })
  return { before, named: true, distribution, degreesOfFreedom: isT ? undefined : degreesOfFreedom }
}
