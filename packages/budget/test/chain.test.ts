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
    expect(() => chain([power, current])).toThrow('formulas[0] = "P": allowed is a place behind I, which it reads')
    const itself = Object.assign((x: never) => power(x), power, { symbol: 'R', inputs: { R: ['ohm', 0, 1] } })
    expect(() => chain([itself as never])).toThrow('formulas[0] = "R": allowed is a place behind R, which it reads')
    expect(() => chain([current], 'T' as never)).toThrow(/^more = "T": allowed is a list of symbols/)
    expect(() => chain([current, current])).toThrow('formulas[1] = "I": allowed is a symbol that no other computes')
  })

  it('refuses what is no formula, by its place and what is wrong with it', () => {
    const loose = (value: unknown) => value as never
    const told = (change: object) => Object.assign((x: never) => power(x), power, change)
    expect(() => chain(loose(power))).toThrow(/^formulas = a function: allowed is a list of formulas/)
    expect(() => chain([current, loose(() => 1)])).toThrow(/^formulas\[1\]\.symbol = nothing: allowed is a text/)
    expect(() => chain([current, loose(told({ source: 3 }))])).toThrow(/^formulas\[1\]\.source = 3: allowed is a text/)
    expect(() => chain([loose(told({ inputs: { V: ['V', 2, 1] } }))])).toThrow(/^formulas\[0\]\.inputs\.V = a list/)
    expect(() => behind([current], loose('I'))).toThrow(/^symbols = "I": allowed is a list of symbols/)
  })

  it('finds what stands behind a symbol', () => {
    expect([...behind([current, power], ['P'])].sort()).toEqual(['I', 'P', 'R', 'V'])
    expect([...behind([current, power], ['V'])]).toEqual(['V'])
  })
})
