import * as quantity from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'

const any = (value: unknown) => value as never
const { format, typographic, plusMinus, relative, readPart, readSpread } = quantity

describe('what exported functions are given', () => {
  it.each<[string, () => unknown]>([
    ['a unit of a hundred thousand letters', () => format(1, 'a'.repeat(1e5))],
    ['a unit that is a number', () => format(1, any(3))],
    ['no options', () => format(1, 'V', any(null))],
    ['a misspelled option', () => format(1, 'V', any({ digit: 3 }))],
    ['another unit that is a number', () => format(1, 'V', { as: any(5) })],
    ['a text for a number', () => format(any('1'), 'V')],
    ['a long text to typeset', () => typographic('a'.repeat(1e5))],
    ['a number to typeset', () => typographic(any(3))],
    ['a preferred value of a text', () => quantity.preferredAtLeast(any('47'), 'E24')],
    ['no range', () => quantity.preferredIn(any(null), 'E24')],
    ['a misspelled range', () => quantity.preferredIn(any({ from: 1, to: 2, too: 3 }), 'E24')],
    ['a code of a text', () => quantity.resistorCode(any('47'))],
    ['an unknown shape', () => plusMinus(1, 1, any({ kind: 'x' }))],
    ['no shape', () => relative(1, 1, any(null))],
    ['a shape with a misspelled word', () => plusMinus(1, 1, any({ kind: 'normal', coverage: 2, dof: 3 }))],
    ['per cent of a text', () => quantity.percent(any('x'))],
    ['millionths of nothing', () => quantity.ppm(any(undefined))],
    ['a scaled nothing', () => quantity.scaled(any(null), 2)],
    [
      'a spread with an unknown word',
      () =>
        readSpread(
          { nominal: 1, lower: 0, upper: 2, distribution: { kind: 'rectangular' }, k: 2 },
          { field: 'a', unit: 'V' },
        ),
    ],
  ])('%s is refused', (_, run) => {
    expect(run).toThrow(quantity.InputError)
  })

  it('a long unit inside the limit is typeset at once', () => {
    expect(typographic(`${'a'.repeat(190)}^0.5`)).toBe(`√${'a'.repeat(190)}`)
  })

  it('an unknown word of a spread is named with the nearest', () => {
    const spread = { nominal: 1, lower: 0, upper: 2, distribution: { kind: 'rectangular' }, degreeOfFreedom: 3 }
    expect(() => readSpread(spread, { field: 'a', unit: 'V' })).toThrow(/did you mean degreesOfFreedom/)
  })
})

describe('a size without a sign', () => {
  const fields = {
    offset: { symbol: 'V_os', unit: 'V', meaning: 'largest offset', magnitude: true, max: 0.5 },
  } as const
  const read = (offset: quantity.Input) => readPart({ offset }, fields, 'part').offset

  it('is not taken past its largest value by a sign', () => {
    for (const offset of [-0.6, 0.6, '-600 mV', '-0.4 V ±0.2 V'])
      expect(() => read(offset)).toThrow(quantity.InputError)
    expect(read(-0.4)).toEqual(read(0.4))
    expect(read('-0.3 V ±0.2 V')).toMatchObject({ lower: -0.5, upper: -0.1 })
  })
})
