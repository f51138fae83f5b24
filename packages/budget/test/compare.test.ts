import { InputError, type Spread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { compare, propagate, simulate } from '../src/index.js'

const at = (lower: number, upper: number, u: number, endError = 0) => ({
  interval: [lower, upper] as const,
  u,
  endError,
  level: 0.95,
})

describe('the comparison of JCGM 101:2008, clause 8', () => {
  it.each([
    // JCGM 101, 7.9.2, examples 1 and 2: 0.00035 g is 35 × 10⁻⁵: δ = ½ × 10⁻⁵; with one digit, 2 K is 2 × 10⁰: δ = 0.5
    [0.00035, 2, 0.000005],
    [2, 1, 0.5],
    [2, 2, 0.05],
    [0.0996, 2, 0.005],
    [50, 2, 0.5],
    [0.0754, 2, 0.0005],
  ])('u = %d with %d digits has the tolerance %d', (u, digits, tolerance) => {
    expect(compare(at(0, 1, u), at(0, 1, u), { digits }).tolerance).toBeCloseTo(tolerance, 12)
  })

  it('agrees when both ends are within δ', () => {
    const { agrees, text, lowerDifference } = compare(at(-3.92, 3.92, 2), at(-3.88, 3.88, 2))
    expect(agrees).toBe(true)
    // What is known well enough is decided either way.
    for (const lower of [-3.88, -3.8])
      expect(compare(at(-3.92, 3.92, 2), at(lower, 3.88, 2))).toMatchObject({ decided: true, agrees: lower === -3.88 })
    expect(lowerDifference).toBeCloseTo(0.04, 12)
    expect(text).toBe('Linear propagation agrees with simulation: both ends within δ = 0.05.')
  })

  it('names the end that differs, by how much, and what to use', () => {
    expect(compare(at(-3.92, 3.92, 2), at(-3.8, 3.9, 2)).text).toBe(
      'Linear propagation differs from simulation, the lower end by 0.12, more than δ = 0.05: use the simulated interval.',
    )
    expect(compare(at(-3.92, 3.92, 2), at(-3.9, 4.2, 2)).text).toContain('simulation, the upper end by 0.28, more')
    expect(compare(at(-3.92, 3.92, 2), at(-3.8, 4.2, 2)).text).toContain('lower end by 0.12 and the upper end by 0.28')
  })

  it('does not decide on ends that are not known to δ/4, unless the difference is plain', () => {
    const unsure = compare(at(-3.92, 3.92, 2), at(-3.9, 3.92, 2, 0.02))
    expect(unsure.agrees).toBe(false)
    expect(unsure.text).toMatch(/^Not decided: .* known to 0.02, .* takes 0.013/)
    expect(compare(at(-3.92, 3.92, 2), at(-3.86, 3.92, 2, 0.02)).text).toMatch(/^Not decided/)
    expect(compare(at(-3.92, 3.92, 2), at(-3.7, 3.92, 2, 0.02)).text).toMatch(/^Linear propagation differs/)
    expect(compare(at(-3.92, 3.92, 2), at(-3.9, 3.92, 2, 0.0125)).agrees).toBe(true)
  })

  it('has no tolerance where there is no uncertainty', () => {
    expect(compare(at(1, 1, 0), at(1, 1, 0))).toMatchObject({ agrees: true, tolerance: 0 })
  })

  it('refuses other digits and two levels', () => {
    expect(() => compare(at(0, 1, 1), at(0, 1, 1), { digits: 3 })).toThrow(InputError)
    expect(() => compare(at(0, 1, 1), { ...at(0, 1, 1), level: 0.99 })).toThrow('simulation.level = 0.99')
  })

  it('turns down the linear answer for a mass calibration whose second order matters (JCGM 101, 9.3, from memory)', () => {
    const n = (mean: number, u: number): Spread => ({
      nominal: mean,
      lower: mean - u,
      upper: mean + u,
      distribution: { kind: 'normal', coverage: 1 },
    })
    const r = (lower: number, upper: number): Spread => ({
      nominal: (lower + upper) / 2,
      lower,
      upper,
      distribution: { kind: 'rectangular' },
    })
    const inputs = { m: n(100_000, 0.05), dm: n(1.234, 0.02), a: r(1.1, 1.3), W: r(7000, 9000), R: r(7950, 8050) }
    const model = (x: Record<keyof typeof inputs, number>) =>
      (x.m + x.dm) * (1 + (x.a - 1.2) * (1 / x.W - 1 / x.R)) - 100_000
    const { agrees, tolerance, text } = compare(propagate(inputs, model), simulate(inputs, model))
    expect(agrees).toBe(false)
    expect(tolerance).toBeCloseTo(0.0005, 12)
    expect(text).toContain('use the simulated interval')
  })

  it('names no difference that is allowed where linear propagation gives no width', () => {
    const offset: Spread = { nominal: 0, lower: -1, upper: 1, distribution: { kind: 'rectangular' } }
    const squared = ({ x }: { x: number }) => x * x
    const { agrees, text } = compare(propagate({ x: offset }, squared), simulate({ x: offset }, squared))
    expect(agrees).toBe(false)
    expect(text).toMatch(
      /^Linear propagation differs from simulation, the lower end by .*: use the simulated interval\.$/,
    )
    expect(text).not.toContain('more than')
  })
})
