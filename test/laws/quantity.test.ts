import {
  format,
  InputError,
  missingFields,
  nearest,
  nextDown,
  nextUp,
  preferredIn,
  preferredValues,
  readNumber,
  readRange,
  readResistorCode,
  readSpread,
  relative,
  resistorCode,
  type Series,
  scaled,
  type Unit,
} from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const units: Unit[] = [
  'ohm',
  'V',
  'A',
  'F',
  'H',
  'C',
  'W',
  'J',
  'T',
  's',
  'Hz',
  'K',
  'm',
  'degC',
  '1',
  'dB',
  'bit',
  'LSB',
]
const compounds: Unit[] = ['1/K', 'V/K', 'K/W', 'V/A', 'V/T', 'V/Hz^0.5', 'ohm*m', 'J/K']
const unit = fc.constantFrom(...units, ...compounds)
const series = fc.constantFrom<Series[]>('E3', 'E6', 'E12', 'E24', 'E48', 'E96', 'E192')

/** Every decade alike, from 1e-15 to 1e15, the range in which a prefix is written. */
const size = fc
  .tuple(fc.double({ min: 1, max: 10, noNaN: true }), fc.integer({ min: -15, max: 14 }))
  .map(([mantissa, decade]) => Number(`${mantissa}e${decade}`))
const signed = fc.tuple(size, fc.boolean()).map(([x, negative]) => (negative ? -x : x))

describe('what is written can be read', () => {
  it('to the last bit at 17 digits, in every unit, in either spelling', () => {
    fc.assert(
      fc.property(signed, unit, fc.boolean(), (x, unit, ascii) => {
        expect(readNumber(format(x, unit, { digits: 17, ascii }), { field: 'x', unit })).toBe(x)
      }),
      { numRuns: 3000 },
    )
  })

  it('to the digits asked for', () => {
    fc.assert(
      fc.property(signed, unit, fc.integer({ min: 1, max: 15 }), fc.boolean(), (x, unit, digits, zeros) => {
        expect(readNumber(format(x, unit, { digits, zeros }), { field: 'x', unit })).toBe(Number(x.toPrecision(digits)))
      }),
      { numRuns: 3000 },
    )
  })

  it('at any finite number at all', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.constantFrom(...units), (x, unit) => {
        expect(readNumber(format(x, unit, { digits: 17 }), { field: 'x', unit })).toBe(x + 0)
      }),
      { numRuns: 2000 },
    )
  })

  it('as a resistor code of up to four digits', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: -4, max: 7 }), (digits, power) => {
        const ohms = Number(`${digits}e${power}`)
        fc.pre(ohms >= 0.1)
        expect(readResistorCode(resistorCode(ohms)).value).toBe(ohms)
      }),
    )
  })

  it('never with more than three digits before the point where a prefix can help', () => {
    fc.assert(
      fc.property(size, (x) => {
        const shown = Number.parseFloat(format(x, 'ohm'))
        expect(shown).toBeGreaterThanOrEqual(1)
        expect(shown).toBeLessThan(x > 9.9e14 ? 1001 : 1000)
      }),
    )
  })
})

describe('preferred values', () => {
  it('nearest has the smallest ratio of all, by brute force', () => {
    fc.assert(
      fc.property(size, series, (x, series) => {
        const ratio = (y: number) => Math.max(x / y, y / x)
        const decade = Math.floor(Math.log10(x))
        const all = [-1, 0, 1].flatMap((step) =>
          preferredValues(series).map((value) => Number(`${value}e${decade + step}`)),
        )
        const found = nearest(x, series)
        expect(all).toContain(found)
        expect(ratio(found)).toBeLessThanOrEqual(Math.min(...all.map(ratio)) * (1 + 1e-15))
      }),
      { numRuns: 2000 },
    )
  })

  it('step up and down come back, with nothing between', () => {
    fc.assert(
      fc.property(size, series, (x, series) => {
        const value = nearest(x, series)
        fc.pre(value < 9e14)
        const up = nextUp(value, series)
        expect(up).toBeGreaterThan(value)
        expect(nextDown(up, series)).toBe(value)
        expect(preferredIn({ from: value, to: up }, series)).toEqual([value, up])
      }),
    )
  })

  it('are the doubles that their decimals read as', () => {
    fc.assert(
      fc.property(size, series, (x, series) => {
        const value = nearest(x, series)
        expect(value).toBe(Number(value.toPrecision(3)))
      }),
    )
  })
})

describe('tolerances', () => {
  it('read as they are made', () => {
    fc.assert(
      fc.property(signed, fc.integer({ min: 1, max: 100 }), (x, percent) => {
        const text = `${format(x, 'V', { digits: 17 })} ±${percent} %`
        expect(readSpread(text, { field: 'x', unit: 'V' })).toEqual(relative(x, percent / 100))
      }),
    )
  })

  it('survive a factor and its inverse, in order', () => {
    fc.assert(
      fc.property(signed, fc.integer({ min: 1, max: 20 }), (x, power) => {
        const spread = relative(x, 0.1)
        const twice = scaled(scaled(spread, -(2 ** power)), -(2 ** -power))
        expect(twice).toEqual(spread)
        const once = scaled(spread, -3)
        expect(once.lower <= once.nominal && once.nominal <= once.upper).toBe(true)
      }),
    )
  })
})

describe('hostile input', () => {
  const pieces = [
    '1',
    '9',
    '.',
    ',',
    '-',
    '+',
    '±',
    '+-',
    '/',
    '*',
    '^',
    '%',
    'e',
    'E',
    'k',
    'M',
    'm',
    'u',
    'µ',
    'R',
    'V',
    'A',
    'Ω',
    'ohm',
    'K',
    '°C',
    'C',
    'dB',
    ' ',
    '\u00a0',
    '\n',
    '..',
    '<=',
    '>=',
    'max',
    'min',
    ' normal',
    ' t',
    ' k=2',
    ' dof=9',
    '√',
    'Hz',
    'sqrt(',
    ')',
    '1e308',
    '1e-308',
    'NaN',
    'Infinity',
    '__proto__',
    'constructor',
    'toString',
    '\u2212',
    '²',
    '\0',
    '😀',
  ]
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 40 }),
    fc.array(fc.constantFrom(...pieces), { maxLength: 10 }).map((parts) => parts.join('')),
  )
  const anything = fc.oneof(
    text,
    fc.anything({ withBigInt: true, withNullPrototype: true, withDate: true, withMap: true, withTypedArray: true }),
    fc.record({ nominal: fc.anything(), lower: fc.anything(), upper: fc.anything(), distribution: fc.anything() }),
    fc.record({ from: fc.anything(), to: fc.anything() }),
  )

  /** The value, or `undefined` where the library's own error was thrown. */
  function attempt<T>(run: () => T): T | undefined {
    try {
      return run()
    } catch (error) {
      expect(error).toBeInstanceOf(InputError)
      return undefined
    }
  }

  it('gives the one error or finite numbers in order', () => {
    fc.assert(
      fc.property(anything, unit, (input, unit) => {
        const spec = { field: 'x', unit }
        const number = attempt(() => readNumber(input, spec))
        if (number !== undefined) expect(Number.isFinite(number)).toBe(true)
        const spread = attempt(() => readSpread(input, spec))
        if (spread) {
          expect([spread.lower, spread.nominal, spread.upper].every(Number.isFinite)).toBe(true)
          expect(spread.lower <= spread.nominal && spread.nominal <= spread.upper).toBe(true)
        }
        const range = attempt(() => readRange(input, spec))
        if (range) expect(range.from <= range.to).toBe(true)
        attempt(() => missingFields(input, ['a'], 'x'))
        attempt(() => readResistorCode(input as string))
      }),
      { numRuns: 4000 },
    )
  })

  it.skipIf(process.env['OHMWARD_MUTATE'])('is judged quickly, however long', () => {
    for (const piece of ['1', '1+', '+1-', '1 ', '.', 'k', '±', '1/-', ' t'])
      for (const unit of ['ohm', 'degC', '1'] as const) {
        const started = performance.now()
        attempt(() => readSpread(piece.repeat(100_000), { field: 'x', unit }))
        expect(performance.now() - started).toBeLessThan(1000)
      }
  })
})
