import { InputError, type Spread } from '@ohmward/quantity'
import { jStat } from 'jstat'
import { describe, expect, it } from 'vitest'
import { type Columns, type Progress, simulate, simulateAsync, simulation } from '../src/index.js'

const rectangular = (lower: number, upper: number): Spread => ({
  nominal: (lower + upper) / 2,
  lower,
  upper,
  distribution: { kind: 'rectangular' },
})
const normal = (mean: number, u: number): Spread => ({
  nominal: mean,
  lower: mean - 2 * u,
  upper: mean + 2 * u,
  distribution: { kind: 'normal', coverage: 2 },
})
const z = jStat.normal.inv(0.975, 0, 1)

/** Models whose interval is known exactly. */
const known: Record<string, [inputs: Record<string, Spread>, (x: any) => number, [number, number]]> = {
  'a sum of normal inputs': [{ a: normal(1, 3), b: normal(0, 4) }, (x) => x.a - x.b, [1 - 5 * z, 1 + 5 * z]],
  'a rectangular input alone': [{ a: rectangular(2, 4) }, (x) => 10 * x.a, [20.5, 39.5]],
  'a square (chi-squared)': [
    { a: normal(0, 1) },
    (x) => x.a * x.a,
    [jStat.chisquare.inv(0.025, 1), jStat.chisquare.inv(0.975, 1)],
  ],
  'a sum of eight squares (chi-squared)': [
    Object.fromEntries('abcdefgh'.split('').map((name) => [name, normal(0, 1)])),
    (x) => x.a ** 2 + x.b ** 2 + x.c ** 2 + x.d ** 2 + x.e ** 2 + x.f ** 2 + x.g ** 2 + x.h ** 2,
    [jStat.chisquare.inv(0.025, 8), jStat.chisquare.inv(0.975, 8)],
  ],
  'an exponential (log-normal)': [
    { a: normal(0, 0.24), b: normal(1, 0.32) },
    (x) => Math.exp(x.a + x.b),
    [Math.exp(1 - 0.4 * z), Math.exp(1 + 0.4 * z)],
  ],
  'a ratio of normal inputs around zero (Cauchy)': [
    { a: normal(0, 1), b: normal(0, 1) },
    (x) => Math.atan2(x.a, Math.abs(x.b)),
    [-0.475 * Math.PI, 0.475 * Math.PI],
  ],
  'a product of two rectangular inputs around zero': [
    // P(|xy| <= t) = t (1 - ln t): 0.95 at t = 0.69977 (solved by bisection below)
    { a: rectangular(-1, 1), b: rectangular(-1, 1) },
    (x) => x.a * x.b,
    [-bisect((t) => t * (1 - Math.log(t)) - 0.95, 0.01, 1), bisect((t) => t * (1 - Math.log(t)) - 0.95, 0.01, 1)],
  ],
  'a clipped sum': [{ a: normal(0, 3), b: normal(0, 4) }, (x) => Math.min(4, x.a + x.b), [-5 * z, 4]],
  'a staircase': [{ a: rectangular(0, 1) }, (x) => Math.round(10 * x.a), [0, 10]],
}

function bisect(f: (t: number) => number, low: number, high: number): number {
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2
    if (f(middle) < 0) low = middle
    else high = middle
  }
  return low
}

describe.each(['plain', 'quasi'] as const)('simulate, %s', (method) => {
  it.each(Object.entries(known))('%s: the exact interval is met as closely as it says', (_, [inputs, model, exact]) => {
    const errors = Array.from({ length: 8 }, (_, seed) => {
      const s = simulate(inputs, model, { method, seed })
      expect(s.converged).toBe(true)
      expect(s.endError).toBeLessThanOrEqual(0.01 * s.u)
      const miss = Math.max(Math.abs(s.interval[0] - exact[0]), Math.abs(s.interval[1] - exact[1]))
      expect(miss).toBeLessThan(0.045 * s.u)
      return (miss / s.u) ** 2
    })
    expect(Math.sqrt(errors.reduce((sum, e) => sum + e, 0) / errors.length)).toBeLessThan(0.015)
  })

  it('gives the same answer for the same seed and another for another', () => {
    const inputs = { a: normal(0, 1), b: rectangular(0, 1) }
    const model = (x: { a: number; b: number }) => x.a * x.b
    expect(simulate(inputs, model, { method, seed: 5 })).toEqual(simulate(inputs, model, { method, seed: 5 }))
    expect(simulate(inputs, model, { method, seed: 6 }).mean).not.toBe(
      simulate(inputs, model, { method, seed: 5 }).mean,
    )
  })

  it('finds mean and standard deviation', () => {
    const s = simulate({ a: rectangular(0, 1), b: normal(2, 0.5) }, (x) => 3 * x.a + x.b, { method })
    expect(s.mean).toBeCloseTo(3.5, 1.5)
    expect(s.u / Math.sqrt(9 / 12 + 0.25)).toBeCloseTo(1, 1.5)
  })

  it('turns the correlation of normal inputs into variance (JCGM 100:2008, 5.2.2)', () => {
    const correlations = [{ between: ['a', 'b'], coefficient: -0.6 }] as const
    const inputs = { a: normal(0, 3), b: normal(0, 4), c: rectangular(-1, 1) }
    const s = simulate(inputs, (x) => x.a + x.b, { method, correlations })
    expect(s.u / Math.sqrt(9 + 16 - 2 * 0.6 * 12)).toBeCloseTo(1, 1.5)
  })

  it('takes a singular correlation matrix: what is fully correlated cancels', () => {
    const correlations = [
      { between: ['a', 'b'], coefficient: 1 },
      { between: ['b', 'c'], coefficient: -1 },
      { between: ['a', 'c'], coefficient: -1 },
    ] as const
    const inputs = { a: normal(0, 1), b: normal(5, 2), c: rectangular(0, 1) }
    expect(simulate(inputs, (x) => 2 * x.a - x.b, { method, correlations }).u).toBeLessThan(1e-9)
    const both = simulate(inputs, (x) => 2 * x.a + x.b, { method, correlations })
    expect(both.u / 4).toBeCloseTo(1, 1.5)
  })

  it('correlates rectangular inputs by a Gaussian copula: 6/π · asin(ρ/2) (K. Pearson 1907, from memory)', () => {
    const correlations = [{ between: ['a', 'b'], coefficient: 0.8 }] as const
    const inputs = { a: rectangular(-1, 1), b: rectangular(-1, 1) }
    const r = (6 / Math.PI) * Math.asin(0.4)
    const sum = simulate(inputs, (x) => x.a + x.b, { method, correlations, accuracy: 0.004 })
    expect((sum.u ** 2 * 3) / (2 * (1 + r))).toBeCloseTo(1, 1.5)
    expect(sum.maximum).toBeLessThanOrEqual(2)
  })

  it('moves the members of a group together, each so that their contributions add', () => {
    const inputs = { a: rectangular(-1, 1), b: rectangular(-2, 2), c: normal(0, 1), d: normal(0, 1) }
    const s = simulate(inputs, (x) => x.a - x.b + x.c, { method, groups: [{ name: 'g', inputs: ['a', 'b'] }] })
    expect(s.u / Math.sqrt(9 / 3 + 1)).toBeCloseTo(1, 1.5)
    // A rectangular and a normal member with one quantile: var = 1/3 + 1 + 2 · covariance, covariance = 1/√π.
    const mixed = simulate(inputs, (x) => x.d - x.a, { method, groups: [{ name: 'g', inputs: ['a', 'd'] }] })
    expect(mixed.u / Math.sqrt(4 / 3 + 2 / Math.sqrt(Math.PI))).toBeCloseTo(1, 1.5)
  })

  it('gives the probability of lying within limits, with its error', () => {
    const { within, withinError } = simulate({ a: normal(0, 1) }, (x) => x.a, {
      method,
      limits: { lower: -1, upper: 2 },
    })
    const exact = jStat.normal.cdf(2, 0, 1) - jStat.normal.cdf(-1, 0, 1)
    expect(Math.abs(within! - exact)).toBeLessThan(5 * withinError! + 1e-3)
    expect(withinError).toBeLessThan(0.01)
  })

  it('does the same through the view, the row and the own loop of a block', () => {
    const inputs = { a: normal(1, 0.1), b: rectangular(1, 2), c: 3 }
    type Names = 'a' | 'b' | 'c'
    const model = (x: Record<Names, number>) => (x.a / x.b) * x.c
    const row = (c: Columns<Names>, i: number) => ({ a: c.a[i]!, b: c.b[i]!, c: c.c[i]! })
    const fill = (c: Columns<Names>, out: Float64Array, n: number) => {
      for (let i = 0; i < n; i++) out[i] = model(row(c, i))
    }
    const plain = simulate(inputs, model, { method })
    expect(simulate(inputs, model, { method, row })).toEqual(plain)
    expect(simulate(inputs, model, { method, fill })).toEqual(plain)
  })

  it('allows a model that simulates itself, over inputs of the same names', () => {
    const inputs = { a: rectangular(0, 1), b: 1 }
    let calls = 0
    const inner = simulate(inputs, (x) => x.a + x.b, { trials: 100 }).mean
    const s = simulate(
      inputs,
      (x) => {
        const extra = calls++ % 1000 === 0 ? simulate(inputs, (y) => y.a + y.b, { trials: 100 }).mean - inner : 0
        return x.a + extra
      },
      { method },
    )
    expect(s.maximum).toBeLessThanOrEqual(1)
    expect(s.mean).toBeCloseTo(0.5, 1.5)
  })

  it('says when the accuracy was not reached', () => {
    const inputs = { a: normal(0, 1), b: normal(0, 1), c: normal(0, 1) }
    const s = simulate(inputs, (x) => x.a * x.b * x.c, { method, accuracy: 0.0005, maximumTrials: 20_000 })
    expect(s.converged).toBe(false)
    expect(s.endError).toBeGreaterThan(0.0005 * s.u)
    expect(s.trials).toBeLessThanOrEqual(20_000)
  })

  it('names the inputs at which the model has no finite value', () => {
    const inputs = { R: rectangular(-1, 3), V: 5 }
    const run = () => simulate(inputs, (x) => Math.sqrt(x.R) * x.V, { method })
    expect(run).toThrow(InputError)
    expect(run).toThrow(/result of the model = NaN.*R = -0\.\d+/)
  })

  it('is certain where nothing varies', () => {
    const s = simulate({ a: 2, b: 3 }, (x) => x.a * x.b, { method, limits: { upper: 6 } })
    expect(s).toMatchObject({
      mean: 6,
      u: 0,
      interval: [6, 6],
      shortest: [6, 6],
      endError: 0,
      converged: true,
      within: 1,
    })
    expect(s.histogram.counts).toEqual([1])
    expect(simulate({ a: 2 }, (x) => x.a, { method, limits: { lower: 3 } }).within).toBe(0)
  })

  it('is steady where the output does not', () => {
    const s = simulate({ a: rectangular(0, 1) }, () => 7, { method })
    expect(s).toMatchObject({ mean: 7, u: 0, interval: [7, 7], converged: true })
  })

  it('counts in 64 bins what lies no further from the interval than half its width', () => {
    const s = simulate({ a: normal(0, 1) }, (x) => x.a, { method, accuracy: 0.005 })
    const { from, to, counts } = s.histogram
    expect(counts).toHaveLength(64)
    const outside = 1 - counts.reduce((sum, count) => sum + count, 0) / s.trials
    expect(outside).toBeLessThan(3 * 2 * jStat.normal.cdf(from, 0, 1) + 3 / s.trials)
    const peak = counts.indexOf(Math.max(...counts))
    expect(Math.abs(from + ((peak + 0.5) * (to - from)) / 64)).toBeLessThan(0.5)
  })
})

describe('trials', () => {
  const inputs = { a: normal(0, 1), b: normal(0, 1) }
  const sum = (x: { a: number; b: number }) => x.a + x.b

  it('are exactly as many as told when plain, at least as many when quasi', () => {
    expect(simulate(inputs, sum, { trials: 12_345 }).trials).toBe(12_345)
    expect(simulate(inputs, sum, { trials: 12_345, method: 'quasi' }).trials).toBe(16_384)
  })

  it('have the error of ranks: √(p(1-p)/n) over the density (normal, p = 0.025)', () => {
    const s = simulate(inputs, sum, { trials: 100_000 })
    const density = jStat.normal.pdf(z, 0, 1)
    expect(s.endError / Math.SQRT2 / (Math.sqrt((0.025 * 0.975) / 100_000) / density)).toBeCloseTo(1, 0.5)
  })

  it.each([0.2, 0.5, 0.8])(
    'have the error of ranks at a level of %f too: √(p(1-p)/n) of a rectangle 2 wide',
    (level) => {
      const s = simulate({ a: rectangular(-1, 1) }, ({ a }) => a, { trials: 100_000, level })
      const p = (1 - level) / 2
      expect(s.endError / (2 * Math.sqrt((p * (1 - p)) / 100_000))).toBeCloseTo(1, 0.5)
    },
  )

  it('are fewer by a factor of ten for the same accuracy when quasi, on a sum of ten inputs', () => {
    const names = 'abcdefghij'.split('')
    const ten = Object.fromEntries(names.map((name, i) => [name, i % 2 ? rectangular(-1, 1) : normal(0, 0.6)]))
    const model = (x: Record<string, number>) =>
      names.reduce((total, name) => total + x[name]!, 0) + 0.01 * x['a']! * x['b']!
    const plain = simulate(ten, model, { method: 'plain' })
    const quasi = simulate(ten, model)
    expect(quasi.converged && plain.converged).toBe(true)
    expect(quasi.trials * 10).toBeLessThan(plain.trials)
  })

  it('take more dimensions than the lattice has', () => {
    const names = Array.from({ length: 40 }, (_, i) => `x${i}`)
    const many = Object.fromEntries(names.map((name) => [name, rectangular(-1, 1)]))
    const s = simulate(many, (x) => names.reduce((total, name) => total + x[name]!, 0))
    expect(s.u / Math.sqrt(40 / 3)).toBeCloseTo(1, 2)
    expect(Math.abs(s.interval[1] / s.u - z)).toBeLessThan(0.03)
  })
})

describe('steps', () => {
  const inputs = { a: normal(0, 1), b: rectangular(0, 1) }
  const model = (x: { a: number; b: number }) => x.a ** 2 * x.b

  it.each([{ trials: 200_000 }, { method: 'plain' }, { accuracy: 0.001 }] as const)(
    'end in the same answer: %o',
    async (options) => {
      const whole = simulate(inputs, model, options)
      const seen: Progress[] = []
      expect(await simulateAsync(inputs, model, { ...options, onProgress: (p) => seen.push(p) })).toEqual(whole)
      expect(seen.length).toBeGreaterThan(2)
      seen.forEach((p, i) => {
        expect(p.trials).toBeGreaterThan(i === 0 ? 0 : seen[i - 1]!.trials - 1)
        expect(p.share).toBeGreaterThan(0)
        expect(p.share).toBeLessThanOrEqual(1)
      })
    },
  )

  it('can be left at any time', () => {
    const run = simulation(inputs, model, { trials: 1_000_000 })
    expect(run.next().value).toMatchObject({ trials: 8192 })
    run.return(undefined as never)
    expect(run.next()).toMatchObject({ done: true, value: undefined })
  })

  it('let others run in between', async () => {
    let turns = 0
    const tick = setInterval(() => turns++, 0)
    await simulateAsync(inputs, model, { trials: 2_000_000 })
    clearInterval(tick)
    expect(turns).toBeGreaterThan(0)
  })

  it('stop with the reason of the signal', async () => {
    const stop = new AbortController()
    let told = 0
    const onProgress = () => {
      told++
      stop.abort('enough')
    }
    const run = simulateAsync(inputs, model, { trials: 5_000_000, signal: stop.signal, onProgress })
    await expect(run).rejects.toBe('enough')
    expect(told).toBe(1)
    await expect(simulateAsync(inputs, model, { signal: stop.signal })).rejects.toBe('enough')
  })

  it('report bad input as a rejection', async () => {
    await expect(simulateAsync({ a: Number.NaN }, (x) => x.a)).rejects.toThrow(InputError)
  })
})

describe('bad options', () => {
  const wrong: [string, object, string][] = [
    ['seed', { seed: -1 }, 'seed = -1'],
    ['seed with a fraction', { seed: 1.5 }, 'seed = 1.5'],
    ['level 1', { level: 1 }, 'level = 1'],
    ['level NaN', { level: Number.NaN }, 'level = NaN'],
    ['accuracy 0', { accuracy: 0 }, 'accuracy = 0'],
    ['trials 0', { trials: 0 }, 'trials = 0'],
    ['too many trials', { trials: 1e12 }, 'trials'],
    ['infinite trials', { maximumTrials: Number.POSITIVE_INFINITY }, 'maximumTrials'],
    ['method', { method: 'other' }, 'method'],
    ['limits', { limits: { lower: 2, upper: 1 } }, 'limits.lower = 2'],
    ['limits NaN', { limits: { upper: Number.NaN } }, 'limits.lower'],
    ['correlation', { correlations: [{ between: ['a', 'b'], coefficient: 1.2 }] }, 'coefficient = 1.2'],
    ['group', { groups: [{ name: 'g', inputs: ['c'] }] }, '"c"'],
  ]
  it.each(wrong)('%s', (_, options, message) => {
    const run = () => simulate({ a: normal(0, 1), b: normal(0, 1) }, (x) => x.a + x.b, options)
    expect(run).toThrow(InputError)
    expect(run).toThrow(message)
  })

  it('refuses a result too large to be squared', () => {
    expect(() => simulate({ a: rectangular(-1, 1) }, (x) => x.a * 1e308)).toThrow(InputError)
  })
})

describe('what is not known', () => {
  it('is an end with too few values beyond it: more points are taken, or it is said', () => {
    const far = simulate({ a: normal(0, 1) }, (x) => x.a, { level: 0.999 })
    expect(far.trials).toBeGreaterThanOrEqual(32_768)
    expect(Math.abs(far.interval[1] - jStat.normal.inv(0.9995, 0, 1))).toBeLessThan(0.03)
    const tooFar = simulate({ a: normal(0, 1) }, (x) => x.a, { level: 0.999, maximumTrials: 10_000 })
    expect(tooFar.converged).toBe(false)
    expect(tooFar.endError).toBeGreaterThanOrEqual(tooFar.u)
  })

  it('is said of a fixed number of trials too', () => {
    const inputs = { a: normal(0, 1) }
    expect(simulate(inputs, (x) => x.a, { trials: 1000 }).converged).toBe(false)
    expect(simulate(inputs, (x) => x.a, { trials: 500_000 }).converged).toBe(true)
  })
})
