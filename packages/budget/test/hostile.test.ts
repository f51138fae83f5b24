import { between, InputError, plusMinus } from '@ohmward/quantity'
import { jStat } from 'jstat'
import { describe, expect, it } from 'vitest'
import * as budget from '../src/index.js'
import * as statistics from '../src/statistics/index.js'

const any = (value: unknown) => value as never
const { propagate, extremes, simulate, marginOf, plainMargin } = budget
const { globalRisks, conformity, guardBand } = statistics
const part = { nominal: 1, lower: 0, upper: 2, distribution: { kind: 'rectangular' } }
const text = { id: 'x', name: 'x', unit: 'V', sense: 'at most', catches: [] }
const spec = { ...text, value: () => 1, limit: 2 }
const around = { inputs: { a: 1 }, conditions: [] }
const risks = { process: { mean: 0, u: 1 }, u: 0.1, tolerance: { lower: -1, upper: 1 } }
const identity = ({ a }: { a: number }) => a

describe('what exported functions are given', () => {
  it.each<[string, () => unknown]>([
    ['a misspelled word in a spread', () => propagate({ a: any({ ...part, dof: 3 }) }, identity)],
    [
      'a word that a shape has no use for',
      () => propagate({ a: any({ ...part, distribution: { kind: 'rectangular', coverage: 2 } }) }, identity),
    ],
    [
      'a misspelled word in a distribution',
      () => simulate({ a: any({ ...part, distribution: { kind: 'normal', coverage: 2, dof: 3 } }) }, identity),
    ],
    ['numbers as text', () => propagate({ a: any({ ...part, nominal: '1', lower: '0', upper: '2' }) }, identity)],
    ['symbols for numbers', () => extremes({ a: any({ ...part, nominal: Symbol('x') }) }, identity)],
    ['a symbol for a spread', () => simulate({ a: any(Symbol('x')) }, identity)],
    [
      'a model that gives a symbol',
      () =>
        propagate(
          { a: plusMinus(1, 1) },
          any(() => Symbol('x')),
        ),
    ],
    [
      'limits whose width is no number',
      () => propagate({ a: any({ ...part, lower: -1e308, upper: 1e308 }) }, identity),
    ],
    ['a spread too large to be squared', () => propagate({ a: between(-8e307, 8e307, 0) }, identity)],
    ['no value of a margin', () => marginOf(any({ ...spec, value: 3 }), any(around))],
    ['a limit in words', () => marginOf(any({ ...spec, limit: '2 V' }), any(around))],
    ['a limit that is no number', () => marginOf(any({ ...spec, limit: Number.NaN }), any(around))],
    ['an unknown side', () => marginOf(any({ ...spec, sense: 'below' }), any(around))],
    ['a condition that is no input', () => marginOf(any(spec), any({ ...around, conditions: ['b'] }))],
    ['a misspelled rule', () => marginOf(any(spec), any({ ...around, acept: 0.9 }))],
    ['a rule in per cent', () => marginOf(any(spec), any({ ...around, accept: 95 }))],
    ['a margin of nothing', () => plainMargin(any(text), Number.NaN, 1)],
    ['no inspection', () => globalRisks(any(null))],
    ['an inspection without process', () => globalRisks(any({ ...risks, process: null }))],
    ['a misspelled acceptance', () => globalRisks(any({ ...risks, acceptence: { lower: 0 } }))],
    ['no estimate', () => conformity(any(null), { lower: 1 })],
    ['limits that are none', () => conformity({ estimate: 1, u: 1 }, any(null))],
    ['a limit as text', () => conformity({ estimate: 1, u: 1 }, any({ lower: '0' }))],
    ['no guard', () => guardBand(1, any(null))],
    ['a misspelled guard', () => guardBand(1, any({ multple: 2 }))],
    ['two guards', () => guardBand(1, any({ multiple: 2, probability: 0.9 }))],
    ['a probability as text', () => statistics.normalQuantile(any('0.5'))],
    ['a deviate as text', () => statistics.normalProbability(any('1'))],
    ['no deviate', () => statistics.studentProbability(Number.NaN, 3)],
    ['degrees of freedom as text', () => statistics.studentQuantile(0.5, any('3'))],
    ['no spread', () => statistics.moments(any(null))],
    ['half a spread', () => statistics.moments(any({ nominal: 1 }))],
  ])('%s is refused', (_, run) => {
    expect(run).toThrow(InputError)
  })
})

describe('global risks', () => {
  it('of a production far outside its tolerance end, whatever the distance', () => {
    for (const mean of [1e3, 1e5, 1e8, -1e12]) {
      const found = globalRisks({ ...risks, process: { mean, u: 1 } })
      expect(found).toEqual({ nonconforming: 1, consumer: 0, producer: 0 })
    }
  })

  it('of an acceptance far away are those of no inspection', () => {
    // All is accepted: the consumer's risk is the share out of tolerance, 2 Φ(-1).
    const found = globalRisks({ ...risks, acceptance: { lower: -1e9, upper: 1e9 } })
    expect(found.consumer).toBeCloseTo(2 * jStat.normal.cdf(-1, 0, 1), 9)
    expect(found.producer).toBeCloseTo(0, 12)
  })

  it('of a process just outside its tolerance are those of a sum over both', () => {
    const mean = 3
    let consumer = 0
    const step = 1e-3
    for (let x = mean - 9; x < mean + 9; x += step) {
      const accepted = jStat.normal.cdf(1, x, 0.1) - jStat.normal.cdf(-1, x, 0.1)
      if (x + step / 2 > 1) consumer += jStat.normal.pdf(x, mean, 1) * accepted * step
    }
    expect(globalRisks({ ...risks, process: { mean, u: 1 } }).consumer).toBeCloseTo(consumer, 3)
  })
})
