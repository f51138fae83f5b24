import { readSpread, type Spread } from '@ohmward/quantity'
import { derivative } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { refusalOf } from '../../quantity/test/refuse.js'
import { propagate } from '../src/index.js'
import { compileInputs } from '../src/model/evaluate.js'
import { moments, normalQuantile, studentQuantile } from '../src/statistics/index.js'

const even = (nominal: number, half: number, lower = nominal - half): Spread => ({
  nominal,
  lower,
  upper: nominal + half,
  distribution: { kind: 'rectangular' },
})
const known = (nominal: number, u: number, degreesOfFreedom?: number): Spread => ({
  nominal,
  lower: nominal - u,
  upper: nominal + u,
  distribution: { kind: 'normal', coverage: 1 },
  ...(degreesOfFreedom !== undefined && { degreesOfFreedom }),
})
const shaped = (distribution: Spread['distribution']): Spread => ({ nominal: 3, lower: 1, upper: 5, distribution })

describe('moments', () => {
  // Half-width 2 about 3; standard deviations of JCGM 101:2008, table 1 and 6.4.
  it.each<[Spread['distribution'], number]>([
    [{ kind: 'rectangular' }, 2 / Math.sqrt(3)],
    [{ kind: 'triangular' }, 2 / Math.sqrt(6)],
    [{ kind: 'trapezoidal', top: 0.5 }, 2 * Math.sqrt(1.25 / 6)],
    [{ kind: 'trapezoidal', top: 0 }, 2 / Math.sqrt(6)],
    [{ kind: 'trapezoidal', top: 1 }, 2 / Math.sqrt(3)],
    [{ kind: 'arcsine' }, 2 / Math.SQRT2],
    [{ kind: 'normal', coverage: 2 }, 1],
    [{ kind: 't', coverage: 4, degreesOfFreedom: 5 }, 0.5],
  ])('of %o', (distribution, u) => {
    const found = moments(shaped(distribution))
    expect(found.mean).toBe(3)
    expect(found.u).toBeCloseTo(u, 14)
    expect(found.degreesOfFreedom).toBe(distribution.kind === 't' ? 5 : Infinity)
  })

  it('take the middle where the limits are not symmetric, and stated degrees of freedom', () => {
    expect(moments({ nominal: 100, lower: 90, upper: 120, distribution: { kind: 'rectangular' } }).mean).toBe(105)
    expect(moments(known(1, 0.1, 9)).degreesOfFreedom).toBe(9)
    expect(moments({ nominal: 7, lower: 7, upper: 7, distribution: { kind: 'exact' } }).u).toBe(0)
  })
})

describe('linear propagation', () => {
  it('of a linear model is exact', () => {
    const budget = propagate({ a: known(1, 0.3), b: known(2, 0.4), c: 5 }, ({ a, b, c }) => a - b + c)
    expect(budget.estimate).toBe(4)
    expect(budget.u).toBeCloseTo(0.5, 14)
    expect(budget.contributions.map((line) => line.input)).toEqual(['a', 'b'])
    expect(budget.contributions.map((line) => line.share)).toEqual([expect.closeTo(0.36, 13), expect.closeTo(0.64, 13)])
    expect(budget.contributions[1]!.contribution).toBeCloseTo(-0.4, 14)
    expect(budget.expanded).toBe(budget.k * budget.u)
    expect(budget.k).toBe(normalQuantile(0.975))
    expect(budget.interval).toEqual([4 - budget.expanded, 4 + budget.expanded])
    expect(budget.degreesOfFreedom).toBeNull()
    expect(budget.secondOrder).toBeLessThan(1e-14)
    expect(budget.doubts).toEqual([])
  })

  it('has the derivatives that mathjs finds symbolically', () => {
    const expression = 'V * R / (R + S) * (1 + F / G) + O * exp(R / 10)'
    const values = { V: 3.3, R: 0.7, S: 47, F: 39000, G: 1000, O: 0.001 }
    const inputs = Object.fromEntries(Object.entries(values).map(([name, x]) => [name, even(x, x / 100)]))
    const { contributions } = propagate(
      inputs,
      (x) => ((x['V']! * x['R']!) / (x['R']! + x['S']!)) * (1 + x['F']! / x['G']!) + x['O']! * Math.exp(x['R']! / 10),
    )
    for (const { input, sensitivity } of contributions) {
      const expected: number = derivative(expression, input).evaluate(values)
      expect(Math.abs(sensitivity / expected - 1)).toBeLessThan(1e-7)
    }
  })

  it('gives the same through a row as through names', () => {
    const inputs = { a: even(2, 0.1), b: even(3, 0.2), c: 4 }
    const model = (x: Readonly<Record<'a' | 'b' | 'c', number>>) => (x.a * x.b) / x.c
    const row = (c: Readonly<Record<'a' | 'b' | 'c', Float64Array>>, i: number) => ({
      a: c.a[i]!,
      b: c.b[i]!,
      c: c.c[i]!,
    })
    expect(propagate(inputs, model, { row })).toEqual(propagate(inputs, model))
  })

  it('keeps its digits for an uncertainty far below the value', () => {
    const budget = propagate({ a: known(1, 1e-9) }, ({ a }) => 3 * a)
    expect(Math.abs(budget.u / 3e-9 - 1)).toBeLessThan(2e-7)
  })

  it('is at the middle of limits that are not symmetric, and says so', () => {
    const budget = propagate({ a: even(100, 50, 80) }, ({ a }) => a)
    expect(budget.estimate).toBe(115)
    expect(budget.nominal).toBe(100)
    expect(budget.doubts.join()).toMatch(/estimate is 15 from the result at nominal/)
  })

  it('without anything that varies is the value itself', () => {
    const budget = propagate({ a: 2 }, ({ a }) => a * a)
    expect(budget).toMatchObject({ estimate: 4, u: 0, expanded: 0, interval: [4, 4], contributions: [], doubts: [] })
  })

  it('survives JSON', () => {
    const budget = propagate({ a: even(1, 0.1), b: known(1, 0.1, 5) }, ({ a, b }) => a * b)
    expect(JSON.parse(JSON.stringify(budget))).toEqual(budget)
  })
})

describe('degrees of freedom', () => {
  it('follow Welch and Satterthwaite, untruncated', () => {
    const budget = propagate({ a: known(0, 3, 4), b: known(0, 4, 9) }, ({ a, b }) => a + b, { level: 0.9 })
    expect(budget.degreesOfFreedom).toBeCloseTo(625 / (81 / 4 + 256 / 9), 12)
    expect(budget.k).toBe(studentQuantile(0.95, budget.degreesOfFreedom!))
    expect(budget.level).toBe(0.9)
  })

  it('come from a t input, whose scale is its uncertainty', () => {
    const t: Spread = { nominal: 0, lower: -2, upper: 2, distribution: { kind: 't', coverage: 2, degreesOfFreedom: 3 } }
    const budget = propagate({ t }, (x) => x.t)
    expect(budget.u).toBeCloseTo(1, 14)
    expect(budget.degreesOfFreedom).toBeCloseTo(3, 12)
  })

  it('are doubted where correlated inputs have different ones, and the fewest taken', () => {
    const options = { correlations: [{ between: ['a', 'b'], coefficient: 0.5 }] } as const
    const budget = propagate({ a: known(0, 3, 4), b: known(0, 4) }, ({ a, b }) => a + b, options)
    expect(budget.doubts.join()).toMatch(/correlated inputs have different degrees of freedom/)
    // Variance 9 + 16 + 2·0.5·3·4 = 37, all of it with 4 degrees of freedom.
    expect(budget.u ** 2).toBeCloseTo(37, 9)
    expect(budget.degreesOfFreedom).toBeCloseTo(4, 9)
  })
})

describe('groups', () => {
  const inputs = { a: known(0, 1), b: known(0, 2), c: known(0, 4) }
  it('add by size whatever the signs, then in quadrature', () => {
    const options = { groups: [{ name: 'amplifier', inputs: ['a', 'b'] }] } as const
    const budget = propagate(inputs, ({ a, b, c }) => a - b + c, options)
    expect(budget.u).toBeCloseTo(5, 13)
    expect(budget.contributions.map((line) => line.group)).toEqual(['amplifier', 'amplifier', undefined])
    const shares = budget.contributions.map((line) => line.share)
    expect(shares).toEqual([expect.closeTo(3 / 25, 13), expect.closeTo(6 / 25, 13), expect.closeTo(16 / 25, 13)])
  })

  it('take the fewest degrees of freedom of their members', () => {
    const options = { groups: [{ name: 'g', inputs: ['a', 'b'] }] } as const
    const budget = propagate(
      { a: known(0, 1, 7), b: known(0, 2, 5), c: known(0, 4) },
      ({ a, b, c }) => a + b + c,
      options,
    )
    expect(budget.degreesOfFreedom).toBeCloseTo(625 / (81 / 5), 11)
  })

  it('refuse strangers, members of two and correlated members', () => {
    const wrong = (options: object) => () => propagate(inputs, ({ a, b, c }) => a + b + c, options)
    const g = (...names: string[]) => ({ name: 'g', inputs: names })
    expect(wrong({ groups: [g('a', 'z')] })).toThrow(/groups\[0\].inputs = "z"/)
    expect(wrong({ groups: [g('a'), g('a', 'b')] })).toThrow(/groups\[1\].inputs = "a"/)
    expect(wrong({ groups: [g('a')], correlations: [{ between: ['a', 'b'], coefficient: 0.1 }] })).toThrow(
      /groups\[0\]/,
    )
  })
})

describe('doubts', () => {
  const doubt = (...[inputs, model]: Parameters<typeof propagate>) => propagate(inputs, model).doubts.join('; ')
  const centred = even(0, 1)

  it('notice a square at its bottom', () => {
    expect(doubt({ a: centred }, ({ a }) => a! * a!)).toMatch(/a: no first-order effect at the estimate, yet ±u/)
  })

  it('tell sizes in the unit of the output, differences of temperatures in kelvin', () => {
    const square = ({ a }: { a: number }) => 1e-3 * a * a
    // Half of 2e-3 times u²: a rectangle of ±1 has u = 1/√3.
    expect(propagate({ a: centred }, square).doubts[0]).toMatch(/by 0\.000333$/)
    expect(propagate({ a: centred }, square, { unit: 'ohm' }).doubts[0]).toMatch(/by 333 µΩ$/)
    expect(propagate({ a: centred }, square, { unit: 'degC' }).doubts[0]).toMatch(/by 333 µK$|by 0\.000333 K$/)
  })

  it('notice a product of two inputs centred on zero, and give its second-order uncertainty', () => {
    const budget = propagate({ a: centred, b: centred, c: known(0, 1e-3) }, ({ a, b, c }) => a * b + c)
    expect(budget.doubts.join()).toMatch(/a: no effect alone, but up to 0.333 together.*b: no effect alone/)
    expect(budget.secondOrder).toBeCloseTo(1 / 3, 12)
  })

  it('notice a product whose factors also act alone', () => {
    expect(doubt({ a: known(0.1, 1), b: known(0.1, 1) }, ({ a, b }) => a! * b!)).toMatch(
      /curvature: second-order terms/,
    )
  })

  it('add the mixed terms of more inputs than are paired one by one', () => {
    const inputs = Object.fromEntries(Array.from({ length: 20 }, (_, k) => [`x_${k}`, known(0, 1)]))
    const sum = (x: Readonly<Record<string, number>>) => {
      let total = 0
      for (let k = 0; k < 20; k += 2) total += x[`x_${k}`]! * x[`x_${k + 1}`]!
      return total
    }
    // Ten independent products of unit variance.
    const { secondOrder } = propagate(inputs, sum)
    expect(Math.abs(secondOrder / Math.sqrt(10) - 1)).toBeLessThan(0.2)
  })

  it.each<[string, (a: number) => number]>([
    ['a corner', (a) => Math.abs(a - 0.1)],
    ['a clip at the estimate', (a) => Math.max(a, 0)],
    ['a clip within reach', (a) => Math.min(a, 0.45)],
    ['a step', (a) => (a > 0.4 ? 1 : 0)],
  ])('notice %s', (_, f) => {
    expect(doubt({ a: centred }, ({ a }) => f(a!))).toMatch(/a: (the slope changes abruptly|no first-order effect)/)
  })

  it('notice a bend of odd order', () => {
    const bent = doubt({ a: known(0, 1), b: known(0, 1) }, ({ a, b }) => Math.tanh(2 * a!) + b! / 10)
    expect(bent).toMatch(/a: the slope over ±u and the slope at the estimate differ/)
  })

  it('notice what only shows when inputs move together', () => {
    const inputs = Object.fromEntries(['a', 'b', 'c', 'd'].map((name) => [name, known(0, 1)]))
    const sum = (x: Readonly<Record<string, number>>) => x['a']! + x['b']! + x['c']! + x['d']!
    expect(doubt(inputs, (x) => Math.max(Math.min(sum(x), 1.2), -1.2))).toMatch(/straight line/)
  })

  it('notice a mean that moves', () => {
    expect(doubt({ a: known(1, 0.3) }, ({ a }) => a! ** 3)).toMatch(/moves the mean by about 0.27/)
  })

  it('notice where the model breaks, and name the input', () => {
    const budget = propagate({ a: known(0.5, 1), b: known(1, 0.1) }, ({ a, b }) => Math.sqrt(a) + b)
    expect(budget.doubts[0]).toMatch(/^a: no finite result at -0.5/)
    expect(Number.isFinite(budget.u)).toBe(true)
    expect(budget.contributions[0]!.sensitivity).toBeCloseTo(Math.SQRT1_2, 5)
  })

  it('says so where it breaks at several inputs together alone: the root of what three leave above nothing', () => {
    // One of them at 0.577, or at its limit, leaves 0.3 or more; all three together are 1.73 short of 1.3.
    const inputs = { a: even(0, 1), b: even(0, 1), c: even(0, 1) }
    const root = (beside: number) => propagate(inputs, ({ a, b, c }) => Math.sqrt(beside + a + b + c)).doubts
    expect(root(1.3).join()).toMatch(/no finite result/)
    expect(root(4).join()).not.toMatch(/finite/)
  })

  it('have none for an ordinary divider with 1 % parts', () => {
    const budget = propagate({ R: even(47, 0.47), x: even(0.7, 0.007) }, ({ R, x }) => (3.3 * x) / (R + x))
    expect(budget.doubts).toEqual([])
  })

  it('have none for rounding', () => {
    expect(doubt({ a: even(0.1, 1e-3), b: even(1, 0.1) }, ({ a, b }) => a! * 3 - a! * 3 + b!)).toBe('')
  })
})

describe('what is refused', () => {
  const model = ({ a }: Readonly<Record<'a', number>>) => a
  it.each<[unknown, RegExp]>([
    [Number.NaN, /a = NaN/],
    [Infinity, /a = Infinity/],
    ['12 parsecs', /a = "12 parsecs"/],
    [undefined, /a = nothing/],
    [null, /a = null/],
    [{ nominal: 1, lower: 2, upper: 3, distribution: { kind: 'rectangular' } }, /lower <= nominal <= upper/],
    [{ nominal: 1, lower: 0, upper: 3, distribution: { kind: 'round' } }, /a.distribution/],
    [{ nominal: 1, lower: 0, upper: 3 }, /a.distribution/],
    [{ nominal: 1, lower: 0, upper: 3, distribution: { kind: 'normal', coverage: 0 } }, /a.distribution/],
    [{ nominal: 1, lower: 0, upper: 3, distribution: { kind: 'trapezoidal', top: 2 } }, /a.distribution/],
    [
      { nominal: 1, lower: 0, upper: 3, distribution: { kind: 't', coverage: 1, degreesOfFreedom: -1 } },
      /a.distribution/,
    ],
    [{ nominal: 1, lower: -Infinity, upper: 3, distribution: { kind: 'rectangular' } }, /a = an object/],
    [{ ...known(1, 1), degreesOfFreedom: 0 }, /a.degreesOfFreedom/],
  ])('%o', (a, message) => {
    expect(() => propagate({ a: a as number }, model)).toThrow(message)
  })

  it('a level that is none', () => {
    for (const level of [0, 1, 95, Number.NaN]) expect(() => propagate({ a: 1 }, model, { level })).toThrow(/level = /)
  })

  it('a model without a result, with the inputs that gave it', () => {
    expect(() => propagate({ a: even(-1, 0.1), b: 2 }, ({ a, b }) => Math.sqrt(a) * b)).toThrow(
      /result of the model = NaN: allowed is a finite number at a = -1/,
    )
  })
})

describe('compiled inputs', () => {
  it.each(['10 K', '5 m', '5 m ±1 mm', '47 ohm ±1 %', '4k7', '12', ''])(
    'refuse the text "%s": no unit is stated',
    (text) => {
      const { field, value, message } = refusalOf(() => compileInputs({ R: text }))
      expect([field, value]).toEqual(['R', text])
      expect(message).toMatch(/a number or a spread.*readSpread\(text, \{ field, unit: 'ohm' \}\)/)
    },
  )

  it('take numbers, and spreads that were read in a unit', () => {
    const { spreads, varying } = compileInputs({ R: readSpread('47 ohm ±1 %', { field: 'R', unit: 'ohm' }), g: 2 })
    expect(spreads[0]).toMatchObject({ nominal: 47, lower: 46.53, upper: 47.47 })
    expect(varying).toEqual([0])
  })

  it('take a name that objects have of themselves', () => {
    const inputs = Object.fromEntries([
      ['constructor', even(1, 0.1)],
      ['toString', even(2, 0.1)],
    ])
    expect(propagate(inputs, (x) => x['constructor']! + x['toString']!).estimate).toBe(3)
  })
})
