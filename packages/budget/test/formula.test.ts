import { describe, expect, it } from 'vitest'
import { at, derive, formula, type Values } from '../src/index.js'

const text = {
  symbol: 'P',
  quantity: 'dissipation',
  unit: 'W',
  inputs: { I: ['A', 0, 100], R: ['ohm', 0, 1e6] },
  expression: 'I^2 * R',
  source: 'Joule',
} as const
const compute = ({ I, R }: Values<'I' | 'R'>) => I * I * R
const dissipation = formula({ ...text, compute })
const picked = (x: Values<'I_t' | 'R_ref'>) => ({ I: x.I_t, R: x.R_ref })
const any = (value: unknown) => value as never

describe('formula', () => {
  it('is the bare function with its description', () => {
    expect(dissipation({ I: 2, R: 3 })).toBe(12)
    expect(dissipation.symbol).toBe('P')
  })

  it('serves other symbols', () => {
    const P_ref = at(dissipation, 'P_ref', picked)
    expect(P_ref({ I_t: 2, R_ref: 3 })).toBe(12)
    expect(P_ref.expression).toBe('I_t^2 * R_ref')
    expect(P_ref.inputs).toEqual({ I_t: ['A', 0, 100], R_ref: ['ohm', 0, 1e6] })
    // One with a kink keeps it, and one without has none.
    const kinked = formula({ ...text, expression: 'abs(I) * R', smooth: false, compute: ({ I, R }) => Math.abs(I) * R })
    expect(at(kinked, 'U', picked).smooth).toBe(false)
    expect(P_ref).not.toHaveProperty('smooth')
  })

  it('refuses a derivation that drifted from the chain', () => {
    expect(derive([dissipation], { I: 2, R: 3 }, { P: 12 })[0]?.inputs).toEqual({ I: 2, R: 3 })
    expect(() => derive([dissipation], { I: 2, R: 3 }, { P: 13 })).toThrow(
      /computed\.P = 13: allowed is what its formula gives, 12/,
    )
  })
})

describe('a formula that is none', () => {
  it.each([
    [any(undefined), 'formula = nothing: allowed is an object'],
    [{ ...text }, /formula = an object: .*Missing: compute/],
    [{ ...text, compute: any(2) }, 'formula.compute = 2: allowed is a function'],
    [{ ...text, compute, smoth: false }, /Unknown: smoth \(did you mean smooth\?\)/],
    [{ ...text, compute, smooth: any(true) }, 'formula.smooth = true: allowed is false, or left out'],
    [{ ...text, compute, symbol: '2x' }, /formula\.symbol = "2x": allowed is a symbol such as V_x/],
    [
      { ...text, compute, inputs: any({ 'I ': ['A', 0, 1] }) },
      /formula\.inputs = "I ": allowed is a symbol such as V_x/,
    ],
    [{ ...text, compute, inputs: any({ I: ['A', 2, 1] }) }, /formula\.inputs\.I = .*allowed is a unit and the range/],
  ])('is refused by its field: %#', (given, message) => {
    expect(() => formula(any(given))).toThrow(message)
  })

  it('leaves no trace on the function that it was given', () => {
    const bare = () => 1
    expect(() => formula({ ...text, inputs: { I: ['A', 1, 0] }, compute: bare })).toThrow('formula.inputs.I')
    expect(Object.keys(bare)).toEqual([])
  })
})

describe('other symbols', () => {
  it.each([
    [() => at(any({}), 'P_ref', picked), /original = .*allowed is a formula/],
    [() => at(dissipation, 'P ref', picked), /symbol = "P ref": allowed is a symbol such as V_x/],
    [() => at(dissipation, 'P_ref', any(1)), 'rename = 1: allowed is a function'],
    [
      () =>
        at(
          dissipation,
          'P_ref',
          any(() => 1),
        ),
      'rename = 1: allowed is a symbol for each of I, R',
    ],
    [
      () =>
        at(
          dissipation,
          'P_ref',
          any(() => ({ I: 'I_t' })),
        ),
      'rename.R = nothing: allowed is a symbol for each of I, R',
    ],
    [
      () =>
        at(
          dissipation,
          'P_ref',
          any(() => ({ I: 'I', R: 'R', U: 'U' })),
        ),
      'rename.U = "U": allowed is a symbol for each',
    ],
    [
      () =>
        at(
          dissipation,
          'P_ref',
          any((x: any) => ({ I: x.I.value.of, R: x.R })),
        ),
      /rename = .*only picks properties/,
    ],
    [() => at(dissipation, 'P_ref', picked, any({ unit: 'W' })), /more = an object: .*Unknown: unit/],
  ])('are refused by their field: %#', (call, message) => {
    expect(call).toThrow(message)
  })
})
