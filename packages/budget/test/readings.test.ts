import { jStat } from 'jstat'
import { describe, expect, it } from 'vitest'
import { refusalOf } from '../../quantity/test/refuse.js'
import { propagate, propagateAll, readings, simulate, simultaneous } from '../src/index.js'
import { moments } from '../src/statistics/index.js'

/** JCGM 100:2008, table H.2, from memory: five sets of amplitude, current and phase at one impedance. */
const tableH2 = {
  V: [5.007, 4.994, 5.005, 4.99, 4.999],
  I: [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3],
  phi: [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
}

describe('readings', () => {
  it('have the mean, the standard uncertainty and the degrees of freedom of JCGM 100:2008, 4.2', () => {
    // 2, 4, 4, 5 by hand: mean 3.75, squares 4.75, s² = 4.75/3, u² = s²/4.
    const spread = readings([2, 4, 4, 5])
    const { mean, u, degreesOfFreedom } = moments(spread)
    expect(mean).toBe(3.75)
    expect(u).toBeCloseTo(Math.sqrt(4.75 / 12), 12)
    expect(degreesOfFreedom).toBe(3)
    // Table G.2: 3.18 at 95 %.
    expect((spread.upper - 3.75) / u).toBeCloseTo(3.18, 2)
  })

  it('of 4.4.3 (twenty temperatures, printed mean 100.145 °C, s 1.489, u 0.333) come out as printed', () => {
    // JCGM 100:2008, table 1, from memory.
    const temperatures = [
      96.9, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11,
      101.2, 101.57, 101.84, 102.36, 102.72,
    ]
    const { mean, u, degreesOfFreedom } = moments(readings(temperatures))
    expect(mean.toFixed(3)).toBe('100.145')
    expect(u.toFixed(3)).toBe('0.333')
    expect(degreesOfFreedom).toBe(19)
  })

  it('are simulated by the scaled and shifted t distribution (JCGM 101:2008, 6.4.9)', () => {
    const values = [2, 4, 4, 5]
    const { interval } = simulate({ x: readings(values) }, ({ x }) => x, { method: 'quasi', trials: 400_000 })
    const half = jStat.studentt.inv(0.975, 3) * Math.sqrt(4.75 / 12)
    expect(interval[0]).toBeCloseTo(3.75 - half, 1)
    expect(interval[1]).toBeCloseTo(3.75 + half, 1)
  })

  it('keep their scatter beside a large mean', () => {
    expect(moments(readings([1e9, 1e9 + 2, 1e9 + 4])).u).toBeCloseTo(2 / Math.sqrt(3), 8)
  })

  it.each<[unknown, string]>([
    [[1], 'readings'],
    [[], 'readings'],
    [undefined, 'readings'],
    ['1, 2', 'readings'],
    [[1, Number.NaN], 'readings[1]'],
    [[1, '2'], 'readings[1]'],
    [[1e200, -1e200], 'readings'],
    [[3.3, 3.3, 3.3], 'readings'],
  ])('refuse %o', (values, field) => {
    expect(refusalOf(() => readings(values as never)).field).toBe(field)
  })
})

describe('simultaneous readings (JCGM 100:2008, H.2, values from memory)', () => {
  const { inputs, correlations } = simultaneous(tableH2)

  it('have the means, standard uncertainties and correlations that are printed', () => {
    expect(inputs.V.nominal.toFixed(4)).toBe('4.9990')
    expect((inputs.I.nominal * 1e3).toFixed(4)).toBe('19.6610')
    expect(inputs.phi.nominal.toFixed(5)).toBe('1.04446')
    expect(moments(inputs.V).u.toFixed(4)).toBe('0.0032')
    expect((moments(inputs.I).u * 1e3).toFixed(4)).toBe('0.0095')
    expect(moments(inputs.phi).u.toFixed(5)).toBe('0.00075')
    expect(correlations.map(({ between, coefficient }) => [...between, coefficient.toFixed(2)])).toEqual([
      ['V', 'I', '-0.36'],
      ['V', 'phi', '0.86'],
      ['I', 'phi', '-0.65'],
    ])
  })

  const models = {
    R: ({ V, I, phi }: Record<'V' | 'I' | 'phi', number>) => (V / I) * Math.cos(phi),
    X: ({ V, I, phi }: Record<'V' | 'I' | 'phi', number>) => (V / I) * Math.sin(phi),
    Z: ({ V, I }: Record<'V' | 'I' | 'phi', number>) => V / I,
  }
  const { budgets, covariance, correlation, outputs } = propagateAll(inputs, models, { correlations })

  it('give resistance, reactance and impedance with their uncertainties and correlations as printed', () => {
    expect(outputs).toEqual(['R', 'X', 'Z'])
    expect(budgets.R.estimate.toFixed(3)).toBe('127.732')
    expect(budgets.X.estimate.toFixed(3)).toBe('219.847')
    expect(budgets.Z.estimate.toFixed(3)).toBe('254.260')
    expect(budgets.R.u.toFixed(3)).toBe('0.071')
    // Printed 0.295, computed there from coefficients of two digits.
    expect(Math.abs(budgets.X.u - 0.295)).toBeLessThan(0.001)
    expect(budgets.Z.u.toFixed(3)).toBe('0.236')
    expect(correlation[0]![1]!.toFixed(3)).toBe('-0.588')
    expect(correlation[0]![2]!.toFixed(3)).toBe('-0.485')
    expect(correlation[1]![2]!.toFixed(3)).toBe('0.993')
  })

  it('agree with the second way of H.2.4: each set computed by itself, and the results averaged', () => {
    const sets = tableH2.V.map((V, n) => ({ V, I: tableH2.I[n]!, phi: tableH2.phi[n]! }))
    const own = simultaneous({ R: sets.map(models.R), X: sets.map(models.X) })
    expect(Math.abs(budgets.R.u / moments(own.inputs.R).u - 1)).toBeLessThan(0.005)
    expect(covariance[1]![1]! / moments(own.inputs.X).u ** 2).toBeCloseTo(1, 2)
    expect(correlation[0]![1]!).toBeCloseTo(own.correlations[0]!.coefficient, 2)
    // Five sets: the mean of what was computed from each has 4 degrees of freedom, and so has the result.
    expect(budgets.R.degreesOfFreedom).toBeCloseTo(4, 9)
    expect(budgets.R.doubts.join()).not.toMatch(/degrees of freedom/)
  })

  it('are refused where the lists are not of one length', () => {
    expect(refusalOf(() => simultaneous({ a: [1, 2, 3], b: [1, 2] })).field).toBe('b.length')
    expect(refusalOf(() => simultaneous({} as never)).field).toBe('readings')
    expect(refusalOf(() => simultaneous({ a: [1, 2], b: 3 as never })).field).toBe('b')
  })
})

describe('several outputs', () => {
  const part = (nominal: number, u: number) => ({
    nominal,
    lower: nominal - 2 * u,
    upper: nominal + 2 * u,
    distribution: { kind: 'normal', coverage: 2 } as const,
  })
  const inputs = { a: part(1, 0.1), b: part(2, 0.2), c: 5 }
  const models = {
    sum: (x: { a: number; b: number }) => x.a + x.b,
    difference: (x: { a: number; b: number }) => x.a - x.b,
  }

  it('have the covariance matrix C U Cᵀ', () => {
    // Var(a) = 0.01, Var(b) = 0.04: sums 0.05, their covariance 0.01 - 0.04.
    const { covariance, correlation } = propagateAll(inputs, models)
    expect(covariance.flat().map((x) => x.toFixed(6))).toEqual(['0.050000', '-0.030000', '-0.030000', '0.050000'])
    expect(correlation[0]![1]).toBeCloseTo(-0.6, 9)
  })

  it('take correlated inputs, and an output that does not vary', () => {
    // With r = 0.5, Cov(a, b) = 0.01: sum 0.07, difference 0.03, covariance still Var(a) - Var(b).
    const { covariance, correlation } = propagateAll(
      inputs,
      { ...models, none: (x: { c: number }) => x.c },
      { correlations: [{ between: ['a', 'b'], coefficient: 0.5 }] },
    )
    expect(covariance[0]!.map((x) => x.toFixed(6))).toEqual(['0.070000', '-0.030000', '0.000000'])
    expect(covariance[1]![1]).toBeCloseTo(0.03, 9)
    expect(correlation[2]).toEqual([0, 0, 1])
  })

  it('refuse what is no model, and groups', () => {
    expect(refusalOf(() => propagateAll(inputs, { x: 3 as never })).field).toBe('models.x')
    expect(refusalOf(() => propagateAll(inputs, {} as never)).field).toBe('models')
    expect(refusalOf(() => propagateAll(inputs, null as never)).field).toBe('models')
    expect(refusalOf(() => propagateAll(inputs, models, { groups: [] } as never)).hint).toContain('Unknown: groups')
  })

  it('are those of each by itself', () => {
    const options = { level: 0.9 }
    expect(propagateAll(inputs, models, options).budgets.sum).toEqual(propagate(inputs, models.sum, options))
  })
})
