import { between, plusMinus } from '@ohmward/quantity'
import { jStat } from 'jstat'
import { describe, expect, it } from 'vitest'
import { simulate } from '../src/index.js'

/** The shortest interval with 95 % of a distribution, by its quantiles: the best of a fine grid, then of finer ones. */
function shortestOf(quantile: (p: number) => number): [number, number] {
  let from = 0
  let to = 0.05
  let best = 0
  for (let round = 0; round < 8; round++) {
    let least = Infinity
    const step = (to - from) / 100
    for (let j = 0; j <= 100; j++) {
      const p = Math.min(Math.max(from + j * step, 1e-12), 0.05 - 1e-12)
      const width = quantile(p + 0.95) - quantile(p)
      if (width < least) {
        least = width
        best = p
      }
    }
    from = Math.max(0, best - step)
    to = Math.min(0.05, best + step)
  }
  return [quantile(best), quantile(best + 0.95)]
}

const share = between(0, 1)
type X = Readonly<Record<string, number>>

/** Skewed distributions of known quantiles, as models of uniform and normal inputs. */
const skewed: Record<string, [inputs: object, model: (x: X) => number, quantile: (p: number) => number]> = {
  exponential: [{ a: share }, (x) => -Math.log(x['a']!), (p) => -Math.log(1 - p)],
  'of a square of a normal deviate': [
    { a: plusMinus(0, 1, { kind: 'normal', coverage: 1 }) },
    (x) => x['a']! ** 2,
    (p) => jStat.chisquare.inv(p, 1),
  ],
  'chi-squared, eight degrees of freedom': [
    { a: share, b: share, c: share, d: share },
    (x) => -2 * Math.log(x['a']! * x['b']! * x['c']! * x['d']!),
    (p) => jStat.chisquare.inv(p, 8),
  ],
  lognormal: [
    { a: plusMinus(0, 0.6, { kind: 'normal', coverage: 1 }) },
    (x) => Math.exp(x['a']!),
    (p) => jStat.lognormal.inv(p, 0, 0.6),
  ],
}

describe.each(Object.entries(skewed))('the shortest interval, %s', (_, [inputs, model, quantile]) => {
  const [lower, upper] = shortestOf(quantile)

  it.each(['quasi', 'plain'] as const)('is found as closely as it says (%s)', (method) => {
    let squares = 0
    const runs = 8
    for (let seed = 1; seed <= runs; seed++) {
      const s = simulate(inputs as never, model as never, { method, seed, accuracy: 0.02 })
      const error = Math.max(Math.abs(s.shortest[0] - lower), Math.abs(s.shortest[1] - upper))
      expect(error).toBeLessThan(5 * s.shortestError)
      squares += (error / s.shortestError) ** 2
      // Its width is the sure thing: that of the distribution to a few per cent, and not above the symmetric one's.
      expect((s.shortest[1] - s.shortest[0]) / (upper - lower)).toBeCloseTo(1, 1)
      expect(s.shortest[1] - s.shortest[0]).toBeLessThanOrEqual(s.interval[1] - s.interval[0] + 1e-12)
    }
    expect(Math.sqrt(squares / runs)).toBeLessThan(1.8)
  })

  it('settles as more is drawn', () => {
    const few = simulate(inputs as never, model as never, { trials: 4096, method: 'quasi' })
    const many = simulate(inputs as never, model as never, { trials: 1 << 18, method: 'quasi' })
    expect(many.shortestError).toBeLessThan(few.shortestError / 2)
    expect(many.shortest[1] - many.shortest[0]).toBeCloseTo(upper - lower, 1)
  })
})
