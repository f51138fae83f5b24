import type { Spread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { extremes } from '../src/index.js'

const even = (lower: number, upper: number, nominal = (lower + upper) / 2): Spread => ({
  nominal,
  lower,
  upper,
  distribution: { kind: 'rectangular' },
})
type Point = Readonly<Record<string, number>>
const named = (n: number, make: (k: number) => Spread = () => even(-1, 1)) =>
  Object.fromEntries(Array.from({ length: n }, (_, k) => [`x_${k}`, make(k)]))

/** Numbers from 0 to 1 that are the same each time (a linear congruential generator). */
function numbers(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 1103515245 + 12345) % 2147483648
    return state / 2147483648
  }
}

/** Both extremes over all corners. */
function corners(inputs: Readonly<Record<string, Spread>>, model: (x: Point) => number): [number, number] {
  const names = Object.keys(inputs)
  let [lower, upper] = [Infinity, -Infinity]
  const point: Record<string, number> = {}
  for (let bits = 0; bits < 2 ** names.length; bits++) {
    for (let k = 0; k < names.length; k++) {
      const { lower: low, upper: high } = inputs[names[k]!]!
      point[names[k]!] = (bits >> k) & 1 ? high : low
    }
    const value = model(point)
    lower = Math.min(lower, value)
    upper = Math.max(upper, value)
  }
  return [lower, upper]
}

describe('extremes of monotonic models', () => {
  it('are sure and exact with 40 inputs', () => {
    const random = numbers(3)
    for (let trial = 0; trial < 20; trial++) {
      const signs = Array.from({ length: 40 }, () => (random() < 0.5 ? -1 : 1))
      const sizes = Array.from({ length: 40 }, () => random())
      const inputs = named(40, () => even(random(), 1 + random()))
      const term = (k: number, x: number) =>
        signs[k]! * sizes[k]! * (k % 3 === 0 ? x : k % 3 === 1 ? Math.exp(x) : x ** 3)
      const found = extremes(inputs, (x) => signs.reduce((sum, _, k) => sum + term(k, x[`x_${k}`]!), 0))
      let [lower, upper] = [0, 0]
      signs.forEach((sign, k) => {
        const { lower: a, upper: b } = inputs[`x_${k}`]!
        lower += term(k, sign > 0 ? a : b)
        upper += term(k, sign > 0 ? b : a)
      })
      expect(found).toMatchObject({ verdict: 'sure', reasons: [] })
      expect(found.assumed).toBe(
        `between the ${found.evaluations} places where the model was evaluated it rises or falls with each input as it does there`,
      )
      expect(found.lower).toBe(lower)
      expect(found.upper).toBe(upper)
    }
  })

  it('of a divider are its two corners, with the inputs there', () => {
    const inputs = { V: even(3, 4.2, 3.7), R: even(46.53, 47.47), x: even(0.686, 0.714), spare: even(0, 1), n: 12 }
    const model = ({ V, R, x }: Readonly<Record<'V' | 'R' | 'x', number>>) => (V * x) / (R + x)
    const found = extremes(inputs, model)
    expect(found.upper).toBe((4.2 * 0.714) / (46.53 + 0.714))
    expect(found.lower).toBe((3 * 0.686) / (47.47 + 0.686))
    expect(found.atUpper).toEqual({ V: 4.2, R: 46.53, x: 0.714, spare: 0.5, n: 12 })
    expect(found.atLower).toEqual({ V: 3, R: 47.47, x: 0.686, spare: 0.5, n: 12 })
    expect(found.verdict).toBe('sure')
  })

  it('are the stated limits of a normal input', () => {
    const a: Spread = { nominal: 1, lower: 0, upper: 2, distribution: { kind: 'normal', coverage: 2 } }
    expect(extremes({ a }, (x) => x.a)).toMatchObject({ lower: 0, upper: 2, verdict: 'sure' })
  })

  it('are sure where a clip flattens the middle or the ends', () => {
    const inputs = named(12)
    const sum = (x: Point) => Object.values(x).reduce((total, value, k) => total + (k % 2 ? value : -value), 0)
    expect(extremes(inputs, (x) => Math.min(sum(x), 3))).toMatchObject({ lower: -12, upper: 3, verdict: 'sure' })
    expect(extremes(inputs, (x) => Math.max(sum(x) - 0.5, 0))).toMatchObject({ lower: 0, upper: 11.5, verdict: 'sure' })
    expect(extremes(inputs, (x) => Math.floor(sum(x)))).toMatchObject({ lower: -12, upper: 12, verdict: 'sure' })
  })

  it('are the value where nothing varies or nothing matters', () => {
    expect(extremes({ a: 3 }, (x) => x.a)).toEqual({
      lower: 3,
      upper: 3,
      atLower: { a: 3 },
      atUpper: { a: 3 },
      verdict: 'sure',
      reasons: [],
      doubt: 0,
      evaluations: 1,
    })
    expect(extremes({ a: even(0, 1) }, () => 7)).toMatchObject({
      lower: 7,
      upper: 7,
      atLower: { a: 0.5 },
      verdict: 'sure',
    })
  })

  it('are the same through a row, and each time', () => {
    const inputs = { a: even(1, 2), b: even(3, 4) }
    const model = ({ a, b }: Readonly<Record<'a' | 'b', number>>) => a * (b - 3.5)
    const row = (c: Readonly<Record<'a' | 'b', Float64Array>>, i: number) => ({ a: c.a[i]!, b: c.b[i]! })
    expect(extremes(inputs, model, { row })).toEqual(extremes(inputs, model))
  })
})

describe('the doubt of an extreme', () => {
  it('is what the inputs whose direction is not settled were seen to change', () => {
    const inputs = { a: even(-1, 1), b: even(-1, 1), c: even(-10, 10) }
    const found = extremes(inputs, (x) => 3 * x.a * x.b + x.c)
    expect(found).toMatchObject({ lower: -13, upper: 13, verdict: 'not sure' })
    // At a corner, a alone moves the result by 6, and so does b.
    expect(found.doubt).toBeCloseTo(12, 9)
    expect(extremes(inputs, (x) => x.a + x.c).doubt).toBe(0)
    expect(extremes(inputs, (x) => (x.a > 0.9 ? Number.NaN : x.a)).doubt).toBeNull()
  })
})

describe('extremes of other models', () => {
  it.each<[string, Readonly<Record<string, Spread>>, (x: Point) => number, number, number, RegExp]>([
    ['a parabola', { a: even(0, 1) }, ({ a }) => a! * (1 - a!), 0, 0.25, /rises and falls with a/],
    ['a parabola with its top near a limit', { a: even(0, 0.55) }, ({ a }) => a! * (1 - a!), 0, 0.25, /with a/],
    ['a top just inside a limit', { a: even(0, 0.505) }, ({ a }) => a! * (1 - a!), 0, 0.25, /with a/],
    ['a sine', { a: even(0, 3), b: even(0, 1) }, ({ a, b }) => Math.sin(a!) + b!, 0, 2, /with a$/],
    ['a product about zero', { a: even(-1, 1), b: even(-2, 2) }, ({ a, b }) => a! * b!, -2, 2, /with a, b depends/],
    ['a saddle', { a: even(-1, 2), b: even(-1, 1, 0) }, ({ a, b }) => a! * b! + 1, -1, 3, /with a, b depends/],
    ['a distance', { a: even(0, 1), b: even(0, 1) }, ({ a, b }) => Math.abs(a! - b!), 0, 1, /a, b/],
    [
      'a square of a difference',
      { a: even(0, 1), b: even(0, 3) },
      ({ a, b }) => (a! - b!) ** 2,
      0,
      9,
      /rises and falls with a, b$/,
    ],
  ])('%s', (_, inputs, model, lower, upper, reason) => {
    const found = extremes(inputs, model)
    expect(found.lower).toBeCloseTo(lower, 9)
    expect(found.upper).toBeCloseTo(upper, 9)
    expect(model(found.atUpper)).toBe(found.upper)
    expect(model(found.atLower)).toBe(found.lower)
    expect(found.verdict).toBe('not sure')
    expect(found.reasons.join('; ')).toMatch(reason)
  })

  it('name only the inputs that are to blame', () => {
    const inputs = named(40)
    const model = (x: Point) => {
      let sum = x['x_3']! * x['x_17']!
      for (let k = 0; k < 40; k++) if (k !== 3 && k !== 17) sum += (k - 20.5) * x[`x_${k}`]!
      return sum
    }
    const found = extremes(inputs, model)
    expect(found.reasons).toEqual(['whether the result rises or falls with x_3, x_17 depends on other inputs'])
    let most = 1
    for (let k = 0; k < 40; k++) if (k !== 3 && k !== 17) most += Math.abs(k - 20.5)
    expect(found.upper).toBeCloseTo(most, 10)
    expect(found.lower).toBeCloseTo(-most, 10)
  })

  it('of multilinear models with up to 11 inputs are those of all corners, nearly always, and never sure when they are not', () => {
    const random = numbers(1)
    let [hits, sure, trials] = [0, 0, 0]
    for (let trial = 0; trial < 90; trial++) {
      const n = 2 + Math.floor(random() * 10)
      const strength = trial % 3
      const inputs = named(n)
      const linear = Array.from({ length: n }, () => 2 * random() - 1)
      const pairs = Array.from(
        { length: 2 * n },
        () => [Math.floor(random() * n), Math.floor(random() * n), (random() - 0.5) * strength] as const,
      )
      const model = (x: Point) => {
        let sum = 0
        for (let k = 0; k < n; k++) sum += linear[k]! * x[`x_${k}`]!
        for (const [i, j, c] of pairs) if (i !== j) sum += c * x[`x_${i}`]! * x[`x_${j}`]!
        return sum
      }
      const found = extremes(inputs, model)
      const [lower, upper] = corners(inputs, model)
      expect(found.upper).toBeLessThan(upper + 1e-9)
      expect(found.lower).toBeGreaterThan(lower - 1e-9)
      const right = Math.abs(found.upper - upper) < 1e-9 && Math.abs(found.lower - lower) < 1e-9
      if (found.verdict === 'sure') {
        sure++
        expect(right, `trial ${trial}`).toBe(true)
      }
      hits += Number(right)
      trials++
    }
    expect(sure).toBeGreaterThan(20)
    expect(hits / trials).toBeGreaterThan(0.95)
  })

  it('say where there is no finite result', () => {
    const found = extremes({ a: even(-1, 1, 0.5), b: even(1, 2) }, ({ a, b }) => Math.sqrt(a) * b)
    expect(found.verdict).toBe('not sure')
    expect(found.reasons.join()).toMatch(/no finite result at a = -/)
    expect(found.upper).toBe(2)
    expect(() => extremes({ a: even(-1, 1) }, ({ a }) => 1 / a)).toThrow(/result of the model = Infinity/)
  })
})

describe('cost of extremes', () => {
  const evaluations = (n: number, model: (x: Point, n: number) => number) =>
    extremes(named(n), (x) => model(x, n)).evaluations

  it('is linear in the inputs: eight times the inputs, eight times the evaluations', () => {
    const monotonic = (x: Point, n: number) => {
      let sum = 0
      for (let k = 0; k < n; k++) sum += (k + 1) * x[`x_${k}`]! ** 3
      return sum
    }
    expect(evaluations(40, monotonic) / evaluations(5, monotonic)).toBeLessThan(8.5)
    expect(evaluations(40, monotonic)).toBeLessThan(40 * 25)
  })

  it('is linear too where a search is needed', () => {
    const wild = (x: Point, n: number) => {
      let sum = 0
      for (let k = 0; k < n; k++) sum += Math.sin(k + 3 * x[`x_${k}`]!) * x[`x_${(k + 1) % n}`]!
      return sum
    }
    expect(evaluations(20, wild) / evaluations(5, wild)).toBeLessThan(6)
  })
})
