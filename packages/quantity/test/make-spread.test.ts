import { between, exact, percent, plusMinus, ppm, relative, scaled } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { refusalOf } from './refuse.js'

const rectangular = { kind: 'rectangular' }
const normal = { kind: 'normal', coverage: 2 } as const

describe('spreads made in code', () => {
  it('are rectangular by default', () => {
    expect(exact(5)).toEqual({ nominal: 5, lower: 5, upper: 5, distribution: { kind: 'exact' } })
    expect(plusMinus(5, 1)).toEqual({ nominal: 5, lower: 4, upper: 6, distribution: rectangular })
    expect(relative(-200, 0.25)).toEqual({ nominal: -200, lower: -250, upper: -150, distribution: rectangular })
    expect(between(1, 4)).toEqual({ nominal: 2.5, lower: 1, upper: 4, distribution: rectangular })
    expect(between(1, 4, 2)).toEqual({ nominal: 2, lower: 1, upper: 4, distribution: rectangular })
    expect(plusMinus(5, 1, normal).distribution).toBe(normal)
    expect(relative(5, 0.1, normal).distribution).toBe(normal)
    expect(between(1, 4, 2, normal).distribution).toBe(normal)
  })

  it('have the limits that come out on paper', () => {
    expect(relative(0.7, 0.05)).toMatchObject({ lower: 0.665, upper: 0.735 })
    expect(relative(1.1, 0.1)).toMatchObject({ lower: 0.99, upper: 1.21 })
    const fine = 1.2345678901234567
    expect(plusMinus(fine, 0)).toEqual(exact(fine))
    expect(plusMinus(fine, 1e-15).lower).toBe(fine - 1e-15)
    expect(plusMinus(fine, 1e-15).upper).toBe(fine + 1e-15)
  })

  it('scale, and exchange their limits for a negative factor', () => {
    expect(scaled(between(1, 4, 2, normal), 2)).toEqual({ nominal: 4, lower: 2, upper: 8, distribution: normal })
    expect(scaled(between(1, 4, 2, normal), -2)).toEqual({ nominal: -4, lower: -8, upper: -2, distribution: normal })
    expect(scaled({ ...between(1, 4), degreesOfFreedom: 3 }, 2).degreesOfFreedom).toBe(3)
  })

  it('take the width of nothing for exact', () => {
    expect(plusMinus(5, 0)).toEqual(exact(5))
    expect(relative(5, 0)).toEqual(exact(5))
    expect(scaled(plusMinus(5, 1), 0)).toEqual(exact(0))
  })

  it('refuse what makes no sense', () => {
    for (const run of [
      () => exact(Number.NaN),
      () => exact(Infinity),
      () => plusMinus(5, -1),
      () => plusMinus(Number.NaN, 1),
      () => plusMinus(5, Infinity),
      () => relative(5, -0.1),
      () => relative(5, 1.01),
      () => relative(5, Number.NaN),
      () => between(4, 1),
      () => between(1, 4, 5),
      () => between(1, 4, 0),
      () => between(-Infinity, 4),
      () => scaled(exact(5), Number.NaN),
      () => scaled({ ...plusMinus(5, 1), lower: 7 }, 2),
      () => scaled(exact(1e300), 1e300),
    ])
      refusalOf(run)
    expect(relative(5, 1).upper).toBe(10)
    expect(refusalOf(() => plusMinus(5, -1)).message).toBe('half = -1: allowed is at least 0')
    expect(refusalOf(() => relative(5, 2)).message).toBe('fraction = 2: allowed is from 0 to 1')
    expect(refusalOf(() => between(1, 4, 5)).message).toBe('nominal = 5: allowed is from 1 to 4')
    expect(refusalOf(() => exact(Infinity)).message).toBe('nominal = Infinity: allowed is a finite number')
  })

  it('give shares as ratios', () => {
    expect(ppm(50)).toBe(5e-5)
    expect(percent(5)).toBe(0.05)
  })
})
