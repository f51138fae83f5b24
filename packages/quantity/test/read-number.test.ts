import { type FieldSpec, InputError, readNumber, type Unit } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { refusalOf } from './refuse.js'

const read = (input: unknown, unit: Unit, limits: Partial<FieldSpec> = {}) =>
  readNumber(input, { field: 'part.field', unit, ...limits })
const refuse = (input: unknown, unit: Unit, limits: Partial<FieldSpec> = {}) =>
  refusalOf(() => read(input, unit, limits))

// SI prefixes, their powers of ten: SI brochure, 9th edition (2019), table 7.
// Resistor codes: IEC 60062. Spellings that people use: common practice, no source.
describe('a number as people write it', () => {
  it.each<[string, Unit, number]>([
    ['0.22', 'ohm', 0.22],
    ['.5', 'ohm', 0.5],
    ['5.', 'ohm', 5],
    ['+5', 'ohm', 5],
    ['-5', 'ohm', -5],
    ['\u22125', 'ohm', -5],
    ['1e-3', 'ohm', 1e-3],
    ['1e\u22123', 'ohm', 1e-3],
    ['1E3 V', 'V', 1000],
    ['  47  ', 'ohm', 47],
    ['4.7 kΩ', 'ohm', 4700],
    ['4.7 k\u2126', 'ohm', 4700],
    ['4.7\u00a0kΩ', 'ohm', 4700],
    ['2.2 kohm', 'ohm', 2200],
    ['2.2 kOhms', 'ohm', 2200],
    ['2.2 k ohm', 'ohm', 2200],
    ['22 m', 'ohm', 0.022],
    ['22m', 'ohm', 0.022],
    ['4.7K', 'ohm', 4700],
    ['4.7 Kohm', 'ohm', 4700],
    ['470R', 'ohm', 470],
    ['4.7 R', 'ohm', 4.7],
    ['4k7', 'ohm', 4700],
    ['4K7', 'ohm', 4700],
    ['4k7 Ω', 'ohm', 4700],
    ['-4k7', 'ohm', -4700],
    ['R22', 'ohm', 0.22],
    ['r22', 'ohm', 0.22],
    ['0R22', 'ohm', 0.22],
    ['4L7', 'ohm', 0.0047],
    ['4M7', 'ohm', 4.7e6],
    ['10 V/A', 'ohm', 10],
    ['10 µV', 'V', 1e-5],
    ['10 μV', 'V', 1e-5],
    ['10uV', 'V', 1e-5],
    ['3V3', 'V', 3.3],
    ['2A5', 'A', 2.5],
    ['10 fA', 'A', 1e-14],
    ['10 pA', 'A', 1e-11],
    ['10 nA', 'A', 1e-8],
    ['10 MHz', 'Hz', 1e7],
    ['10 GHz', 'Hz', 1e10],
    ['1 TΩ', 'ohm', 1e12],
    ['0.1 Hz', 'Hz', 0.1],
    ['4n7', 'F', 4.7e-9],
    ['n47', 'F', 4.7e-10],
    ['0.47 µF', 'F', 4.7e-7],
    ['3u3', 'H', 3.3e-6],
    ['1k5', '1', 1500],
    ['10 k', '1', 10000],
    ['5 %', '1', 0.05],
    ['100 ppm', '1', 1e-4],
    ['100 ppm/K', '1/K', 1e-4],
    ['0.39 %/K', '1/K', 0.0039],
    ['100 ppm/°C', '1/K', 1e-4],
    ['50 nV/√Hz', 'V/Hz^0.5', 5e-8],
    ['50 nV/√(Hz)', 'V/Hz^0.5', 5e-8],
    ['50 nV/sqrt(Hz)', 'V/Hz^0.5', 5e-8],
    ['50 nV/Hz^0.5', 'V/Hz^0.5', 5e-8],
    ['10 µV/K', 'V/K', 1e-5],
    ['10 µV / °C', 'V/K', 1e-5],
    ['1.5 K/W', 'K/W', 1.5],
    ['1.5 °C/W', 'K/W', 1.5],
    ['50 mV/A', 'V/A', 0.05],
    ['50 mm²', 'm*m', 5e-5],
    ['2 A·s', 'C', 2],
    ['30 mV/mT', 'V/T', 30],
    ['120 dB', 'dB', 120],
    ['12 bits', 'bit', 12],
    ['2 counts', 'LSB', 2],
    ['2 LSB', 'LSB', 2],
    ['2000 mAh', 'C', 7200],
    ['1 Wh', 'J', 3600],
    ['2 h', 's', 7200],
    ['10 min', 's', 600],
    ['1 day', 's', 86400],
    ['5 cm', 'm', 0.05],
    ['22 m', 'm', 22],
    ['22 m', 's', 0.022],
    ['25 °C', 'degC', 25],
    ['25 ℃', 'degC', 25],
    ['25 degC', 'degC', 25],
    ['25 C', 'degC', 25],
    ['25', 'degC', 25],
    ['\u221240 °C', 'degC', -40],
    ['300 K', 'degC', 26.85],
    ['5 °C', 'K', 5],
    ['5 K', 'K', 5],
  ])('%j in %s is %d', (text, unit, value) => {
    expect(read(text, unit)).toBe(value)
  })

  it('takes a prefix of a root for what it is', () => {
    expect(read('1 V/√kHz', 'V/Hz^0.5')).toBeCloseTo(1 / Math.sqrt(1000), 15)
  })

  it('gives plain numbers back, and minus nothing as nothing', () => {
    expect(read(4.7, 'ohm')).toBe(4.7)
    expect(Object.is(read(-0, 'ohm'), 0)).toBe(true)
    expect(Object.is(read('-0', 'ohm'), 0)).toBe(true)
  })
})

describe('what is refused, with the reason', () => {
  it.each<[unknown, Unit, string]>([
    ['', 'ohm', 'It is empty'],
    ['  ', 'ohm', 'It is empty'],
    ['1'.repeat(81), 'ohm', 'It is too long'],
    ['3,3', 'V', 'Write a decimal point, not a comma, and no thousands separator'],
    ['10,000', 'ohm', 'Write a decimal point, not a comma, and no thousands separator'],
    ['10 20', 'ohm', 'It holds two numbers'],
    ['10 000', 'ohm', 'It holds two numbers'],
    ['1.2.3', 'ohm', 'It holds two numbers'],
    ['5 ±1', 'ohm', 'No tolerance is taken here'],
    ['5 +-1', 'ohm', 'No tolerance is taken here'],
    ['5 V', 'ohm', '"V" is not a unit of this field'],
    ['5 K', 'F', '"K" is not a unit of this field; kilo is written k'],
    ['5 xyz', 'ohm', '"xyz" is no unit known here'],
    ['5 constructor', 'ohm', '"constructor" is no unit known here'],
    ['5 __proto__', 'ohm', '"__proto__" is no unit known here'],
    ['5 k', 'dB', '"k" is no unit known here'],
    ['5 m', 'degC', '"m" is not a unit of this field'],
    ['25 C', 'K/W', '"C" is not a unit of this field'],
    ['25 C', 'K', '"C" is not a unit of this field'],
    ['5 V/', 'V', '"V/" is no unit known here'],
    ['5 /V', 'V', '"/V" is no unit known here'],
    ['5 mppm', '1', '"mppm" is no unit known here'],
    ['5 kdB', 'dB', '"kdB" is no unit known here'],
    ['ohm', 'ohm', 'It does not begin with a number'],
    ['--5', 'ohm', 'It does not begin with a number'],
    ['±5', 'ohm', 'It does not begin with a number'],
    ['1e999', 'ohm', 'It is too large'],
    ['1e-999', 'ohm', 'It is too small'],
    ['0x10', 'ohm', '"x" can\'t stand for the point in ohm'],
    ['4k7 V', 'ohm', '"V" is not a unit of this field'],
    ['4K7J', 'ohm', 'Write the tolerance of the letter J out: ±5 %'],
    ['4k7 kohm', 'ohm', '"kohm" is not a unit of this field'],
    ['k5', 'V', '"k" can\'t stand for the point in V'],
    ['V5', 'V', '"V" can\'t stand for the point in V'],
    ['5R1', 'V', '"R" can\'t stand for the point in V'],
    ['2s5', 's', '"s" can\'t stand for the point in s'],
    ['4k7', 'dB', '"k" can\'t stand for the point in dB'],
    ['2R5', '1', '"R" can\'t stand for the point in a ratio'],
  ])('%j in %s', (text, unit, hint) => {
    expect(refuse(text, unit).hint).toBe(hint)
  })

  it.each([Number.NaN, Infinity, -Infinity, null, undefined, true, {}, [], [5], () => 5, Symbol('x'), 5n])(
    'the value %s',
    (value) => {
      expect(refuse(value, 'ohm')).toMatchObject({ field: 'part.field', unit: 'ohm', hint: '', value })
    },
  )

  it('a field of an unknown unit, unless a plain number is given', () => {
    expect(refuse('5 V', 'widget' as Unit).hint).toBe('The unit of this field, widget, is not known')
    expect(read(5, 'widget' as Unit)).toBe(5)
  })

  it('never reaches for a prototype', () => {
    for (const name of ['toString', 'hasOwnProperty', 'valueOf', '__defineGetter__'])
      for (const text of [name, `5 ${name}`, `5 m${name}`, `5 V/${name}`, `5${name}5`])
        expect(() => read(text, 'V')).toThrow(InputError)
  })
})

describe('the limits of a field', () => {
  it('includes min and max, excludes above and below', () => {
    expect(read(1, 'V', { min: 1, max: 2 })).toBe(1)
    expect(read(2, 'V', { min: 1, max: 2 })).toBe(2)
    refuse(0.999, 'V', { min: 1 })
    refuse(2.001, 'V', { max: 2 })
    refuse(1, 'V', { above: 1 })
    refuse(2, 'V', { below: 2 })
    expect(read(1.001, 'V', { above: 1, below: 2 })).toBe(1.001)
  })

  it('says what is allowed in the words of the trade', () => {
    expect(refuse(-5, 'ohm', { above: 0, max: 1e6 }).message).toBe(
      'part.field = -5 ohm: allowed is a finite number in ohm, more than 0 ohm and at most 1 Mohm',
    )
    expect(refuse('5 V', 'A', { min: -2e-3, below: 3 }).allowed).toBe(
      'a finite number in A, at least -2 mA and less than 3 A',
    )
    expect(refuse(2, '1', { max: 1 }).message).toBe('part.field = 2: allowed is a finite number, at most 1')
  })

  it('takes whole numbers only where asked', () => {
    expect(read('12', 'bit', { integer: true })).toBe(12)
    expect(refuse(12.5, 'bit', { integer: true }).allowed).toBe('a whole number in bit')
  })

  it('points to the other letter where milli and mega were confused and only the other would fit', () => {
    expect(refuse('47 m', 'ohm', { min: 1 }).hint).toBe('m is milli; mega is written M')
    expect(refuse('47 M', 'ohm', { max: 10 }).hint).toBe('M is mega; milli is written m')
    expect(refuse('47 Mohm', 'ohm', { max: 10 }).hint).toBe('M is mega; milli is written m')
    expect(refuse('4m7', 'ohm', { min: 1 }).hint).toBe('m is milli; mega is written M')
    expect(refuse('47 m', 'ohm', { min: 1, max: 10 }).hint).toBe('')
    expect(refuse('47 k', 'ohm', { max: 10 }).hint).toBe('')
  })
})
