import { describe, expect, it } from 'vitest'
import { behind, chain, formula } from '../src/index.js'

const current = formula({
  symbol: 'I',
  quantity: 'current',
  unit: 'A',
  inputs: { V: ['V', 0, 10], R: ['ohm', 1, 10] },
  expression: 'V / R',
  compute: (x) => x.V / x.R,
  source: 'Ohm',
})

const power = formula({
  symbol: 'P',
  quantity: 'power',
  unit: 'W',
  inputs: { I: ['A', 0, 10], R: ['ohm', 1, 10] },
  expression: 'I^2 * R',
  compute: (x) => x.I ** 2 * x.R,
  source: 'Joule',
})

describe('a chain', () => {
  it('names what it needs and what it leaves', () => {
    const { inputs, computed } = chain([current, power], ['T'])
    expect(inputs).toEqual(['T', 'V', 'R'])
    expect(computed).toEqual(['I', 'P'])
  })

  it('makes places of numbers in which nothing stands, each its own', () => {
    const { place } = chain([current, power])
    const y = place()
    expect(Object.keys(y)).toEqual(['V', 'R', 'I', 'P'])
    expect(Object.values(y)).toEqual([NaN, NaN, NaN, NaN])
    y.V = 3
    y.R = 2
    y.I = current(y)
    y.P = power(y)
    expect(y.P).toBe(4.5)
    expect(place().V).toBeNaN()
  })

  it('refuses formulas out of order, and two of one symbol', () => {
    expect(() => chain([power, current])).toThrow('P is computed before I, which it reads')
    expect(() => chain([current, current])).toThrow('I is computed twice')
  })

  it('finds what stands behind a symbol', () => {
    expect([...behind([current, power], ['P'])].sort()).toEqual(['I', 'P', 'R', 'V'])
    expect([...behind([current, power], ['V'])]).toEqual(['V'])
  })
})
