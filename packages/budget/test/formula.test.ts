import { describe, expect, it } from 'vitest'
import { at, derive, formula, type Values } from '../src/index.js'

const dissipation = formula({
  symbol: 'P',
  quantity: 'dissipation',
  unit: 'W',
  inputs: { I: ['A', 0, 100], R: ['ohm', 0, 1e6] },
  expression: 'I^2 * R',
  compute: ({ I, R }) => I * I * R,
  source: 'Joule',
})

describe('formula', () => {
  it('is the bare function with its description', () => {
    expect(dissipation({ I: 2, R: 3 })).toBe(12)
    expect(dissipation.symbol).toBe('P')
  })

  it('serves other symbols', () => {
    const P_ref = at(dissipation, 'P_ref', (x: Values<'I_t' | 'R_ref'>) => ({ I: x.I_t, R: x.R_ref }))
    expect(P_ref({ I_t: 2, R_ref: 3 })).toBe(12)
    expect(P_ref.expression).toBe('I_t^2 * R_ref')
    expect(P_ref.inputs).toEqual({ I_t: ['A', 0, 100], R_ref: ['ohm', 0, 1e6] })
  })

  it('refuses a derivation that drifted from the chain', () => {
    expect(derive([dissipation], { I: 2, R: 3 }, { P: 12 })[0]?.inputs).toEqual({ I: 2, R: 3 })
    expect(() => derive([dissipation], { I: 2, R: 3 }, { P: 13 })).toThrow(
      /computed\.P = 13: allowed is what its formula gives, 12/,
    )
  })
})
