import { type FieldSpec, readNumber, readSpread, type Unit } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { refusalOf } from './refuse.js'

const read = (input: unknown, unit: Unit, limits: Partial<FieldSpec> = {}) =>
  readSpread(input, { field: 'part.field', unit, ...limits })
const refuse = (input: unknown, unit: Unit, limits: Partial<FieldSpec> = {}) =>
  refusalOf(() => read(input, unit, limits))

// Limits without a stated distribution are rectangular: JCGM 100:2008, 4.3.7.
describe('a tolerance as people write it', () => {
  it.each<[string, Unit, number, number, number]>([
    ['47 ohm ±1 %', 'ohm', 47, 46.53, 47.47],
    ['47 ohm +-1%', 'ohm', 47, 46.53, 47.47],
    ['47 ohm +/- 1 %', 'ohm', 47, 46.53, 47.47],
    ['47 ohm + / - 1 %', 'ohm', 47, 46.53, 47.47],
    ['47 ±0.5', 'ohm', 47, 46.5, 47.5],
    ['47R ±0.5', 'ohm', 47, 46.5, 47.5],
    ['47 Ω ±500 m', 'ohm', 47, 46.5, 47.5],
    ['4k7 ±5%', 'ohm', 4700, 4465, 4935],
    ['4.7 kohm ±100 ohm', 'ohm', 4700, 4600, 4800],
    ['10 kohm ±50 ppm', 'ohm', 10000, 9999.5, 10000.5],
    ['\u22125 ±1 V', 'V', -5, -6, -4],
    ['-5 V ±10 %', 'V', -5, -5.5, -4.5],
    ['±10 µV', 'V', 0, -1e-5, 1e-5],
    ['0 ±10 µV', 'V', 0, -1e-5, 1e-5],
    ['100 +20/-10 %', 'ohm', 100, 90, 120],
    ['100 -10/+20 %', 'ohm', 100, 90, 120],
    ['100 +20%/-10%', 'ohm', 100, 90, 120],
    ['100 +20 % / \u221210 %', 'ohm', 100, 90, 120],
    ['100 ohm +20 ohm/-10 ohm', 'ohm', 100, 90, 120],
    ['100 ohm +2/-1 ohm', 'ohm', 100, 99, 102],
    ['10 µV/K +2/-1 µV/K', 'V/K', 1e-5, 9e-6, 1.2e-5],
    ['25 °C ±5', 'degC', 25, 20, 30],
    ['25 °C ±5 K', 'degC', 25, 20, 30],
    ['25 °C ±5 °C', 'degC', 25, 20, 30],
    ['25 C ±5C', 'degC', 25, 20, 30],
    ['298.15 K ±5', 'degC', 25, 20, 30],
    ['±1 %', '1', 0, -0.01, 0.01],
    ['0 % ±1 %', '1', 0, -0.01, 0.01],
    ['100 ±1 %', '1', 100, 99, 101],
    ['60 dB ±2 dB', 'dB', 60, 58, 62],
    ['100 ±100 %', 'ohm', 100, 0, 200],
    ['1 V to 2 V', 'V', 1.5, 1, 2],
    ['1 to 2 V', 'V', 1.5, 1, 2],
    ['800 mV to 1.2 V', 'V', 1, 0.8, 1.2],
    ['-10 to 60 °C', 'degC', 25, -10, 60],
    ['\u221210 to 60 °C', 'degC', 25, -10, 60],
    ['1 to 3', 'ohm', 2, 1, 3],
    ['1e-1 to 0.5 kohm', 'ohm', 300, 100, 500],
    ['1 % to 2 %', '1', 0.015, 0.01, 0.02],
  ])('%j in %s', (text, unit, nominal, lower, upper) => {
    const spread = read(text, unit)
    expect(spread.distribution).toEqual({ kind: 'rectangular' })
    expect(spread.nominal).toBe(nominal)
    expect(spread.lower).toBeCloseTo(lower, 12)
    expect(spread.upper).toBeCloseTo(upper, 12)
  })

  it('takes a value alone as exact', () => {
    const exact = { nominal: 47, lower: 47, upper: 47, distribution: { kind: 'exact' } }
    expect(read(47, 'ohm')).toEqual(exact)
    expect(read('47 ohm', 'ohm')).toEqual(exact)
    expect(read({ ...exact, distribution: { kind: 'rectangular' }, degreesOfFreedom: 3 }, 'ohm')).toEqual(exact)
    expect(read('47 ±0 ohm', 'ohm')).toEqual(exact)
    expect(read('47 ohm exact', 'ohm')).toEqual(exact)
    expect(read('10 min', 's')).toMatchObject({ nominal: 600, upper: 600 })
  })

  it.each([
    ['<= 3 mohm', { min: 0 }, 0, 0.003],
    ['≤3 mohm', { min: 0 }, 0, 0.003],
    ['< 3 mohm', { min: 0 }, 0, 0.003],
    ['3 mohm max', { min: 0 }, 0, 0.003],
    ['3 mohm max.', { min: 0 }, 0, 0.003],
    ['max 3 mohm', { min: 0.001 }, 0.001, 0.003],
    ['>= 3 ohm', { max: 5 }, 3, 5],
    ['≥ 3 ohm', { max: 5 }, 3, 5],
    ['> 3 ohm', { max: 5 }, 3, 5],
    ['3 ohm min', { max: 5 }, 3, 5],
    ['min. 3 ohm', { max: 5 }, 3, 5],
  ])('takes the other limit of %j from the field %o', (text, limits, lower, upper) => {
    const spread = read(text, 'ohm', limits)
    expect(spread).toMatchObject({ lower, upper, distribution: { kind: 'rectangular' } })
    expect(spread.nominal).toBeCloseTo((lower + upper) / 2, 15)
  })

  it.each([
    ['rectangular', { kind: 'rectangular' }],
    ['triangular', { kind: 'triangular' }],
    ['arcsine', { kind: 'arcsine' }],
    ['trapezoidal 0.5', { kind: 'trapezoidal', top: 0.5 }],
    ['trapezoidal 0', { kind: 'trapezoidal', top: 0 }],
    ['trapezoidal 1', { kind: 'trapezoidal', top: 1 }],
    ['normal k=2', { kind: 'normal', coverage: 2 }],
    ['normal k = 2.58', { kind: 'normal', coverage: 2.58 }],
    ['t k=2 dof=9', { kind: 't', coverage: 2, degreesOfFreedom: 9 }],
  ])('reads the distribution %j', (words, distribution) => {
    expect(read(`47 ohm ±1 % ${words}`, 'ohm')).toEqual({ nominal: 47, lower: 46.53, upper: 47.47, distribution })
  })

  it('reads degrees of freedom, which a t distribution keeps to itself', () => {
    expect(read('47 ±1 normal k=2 dof=9', 'ohm').degreesOfFreedom).toBe(9)
    expect(read('47 ±1 t k=2 dof=9', 'ohm').degreesOfFreedom).toBeUndefined()
    expect(read('47 ±1', 'ohm')).not.toHaveProperty('degreesOfFreedom')
  })
})

describe('what is refused, with the reason', () => {
  const shapes = 'A distribution is one of: '
  const both = 'Give both limits: '

  it.each<[string, Unit, string]>([
    ['', 'ohm', 'It is empty'],
    [`${' '.repeat(10)}${'1'.repeat(121)}`, 'ohm', 'It is too long'],
    ['3.0..4.2 V', 'V', 'A range to cover is given as { from, to }'],
    ['3.0…4.2 V', 'V', 'A range to cover is given as { from, to }'],
    ['2.2 to 1 V', 'V', 'lower <= nominal <= upper must hold'],
    ['1 V to 2 ohm', 'V', '"ohm" is not a unit of this field'],
    ['1 V to', 'V', '"V to" is no unit known here'],
    ['1 to 2 to 3 V', 'V', '"to 3 V" is no unit known here'],
    ['47 ±150 %', 'ohm', 'A tolerance over 100 % says nothing'],
    ['47 ±100.1 %', 'ohm', 'A tolerance over 100 % says nothing'],
    ['47 ±-1 %', 'ohm', 'A tolerance has no sign after ±'],
    ['47 ±1 V', 'ohm', '"V" is not a unit of this field'],
    ['47 ±1 % 5', 'ohm', '"% 5" is no unit known here'],
    ['47 V ±1 %', 'ohm', '"V" is not a unit of this field'],
    ['47 ±', 'ohm', 'It is empty'],
    ['47 ±x %', 'ohm', 'It does not begin with a number'],
    ['47 1 %', 'ohm', 'Write a tolerance with ±: 47 ±1 %'],
    ['4.7 kohm ±0.5', 'ohm', 'Give the tolerance its unit, or %'],
    ['10 µV ±2', 'V', 'Give the tolerance its unit, or %'],
    ['1 h ±2', 's', 'Give the tolerance its unit, or %'],
    ['100 +20/+10 %', 'ohm', 'The two deviations must have opposite signs'],
    ['100 +20 %/-10', 'ohm', 'Give both deviations their unit'],
    ['100 +20/-10 V', 'ohm', '"V" is not a unit of this field'],
    ['100 +20 V/-10 ohm', 'ohm', '"V" is not a unit of this field'],
    ['0 ohm ±1 %', 'ohm', 'A share of 0 is 0; give the tolerance in ohm'],
    ['±1 %', 'ohm', 'A share of 0 is 0; give the tolerance in ohm'],
    ['25 °C ±5 %', 'degC', 'A share of a value in degC means nothing; give the tolerance in its unit'],
    ['60 dB ±5 %', 'dB', 'A share of a value in dB means nothing; give the tolerance in its unit'],
    ['50 % ±1 %', '1', 'It may be a share or a difference; write 0.5 ±0.01'],
    ['50 ppm ±1 %', '1', 'It may be a share or a difference; write 0.5 ±0.01'],
    ['10 µV max', 'V', both],
    ['>= 100 dB', 'dB', both],
    ['<= x', 'V', 'It does not begin with a number'],
    ['47 ±1 normal', 'ohm', shapes],
    ['47 ±1 normal k=0', 'ohm', shapes],
    ['47 ±1 normal k=1.2.3', 'ohm', shapes],
    ['47 ±1 normal 2', 'ohm', shapes],
    ['47 ±1 rectangular k=2', 'ohm', shapes],
    ['47 ±1 trapezoidal', 'ohm', shapes],
    ['47 ±1 trapezoidal 1.5', 'ohm', shapes],
    ['47 ±1 t k=2', 'ohm', shapes],
    ['47 ±1 t dof=9', 'ohm', shapes],
    ['47 ±1 t k=2 dof=0', 'ohm', shapes],
    ['47 ±1 normal k=2 dof=0', 'ohm', shapes],
    ['47 ±1 normal k=2 please', 'ohm', shapes],
    ['47 normal k=2', 'ohm', 'It has a distribution but no width'],
    ['47 ±1 exact', 'ohm', 'An exact value has no width'],
  ])('%j in %s', (text, unit, hint) => {
    const error = refuse(text, unit)
    expect(error.hint.startsWith(hint), error.hint).toBe(true)
    expect(error).toMatchObject({ field: 'part.field', value: text })
  })

  it.each<[unknown]>([[null], [undefined], [Number.NaN], [true], [() => 1]])('the value %s', (value) => {
    expect(refuse(value, 'ohm')).toMatchObject({ field: 'part.field', unit: 'ohm', value })
  })

  it('holds nominal value and both limits to those of the field', () => {
    expect(refuse('47 ±1 ohm', 'ohm', { min: 46.5 }).hint).toBe('Its lower value is 46')
    expect(refuse('47 ±1 ohm', 'ohm', { max: 47.5 }).hint).toBe('Its upper value is 48')
    expect(refuse('47 ±1 ohm', 'ohm', { max: 40 }).hint).toBe('Its nominal value is 47')
    expect(refuse('47', 'ohm', { max: 40 }).allowed).toBe('a finite number in ohm, at most 40 ohm')
    refuse('10 ±100 %', 'ohm', { above: 0 })
    expect(refuse('47 m ±1 %', 'ohm', { min: 1 }).hint).toBe('m is milli; mega is written M')
  })
})

describe('a spread that is given', () => {
  const spread = { nominal: 2, lower: 1, upper: 4, distribution: { kind: 'normal', coverage: 2 } }

  it('comes back as a copy, and with an unknown field not at all', () => {
    const given = { ...spread, degreesOfFreedom: 7 }
    expect(read(given, 'V')).toEqual(given)
    expect(read(given, 'V')).not.toBe(given)
    expect(refuse({ ...given, note: 'x' }, 'V').hint).toBe('Unknown: note')
    for (const range of [
      { from: 1, to: 2 },
      { nominal: 1, to: 2 },
    ])
      expect(refuse(range, 'V').hint).toMatch(
        /^A value with limits is a text such as "47 ±1 %" or "1 to 2", or \{ nominal/,
      )
    expect(refuse({ ...spread, distribution: { kind: 'exact', spare: 1 }, lower: 2, upper: 2 }, 'V').field).toBe(
      'part.field.distribution',
    )
    expect(Object.is(read({ ...spread, lower: -0 }, 'V').lower, 0)).toBe(true)
  })

  it.each<[object, string]>([
    [{}, 'part.field.nominal'],
    [[], 'part.field.nominal'],
    [Object.create(spread), 'part.field.nominal'],
    [{ ...spread, lower: '1' }, 'part.field.lower'],
    [{ ...spread, upper: undefined }, 'part.field.upper'],
    [{ ...spread, upper: Infinity }, 'part.field'],
    [{ ...spread, nominal: Number.NaN }, 'part.field'],
    [{ ...spread, nominal: 5 }, 'part.field'],
    [{ ...spread, nominal: 0 }, 'part.field'],
    [{ ...spread, distribution: { kind: 'exact' } }, 'part.field'],
    [{ ...spread, distribution: undefined }, 'part.field.distribution'],
    [{ ...spread, distribution: null }, 'part.field.distribution'],
    [{ ...spread, distribution: 'normal' }, 'part.field.distribution'],
    [{ ...spread, distribution: {} }, 'part.field.distribution'],
    [{ ...spread, distribution: { kind: 7 } }, 'part.field.distribution'],
    [{ ...spread, distribution: { kind: 'toString' } }, 'part.field.distribution'],
    [{ ...spread, distribution: { kind: 'normal' } }, 'part.field.distribution'],
    [{ ...spread, distribution: { kind: 'normal', coverage: '2' } }, 'part.field.distribution'],
    [{ ...spread, distribution: { kind: 'normal', coverage: 0 } }, 'part.field.distribution'],
    [{ ...spread, distribution: { kind: 'normal', coverage: Infinity } }, 'part.field.distribution'],
    [{ ...spread, distribution: Object.create({ kind: 'exact' }) }, 'part.field.distribution'],
    [{ ...spread, distribution: { kind: 'trapezoidal', top: -0.1 } }, 'part.field.distribution'],
    [{ ...spread, distribution: { kind: 'trapezoidal', top: 1.1 } }, 'part.field.distribution'],
    [{ ...spread, distribution: { kind: 't', coverage: 2, degreesOfFreedom: 0 } }, 'part.field.distribution'],
    [{ ...spread, degreesOfFreedom: 0 }, 'part.field.degreesOfFreedom'],
    [{ ...spread, degreesOfFreedom: Infinity }, 'part.field.degreesOfFreedom'],
    [{ ...spread, degreesOfFreedom: '7' }, 'part.field.degreesOfFreedom'],
  ])('%o is refused at %s', (given, field) => {
    expect(refuse(given, 'V').field).toBe(field)
  })
})

describe('a tolerance without its sign', () => {
  it.each([
    ['22 ohm 1 %', 22, 0.22],
    ['4k7 5%', 4700, 235],
    ['22 Ω 0.5 %', 22, 0.11],
  ])('is read behind a value with its unit: %s', (text, nominal, half) => {
    const spread = readSpread(text, { field: 'part', unit: 'ohm' })
    expect(spread.nominal).toBe(nominal)
    expect(spread.upper - nominal).toBeCloseTo(half, 9)
    expect(nominal - spread.lower).toBeCloseTo(half, 9)
  })

  it.each([
    ['22 1 %', 'Write a tolerance with ±: 22 ±1 %'],
    ['10 kohm 50 ppm', 'Write a tolerance with ±: 10 kohm ±50 ppm'],
  ])('could mean something else: %s', (text, hint) => {
    expect(refusalOf(() => readSpread(text, { field: 'part', unit: 'ohm' })).hint).toBe(hint)
  })

  it('is none of a number that takes no tolerance', () => {
    expect(refusalOf(() => readNumber('22 ohm 1 %', { field: 'part', unit: 'ohm' })).hint).toBe(
      'No tolerance is taken here',
    )
  })
})
