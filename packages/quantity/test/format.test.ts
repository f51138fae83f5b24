import { type FormatOptions, format, formatParts, typographic } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { refusalOf } from './refuse.js'

// Prefixes and signs: SI brochure, 9th edition (2019), 5.4 and table 7.
describe('a number as engineers write it', () => {
  it.each<[number, string, FormatOptions, string]>([
    [4700, 'ohm', {}, '4.7 kΩ'],
    [0.022, 'ohm', {}, '22 mΩ'],
    [470, 'ohm', {}, '470 Ω'],
    [999.94, 'ohm', {}, '999.9 Ω'],
    [999.96, 'ohm', {}, '1 kΩ'],
    [1000, 'ohm', {}, '1 kΩ'],
    [1e6, 'ohm', {}, '1 MΩ'],
    [1e15, 'ohm', {}, '1000 TΩ'],
    [1e17, 'ohm', {}, '100000 TΩ'],
    [1e18, 'ohm', {}, '1e18 Ω'],
    [1e-15, 'A', {}, '1 fA'],
    [1e-16, 'A', {}, '1e\u221216 A'],
    [3.29999999, 'V', {}, '3.3 V'],
    [1.23456, 'V', { digits: 3 }, '1.23 V'],
    [1.23456, 'V', { digits: 1 }, '1 V'],
    [0.0314, 'ohm', { digits: 2, towards: 'up' }, '32 mΩ'],
    [0.0316, 'ohm', { digits: 2, towards: 'down' }, '31 mΩ'],
    [0.0316, 'ohm', { digits: 2, towards: 'up' }, '32 mΩ'],
    [-0.0314, 'V', { digits: 2, towards: 'up' }, '\u221231 mV'],
    [-0.0314, 'V', { digits: 2, towards: 'down' }, '\u221232 mV'],
    [0.0991, 'V', { digits: 1, towards: 'up' }, '100 mV'],
    [0.1001, 'V', { digits: 2, towards: 'down' }, '100 mV'],
    [0.0999, 'V', { digits: 2, towards: 'down' }, '99 mV'],
    [0.1 + 0.2, 'V', { digits: 2, towards: 'up' }, '300 mV'],
    [0, 'V', { towards: 'up' }, '0 V'],
    [0.12341, '1', { as: '%', digits: 3, towards: 'up' }, '12.4 %'],
    [0.1 + 0.2, 'V', { digits: 17 }, '300.00000000000004 mV'],
    [3.3, 'V', { zeros: true }, '3.300 V'],
    [0, 'V', { zeros: true }, '0.000 V'],
    [1234567, 'V', { digits: 2, zeros: true }, '1.2 MV'],
    [123, 'V', { digits: 2, zeros: true }, '120 V'],
    [0, 'V', {}, '0 V'],
    [-0, 'V', {}, '0 V'],
    [-5, 'V', {}, '\u22125 V'],
    [-5, 'V', { ascii: true }, '-5 V'],
    [-1e-20, 'V', { ascii: true }, '-1e-20 V'],
    [4.7e-7, 'F', {}, '470 nF'],
    [4.7e-6, 'F', {}, '4.7 µF'],
    [4.7e-6, 'F', { ascii: true }, '4.7 uF'],
    [4700, 'ohm', { ascii: true }, '4.7 kohm'],
    [4700, 'F', {}, '4700 F'],
    [3600, 's', {}, '3600 s'],
    [0.0036, 's', {}, '3.6 ms'],
    [-40, 'degC', {}, '\u221240 °C'],
    [-40, 'degC', { ascii: true }, '-40 degC'],
    [0.005, 'degC', {}, '0.005 °C'],
    [120, 'dB', {}, '120 dB'],
    [0.05, '1', {}, '0.05'],
    [0.00012, '1', {}, '0.00012'],
    [0.000012, '1', {}, '1.2e\u22125'],
    [123456, '1', { digits: 6 }, '123456'],
    [1234567, '1', {}, '1.235e6'],
    [0.05, '1', { as: '%' }, '5 %'],
    [1e-4, '1/K', {}, '100 ppm/K'],
    [0, '1/K', {}, '0 ppm/K'],
    [-0, '1/K', { ascii: true }, '0 ppm/K'],
    [0, '1/K', { zeros: true, digits: 3 }, '0.00 ppm/K'],
    [0, 'C', { as: 'mAh' }, '0 mAh'],
    [0.0039, '1/K', { as: '%/K' }, '0.39 %/K'],
    [7200, 'C', { as: 'mAh' }, '2000 mAh'],
    [5e-8, 'V/Hz^0.5', {}, '50 nV/√Hz'],
    [1e-5, 'V/K', {}, '10 µV/K'],
    [1e-5, 'V/K', { ascii: true }, '10 uV/K'],
    [1.5, 'K/W', {}, '1.5 K/W'],
    [2e-8, 'ohm*m', {}, '20 nΩ·m'],
    [2e-8, 'm^2', {}, '2e\u22128 m²'],
    [2, 'widget', {}, '2 widget'],
    [2000, 'count', {}, '2000 count'],
  ])('%d %s %o', (value, unit, options, text) => {
    expect(format(value, unit, options)).toBe(text)
  })

  it('gives number and unit apart', () => {
    expect(formatParts(-4700, 'ohm')).toEqual(['\u22124.7', 'kΩ'])
    expect(formatParts(0.5, '1')).toEqual(['0.5', ''])
  })

  it('sets a unit of ASCII spelling in its signs', () => {
    expect(typographic('uV/Hz^0.5')).toBe('µV/√Hz')
    expect(typographic('ohm*m')).toBe('Ω·m')
    expect(typographic('um')).toBe('µm')
    expect(typographic('1')).toBe('')
  })

  it('refuses what is no number, and options out of range', () => {
    expect(refusalOf(() => format(Number.NaN, 'V')).message).toBe('value = NaN V: allowed is a finite number')
    refusalOf(() => format(Infinity, 'V'))
    for (const digits of [0, 18, 2.5, Number.NaN])
      expect(refusalOf(() => format(1, 'V', { digits })).message).toContain('allowed is a whole number from 1 to 17')
    for (const as of ['A', 'widget', ''].slice(0, 2))
      expect(refusalOf(() => format(1, 'V', { as })).allowed).toBe('a unit of the dimension of V')
    expect(refusalOf(() => format(1, 'widget', { as: 'V' })).field).toBe('as')
  })
})
