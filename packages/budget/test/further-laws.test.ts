import { readRecord, record } from '@ohmward/quantity'
import fc from 'fast-check'
import { evaluate } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { type FurtherError, furtherErrors, furtherOf, furtherTexts } from '../src/index.js'

/* Errors that a data sheet states beside its fields: read, told in words, and added as they are written. */

const meaning = { voltage: 'at the input', current: 'through the source', share: 'of the reading' }
const fields = { further: furtherErrors(meaning) }
const read = (further: unknown) => readRecord(record(fields), { further }, 'amplifier').further as FurtherError[]

describe('further errors', () => {
  it('are read with one size each, and a drift in the unit of that size', () => {
    expect(
      read([
        { name: 'common mode', voltage: '50 uV', perKelvin: '0.2 uV/K' },
        { name: 'bias', current: '2 nA' },
        { name: 'package', share: '0.1 %', perKelvin: 5e-6 },
      ]),
    ).toEqual([
      { name: 'common mode', kind: 'voltage', size: 50e-6, perKelvin: expect.closeTo(0.2e-6, 15) },
      { name: 'bias', kind: 'current', size: 2e-9, perKelvin: 0 },
      { name: 'package', kind: 'share', size: 1e-3, perKelvin: 5e-6 },
    ])
  })

  it('are refused with no size, with two, or with a drift in another unit', () => {
    const allowed = /allowed is one of voltage, current and share/
    expect(() => read([{ name: 'a' }])).toThrow(allowed)
    expect(() => read([{ name: 'a', voltage: 1e-3, current: 1e-9 }])).toThrow(/= "?voltage, current"?.*one of voltage/)
    expect(() => read([{ name: 'a', voltage: 1e-3, perKelvin: '1 nA/K' }])).toThrow(/perKelvin/)
    expect(() => read([{ name: 'a', voltage: 1e-3, perKelvin: -1 }])).toThrow(/perKelvin/)
  })

  it('are told with their symbol, size and drift, each in its own unit', () => {
    const texts = furtherTexts(
      [
        { name: 'common mode', kind: 'voltage', size: 50e-6, perKelvin: 2e-7 },
        { name: 'bias', kind: 'current', size: 2e-9, perKelvin: 0 },
        { name: 'package', kind: 'share', size: 1e-3, perKelvin: 0 },
      ],
      'nothing takes it away',
    )
    expect(texts).toEqual([
      'common mode (V_add1): ±50 µV, and ±200 nV/K away from 25 °C; nothing takes it away.',
      'bias (V_add2): ±2 nA; nothing takes it away.',
      'package (e_add3): ±0.1 %; nothing takes it away.',
    ])
  })

  it('of which there are none say nothing and add nothing', () => {
    expect(furtherTexts(undefined, 'nothing takes it away')).toEqual([])
    expect(furtherOf(undefined, { shift: 'a', share: 'b', ofCurrent: (amperes) => amperes })).toMatchObject({
      inputs: {},
      formulas: [],
    })
  })

  it('add as their formula is written, in its unit and with an input for each size and drift', () => {
    const errors = fc.array(
      fc.record({
        name: fc.constant('a'),
        kind: fc.constantFrom('voltage' as const, 'current' as const, 'share' as const),
        size: fc.double({ min: 1e-3, max: 0.4, noNaN: true }),
        perKelvin: fc.constantFrom(0, 1e-3, 5e-3),
      }),
      { minLength: 1, maxLength: 6 },
    )
    fc.assert(
      fc.property(errors, fc.integer({ min: -60, max: 100 }), (list, T_d) => {
        const { formulas, inputs } = furtherOf(list, {
          shift: 'shift',
          share: 'share',
          ofCurrent: (amperes) => 3 * amperes,
        })
        const names = new Set(list.map(({ kind }) => (kind === 'share' ? 'e_add' : 'V_add')))
        expect(new Set(formulas.map(({ symbol }) => symbol))).toEqual(names)
        for (const one of formulas) {
          const unit = one.symbol === 'e_add' ? '1' : 'V'
          expect([one.unit, one.quantity]).toEqual([unit, unit === 'V' ? 'shift' : 'share'])
          const at: Record<string, number> = { T_d }
          Object.keys(one.inputs).forEach((symbol, n) => {
            if (symbol !== 'T_d') at[symbol] = 0.1 + n / 7
          })
          expect((one as (x: typeof at) => number)(at)).toBeCloseTo(evaluate(one.expression, at), 12)
          // Every size and every drift of its kind is in it, and as an input of the choice.
          const own = list.filter(({ kind }) => (kind === 'share') === (unit === '1'))
          const symbols = Object.keys(one.inputs).filter((symbol) => symbol !== 'T_d')
          expect(symbols.length).toBe(own.length + own.filter(({ perKelvin }) => perKelvin > 0).length)
          expect(symbols.filter((symbol) => !(symbol in inputs))).toEqual([])
        }
      }),
      { numRuns: 40 },
    )
  })
})
