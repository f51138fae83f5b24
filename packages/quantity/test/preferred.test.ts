import {
  nearest,
  nextDown,
  nextUp,
  preferredAtLeast,
  preferredAtMost,
  preferredIn,
  preferredValues,
  type Series,
} from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { refusalOf } from './refuse.js'

// IEC 60063: E24 as printed; E48, E96 and E192 by the rule of the roots, with 920 in E192.
const e24 = [
  1, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2, 2.2, 2.4, 2.7, 3, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1,
]

describe('one decade of a series', () => {
  it('has the printed values up to E24', () => {
    expect(preferredValues('E24')).toEqual(e24)
    expect(preferredValues('E12')).toEqual(e24.filter((_, i) => i % 2 === 0))
    expect(preferredValues('E6')).toEqual([1, 1.5, 2.2, 3.3, 4.7, 6.8])
    expect(preferredValues('E3')).toEqual([1, 2.2, 4.7])
  })

  it('follows the roots beyond, each series every second value of the next', () => {
    const e192 = preferredValues('E192')
    const rule = Array.from({ length: 192 }, (_, i) => Math.round(100 * 10 ** (i / 192)) / 100)
    expect(rule[185]).toBe(9.19)
    rule[185] = 9.2
    expect(e192).toEqual(rule)
    expect(preferredValues('E96')).toEqual(e192.filter((_, i) => i % 2 === 0))
    expect(preferredValues('E48')).toEqual(e192.filter((_, i) => i % 4 === 0))
    expect(preferredValues('E96').slice(0, 6)).toEqual([1, 1.02, 1.05, 1.07, 1.1, 1.13])
    expect(preferredValues('E96').slice(-4)).toEqual([9.09, 9.31, 9.53, 9.76])
  })
})

describe('the way to a preferred value', () => {
  it('is the nearest in ratio', () => {
    expect(nearest(4.9e-7, 'E6')).toBe(4.7e-7)
    expect(nearest(48, 'E24')).toBe(47)
    expect(nearest(50, 'E24')).toBe(51)
    // Between 1 and 2.2 the middle is 1.6 in difference and 1.483 in ratio.
    expect(nearest(1.5, 'E3')).toBe(2.2)
    expect(nearest(1.48, 'E3')).toBe(1)
    expect(nearest(9.9, 'E24')).toBe(10)
    expect(nearest(0.99, 'E3')).toBe(1)
  })

  it('gives the smaller one of two at the same ratio', () => {
    expect(nearest(2, 'E24')).toBe(2)
    expect(nearest(Math.sqrt(3.3 * 3.6), 'E24')).toBe(3.3)
  })

  it('steps up and down, always to another value', () => {
    expect(nextUp(4.7e-7, 'E12')).toBe(5.6e-7)
    expect(nextUp(5e-7, 'E12')).toBe(5.6e-7)
    expect(nextDown(4.7e-7, 'E12')).toBe(3.9e-7)
    expect(nextDown(5e-7, 'E12')).toBe(4.7e-7)
    expect(nextUp(9.1, 'E24')).toBe(10)
    expect(nextDown(1, 'E24')).toBe(0.91)
    expect(nextUp(919, 'E192')).toBe(920)
    expect(nextDown(931, 'E192')).toBe(920)
  })

  it('goes to the first at least or at most as large', () => {
    expect(preferredAtLeast(47, 'E24')).toBe(47)
    expect(preferredAtLeast(47.1, 'E24')).toBe(51)
    expect(preferredAtMost(47, 'E24')).toBe(47)
    expect(preferredAtMost(46.9, 'E24')).toBe(43)
  })

  it('lists what lies between two values, both included', () => {
    expect(preferredIn({ from: 1, to: 10 }, 'E3')).toEqual([1, 2.2, 4.7, 10])
    expect(preferredIn({ from: 1.01, to: 9.99 }, 'E3')).toEqual([2.2, 4.7])
    expect(preferredIn({ from: 0.047, to: 0.22 }, 'E3')).toEqual([0.047, 0.1, 0.22])
    expect(preferredIn({ from: 5, to: 6 }, 'E3')).toEqual([])
    expect(preferredIn({ from: 6, to: 5 }, 'E24')).toEqual([])
    expect(preferredIn({ from: 1, to: 9.999 }, 'E192')).toEqual(preferredValues('E192'))
  })

  it('meets the double nearest to each decimal from 1e-15 to 1e15', () => {
    for (let decade = -15; decade < 15; decade++)
      for (const value of ['1.1', '1.2', '2.2', '3.3', '4.7', '8.2'])
        expect(nearest(Number(`${value}e${decade}`) * 1.001, 'E24')).toBe(Number(`${value}e${decade}`))
    expect(nextDown(1e-15, 'E96')).toBe(9.76e-16)
    expect(nextUp(1e15, 'E96')).toBe(1.02e15)
  })

  it('refuses what has none', () => {
    for (const value of [0, -1, Number.NaN, Infinity, 0.9e-15, 1.1e15]) {
      for (const verb of [nearest, nextUp, nextDown, preferredAtLeast, preferredAtMost])
        expect(refusalOf(() => verb(value, 'E24'))).toMatchObject({ field: 'value', value })
      expect(refusalOf(() => preferredIn({ from: value, to: 1 }, 'E24')).field).toBe('from')
      expect(refusalOf(() => preferredIn({ from: 1, to: value }, 'E24')).field).toBe('to')
    }
    for (const series of ['E5', 'e24', 'constructor', '', undefined, 24])
      expect(refusalOf(() => preferredValues(series as Series)).message).toContain(
        'allowed is E3, E6, E12, E24, E48, E96, E192',
      )
    expect(refusalOf(() => nearest(0, 'E24')).allowed).toBe('from 1e-15 to 1000000000000000')
  })
})
