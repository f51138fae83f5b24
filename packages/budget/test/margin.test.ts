import { between, plusMinus, type Spread } from '@ohmward/quantity'
import { jStat } from 'jstat'
import { describe, expect, it } from 'vitest'
import { budgetOf, furthestStation, marginOf, plainMargin, verdictOf, worstCaseOf } from '../src/index.js'
import { errorMargin } from '../src/margin/margin.js'
import { ordered } from '../src/margin/verdict.js'

const text = { id: 'room', name: 'room', unit: 'V', sense: 'at most', catches: ['A01'] } as const

describe('marginOf', () => {
  const inputs = { V: between(3, 4.2), R: plusMinus(10, 1), T: between(-20, 20, 0), a: plusMinus(0, 0.01) }
  const spec = {
    ...text,
    value: (x: { V: number; R: number; T: number; a: number }) => x.R * (1 + x.a * x.T),
    limit: (x: { V: number }) => 4 * x.V,
  }

  it('finds the worst of conditions and limits, where a drift has no slope at the nominal temperature', () => {
    const m = marginOf(spec, { inputs, conditions: ['V', 'T'] })
    expect(m.slack).toBeCloseTo(12 - 11 * 1.2, 12)
    expect(m.worst).toBeCloseTo(13.2, 12)
    expect(m.limit).toBe(12)
    expect(m.verdict).toBe('fails')
    expect(m.at).toMatchObject({ V: 3, R: 11 })
    expect(Math.abs(m.at['T']! * m.at['a']!)).toBeCloseTo(0.2, 12)
  })

  it('gives the probability of a board at the worst conditions', () => {
    const m = marginOf({ ...spec, limit: 10 }, { inputs: { ...inputs, T: 0, a: 0 }, conditions: ['V'] })
    expect(m.probability).toBeCloseTo(0.5, 6)
    expect(m.nominalSlack).toBe(0)
  })

  it('accepts by probability where the decision rule says so', () => {
    const at = { inputs: { ...inputs, T: 0, a: 0 }, conditions: ['V'] as const }
    expect(marginOf({ ...spec, limit: 10.9 }, { ...at, conditions: ['V'] }).verdict).toBe('fails')
    expect(marginOf({ ...spec, limit: 10.9 }, { ...at, conditions: ['V'], accept: 0.9 }).verdict).toBe('holds')
    expect(marginOf({ ...spec, limit: 10.1 }, { ...at, conditions: ['V'], accept: 0.9 }).verdict).toBe('fails')
  })

  it('adds what a data sheet says adds linearly before it gives the probability', () => {
    // Three of u = 0.1 against a slack of 0.3: in quadrature z = √3, added z = 1. Table of the standard normal distribution.
    const part = plusMinus(0, 0.3, { kind: 'normal', coverage: 3 })
    const three = { a: part, b: part, c: part }
    const sum = { ...text, value: (x: { a: number; b: number; c: number }) => x.a + x.b + x.c, limit: 0.3 }
    const alone = marginOf(sum, { inputs: three, conditions: [] })
    const together = marginOf(sum, {
      inputs: three,
      conditions: [],
      groups: [{ name: 'tied', inputs: ['a', 'b', 'c'] }],
    })
    expect(alone.probability).toBeCloseTo(0.9584, 4)
    expect(together.probability).toBeCloseTo(0.8413, 4)
    expect(together.worst).toBe(alone.worst)
  })

  it('is not sure where the worst case lies inside the range of a condition', () => {
    const m = marginOf(
      { ...text, value: (x: { V: number; R: number }) => x.R - (x.V - 3.6) ** 2, limit: 20 },
      { inputs: { V: inputs.V, R: inputs.R }, conditions: ['V'] },
    )
    expect(m.verdict).toBe('not sure')
    expect(m.reason).toMatch(/inside the range of V/)
  })
})

describe('worstCaseOf', () => {
  // 4 W at 2 V on 1 ohm; the most of a source of up to 2.2 V on 0.8 ohm, the least of one of 1.8 V on 1.2 ohm.
  const inputs = { V: between(1.8, 2.2), R: plusMinus(1, 0.2) }
  const about = { id: 'heat', name: 'heat', unit: 'W', catches: [] }

  it('holds one value against several limits, each with its own slack, verdict and probability', () => {
    const value = ({ V, R }: { V: number; R: number }) => {
      return (V * V) / R
    }
    const most = worstCaseOf({ sense: 'at most', value, limit: 5 }, { inputs, conditions: ['V'] })
    const [within, below, never] = [7, 6, 3].map((limit) => most.against(about, limit))
    expect(within).toMatchObject({ verdict: 'holds', limit: 7, probability: 1, at: { V: 2.2, R: 0.8 } })
    expect(within?.worst).toBeCloseTo(2.2 ** 2 / 0.8, 12)
    expect(within?.slack).toBeCloseTo(7 - 2.2 ** 2 / 0.8, 12)
    expect(within?.nominalSlack).toBeCloseTo(7 - 2.2 ** 2, 12)
    expect(below?.slack).toBeCloseTo(6 - 2.2 ** 2 / 0.8, 12)
    expect(below?.verdict).toBe('fails')
    // Every board on 2.2 V gives more than 4 W; one of a rectangle from 0.8 to 1.2 ohm stays below 6 W from 0.8067 ohm on.
    expect(never?.probability).toBe(0)
    expect(below?.probability).toBeCloseTo((1.2 - 2.2 ** 2 / 6) / 0.4, 1)
    expect(most.against(about, 7).slack).toBe(within?.slack)
    const least = worstCaseOf({ sense: 'at least', value, limit: 5 }, { inputs, conditions: ['V'] })
    expect(least.against(about, 2).slack).toBeCloseTo(1.8 ** 2 / 1.2 - 2, 12)
  })

  it('is not sure against one limit and sure against another, where its doubt is less than the slack', () => {
    // 20 less a square that is 0 in the middle: the top lies inside the range of the condition.
    const hill = ({ V }: { V: number }) => 20 - (V - 2) ** 2
    const most = worstCaseOf({ sense: 'at most', value: hill, limit: 20 }, { inputs: { V: inputs.V }, conditions: [] })
    expect(most.against(about, 20).verdict).toBe('not sure')
    expect(most.against(about, 25)).toMatchObject({ verdict: 'holds', slack: 5 })
    expect(most.against(about, 19).verdict).toBe('fails')
  })
})

describe('a value that holds in a narrow part of its range alone', () => {
  // 1 - ((x - 0.37)/0.01)² is above 0 within a hundredth of 0.37: 2 % of a rectangle from 0 to 1, where no look at its ends and quarters falls.
  const value = ({ x }: { readonly x: number }) => 1 - ((x - 0.37) / 0.01) ** 2
  const circumstances = { inputs: { x: { ...plusMinus(0.5, 0.5) } }, conditions: [] }

  it('fails, and not on every board', () => {
    const m = marginOf({ ...text, sense: 'at least', value, limit: 0 }, circumstances)
    expect(m.verdict).toBe('fails')
    expect(m.probability).toBeGreaterThan(0)
    expect(Math.abs(m.probability! - 0.02)).toBeLessThan(0.01)
  })

  it('fails on every board where the top of it is below its limit', () => {
    expect(marginOf({ ...text, sense: 'at least', value, limit: 1.001 }, circumstances).probability).toBe(0)
  })
})

describe('a probability where a shape matters', () => {
  const of = (inputs: Readonly<Record<string, Spread>>, limit: number, accept?: number) =>
    marginOf(
      {
        ...text,
        value: (x: Readonly<Record<string, number>>) => Object.values(x).reduce((sum, one) => sum + one, 0),
        limit,
      },
      { inputs, conditions: [], ...(accept !== undefined && { accept }) },
    )
  const normal = (u: number) => plusMinus(0, 3 * u, { kind: 'normal', coverage: 3 })

  it('is that of the one rectangle that there is, beside a normal input too small to tell', () => {
    // Uniform on ±1: P(x <= 0.52) = 0.76. A normal distribution of the same u would say 81.6 %.
    expect(of({ a: plusMinus(0, 1), b: normal(1e-6) }, 0.52).probability).toBeCloseTo(0.76, 6)
  })

  it('is that of a rectangle and a normal deviate, by quadrature', () => {
    const sigma = 0.15
    for (const limit of [0.2, 0.52, 0.9, 1.2]) {
      let exact = 0
      const parts = 20_000
      for (let n = 0; n < parts; n++)
        exact += jStat.normal.cdf(limit - (-1 + (2 * (n + 0.5)) / parts), 0, sigma) / parts
      expect(of({ a: plusMinus(0, 1), b: normal(sigma) }, limit).probability).toBeCloseTo(exact, 6)
    }
  })

  it('is that of two equal rectangles, of a triangle and of a trapezium, by their areas', () => {
    // Beside normal inputs of no weight, so that the range has no end. Two rectangles make a triangle: 1 - (2 - 1.2)²/8.
    expect(of({ a: plusMinus(0, 1), b: plusMinus(0, 1), c: normal(1e-6) }, 1.2).probability).toBeCloseTo(0.92, 6)
    const triangle = plusMinus(0, 2, { kind: 'triangular' })
    expect(of({ a: triangle, c: normal(1e-6) }, 1.2).probability).toBeCloseTo(0.92, 6)
    const trapezium = plusMinus(0, 1, { kind: 'trapezoidal', top: 0.5 })
    // The ramp of a trapezium of base 2 and top 1: 1 - (1 - x)² / (2 (1 - t²)).
    expect(of({ a: trapezium, c: normal(1e-6) }, 0.7).probability).toBeCloseTo(1 - 0.3 ** 2 / 1.5, 6)
  })

  it('of an arcsine or a t distribution is simulated', () => {
    const arcsine = of({ a: plusMinus(0, 1, { kind: 'arcsine' }), c: normal(1e-6) }, 0.7)
    expect(Math.abs(arcsine.probability! - (0.5 + Math.asin(0.7) / Math.PI))).toBeLessThan(0.02)
    const t = of({ a: { ...normal(1), degreesOfFreedom: 3 } }, 2.353)
    // Table of Student's t: 95 % at 2.353 for 3 degrees of freedom; a normal distribution would say 99.07 %.
    expect(Math.abs(t.probability! - 0.95)).toBeLessThan(0.012)
  })

  it('decides a verdict where the normal one would have decided otherwise', () => {
    const inputs = { a: plusMinus(0, 1), b: normal(0.05) }
    expect(of(inputs, 0.52, 0.8).verdict).toBe('fails')
    expect(of(inputs, 0.7, 0.8).verdict).toBe('holds')
    // Close to what is accepted it is simulated: P = 0.80 at 0.6, and the answer is within a few thousandths of it.
    expect(Math.abs(of(inputs, 0.6, 0.8).probability! - 0.8)).toBeLessThan(0.003)
  })

  it('of an error has the shape too', () => {
    const inputs = { x: plusMinus(10, 1), y: normal(1e-6) }
    const model = (v: { x: number; y: number }) => v.x + v.y
    const station = furthestStation({ inputs, conditions: [] }, model, 10)
    const budget = budgetOf({ symbol: 'y', quantity: 'y', unit: 'V', inputs, model, simulation: false })
    expect(errorMargin(text, 10, 0.6, station, budget).probability).toBeCloseTo(0.6, 6)
  })
})

describe('a worst case that is not sure', () => {
  const inputs = { a: plusMinus(0, 1), b: plusMinus(0, 1), c: plusMinus(0, 10) }
  const value = (x: { a: number; b: number; c: number }) => 3 * x.a * x.b + x.c

  it('holds where the slack covers what could still be found, and is not sure where it does not', () => {
    expect(marginOf({ ...text, value, limit: 30 }, { inputs, conditions: [] }).verdict).toBe('holds')
    const close = marginOf({ ...text, value, limit: 14 }, { inputs, conditions: [] })
    expect(close.verdict).toBe('not sure')
    expect(close.reason).toMatch(/a, b depends on other inputs/)
    expect(marginOf({ ...text, value, limit: 12 }, { inputs, conditions: [] }).verdict).toBe('fails')
  })
})

describe('a margin of bounded parts', () => {
  const inputs = { V: between(3, 4.2), R: plusMinus(10, 1), idle: plusMinus(0, 5) }
  const value = (x: { V: number; R: number; idle: number }) => x.R * x.V

  it('is met by every board, or by none, where the whole range lies on one side of the limit', () => {
    expect(marginOf({ ...text, value, limit: 47 }, { inputs, conditions: ['V'] }).probability).toBe(1)
    expect(marginOf({ ...text, value, limit: 37 }, { inputs, conditions: ['V'] }).probability).toBe(0)
    const within = marginOf({ ...text, value, limit: 42 }, { inputs, conditions: ['V'] }).probability!
    expect(within).toBeGreaterThan(0.4)
    expect(within).toBeLessThan(0.6)
  })

  it('leaves out what makes no difference, but not two parts that make one only together', () => {
    expect(marginOf({ ...text, value, limit: 47 }, { inputs, conditions: ['V'] }).at).toEqual({ V: 4.2, R: 11 })
    const pair = { a: plusMinus(0, 1), b: plusMinus(0, 1), V: between(0, 1) }
    const both = (x: { a: number; b: number; V: number }) => x.V * x.a * x.b
    expect(marginOf({ ...text, value: both, limit: 5 }, { inputs: pair, conditions: ['V'] }).worst).toBeCloseTo(1, 12)
    expect(marginOf({ ...text, value: both, limit: 5 }, { inputs: pair, conditions: [] }).worst).toBeCloseTo(1, 12)
  })
})

describe('a margin behind a clip', () => {
  const clip = (x: number) => Math.max(0, x - 0.5)
  const worst = (inputs: object, value: (x: never) => number) =>
    marginOf({ ...text, value, limit: 5 } as never, { inputs, conditions: ['V'] } as never)

  it('moves a part that does nothing alone, where another lifts the output out of the clip', () => {
    const inputs = { a: plusMinus(0, 1), b: plusMinus(0, 0.4), V: between(0, 1) }
    const m = worst(inputs, (x: { a: number; b: number; V: number }) => (1 + x.V) * clip(x.a + x.b))
    // 2 (1 + 0.4 - 0.5)
    expect(m.worst).toBeCloseTo(1.8, 12)
    expect(m.at).toEqual({ V: 1, a: 1, b: 0.4 })
  })

  it('looks at conditions where parts do more together than the sum of each', () => {
    const inputs = { a: plusMinus(0, 1), b: plusMinus(0, 0.9), V: between(0, 1) }
    // At V = 0 at most 1; at V = 1 each alone 0.5 and 0.4, both 1.4.
    const m = worst(inputs, (x: { a: number; b: number; V: number }) => (1 - x.V) * x.a + x.V * clip(x.a + x.b))
    expect(m.worst).toBeCloseTo(1.4, 12)
  })
})

describe('errorMargin', () => {
  it('takes the worse of both sides', () => {
    const inputs = { x: between(-1, 3, 0), c: between(0, 1) }
    const model = (v: { x: number; c: number }) => 10 + v.x * v.c
    const station = furthestStation({ inputs, conditions: ['c'] }, model, 10)
    const budget = budgetOf({ symbol: 'y', quantity: 'y', unit: 'V', inputs: station.inputs, model, simulation: false })
    const m = errorMargin(text, 10, 2, station, budget)
    expect(m.worst).toBeCloseTo(3, 12)
    expect(m.slack).toBeCloseTo(-1, 12)
    expect(m.at).toEqual({ c: 1, x: 3 })
  })
})

describe('verdicts', () => {
  it('order by relative slack, and one failure decides', () => {
    const good = plainMargin({ ...text, id: 'good' }, 1, 10)
    const tight = plainMargin({ ...text, id: 'tight' }, 0.099, 0.1)
    const bad = plainMargin({ ...text, id: 'bad', sense: 'at least' }, 9, 10)
    expect(ordered([good, bad, tight]).map((m) => m.id)).toEqual(['bad', 'tight', 'good'])
    expect(verdictOf([good, bad, tight])).toBe('fails')
    expect(verdictOf([good, tight])).toBe('holds')
  })
})
