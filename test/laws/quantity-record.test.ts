import {
  capacitorCode,
  either,
  exactly,
  fieldsOf,
  InputError,
  kinds,
  list,
  own,
  part,
  range,
  readCapacitorCode,
  readNumber,
  readRecord,
  readSpread,
  record,
  schemaOf,
  spread,
  takenFor,
  type Unit,
  word,
} from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

/** A field of every kind, and every kind in another. */
const every = record({
  size: spread({ symbol: 'V_os', unit: 'V', min: -1, max: 2, magnitude: true, meaning: 'offset' }),
  value: spread({ symbol: 'R', unit: 'ohm', above: 0, below: 10, otherwise: '4.7 ohm ±1 %', meaning: 'resistor' }),
  count: exactly({ unit: '1', integer: true, min: 1, max: 4, otherwise: 2, meaning: 'how many' }),
  ends: range({ unit: 's', min: 0, max: 3, otherwise: { from: 1, to: 2 }, meaning: 'times' }),
  oneOrEnds: range({ unit: 'A', above: 0, max: 3, orOne: true, optional: true, meaning: 'currents' }),
  place: word(['here', 'there'], { otherwise: 'here', meaning: 'where' }),
  inner: part(
    {
      length: exactly({ unit: 'm', min: 0, max: 5, otherwise: 1, meaning: 'length' }),
      deep: part({ name: word(['a', 'b'], { optional: true, meaning: 'letter' }) }, { meaning: 'deeper' }),
    },
    { optional: true, meaning: 'a part' },
  ),
  parts: list(
    part(
      { bits: exactly({ unit: '1', integer: true, min: 0, max: 8, otherwise: 3, meaning: 'bits' }) },
      { meaning: 'one' },
    ),
    { least: 1, most: 3, optional: true, meaning: 'a list' },
  ),
  kind: kinds(
    {
      none: {},
      some: { ohms: spread({ symbol: 'R_k', unit: 'ohm', min: 0, max: 9, meaning: 'resistor of a kind' }) },
      taken: { volts: exactly({ unit: 'V', min: 0, max: 9, otherwise: 5, meaning: 'volts of a kind' }) },
    },
    { otherwise: 'none', meaning: 'a kind' },
  ),
  other: either(['rail'], exactly({ unit: 'V', min: 1, max: 6, meaning: 'volts' }), {
    otherwise: 'rail',
    meaning: 'supply',
  }),
  note: own<number>()(
    (given, field) => {
      if (given === 7) return 7
      throw new InputError({ field, value: given, allowed: 'seven' })
    },
    { schema: { const: 7 }, otherwise: 7, meaning: 'a field of its own' },
  ),
})

type Schema = { readonly [key: string]: any }

/** What the keywords of JSON schema say of a value (draft 2020-12, those that a record's schema uses). */
function fits(value: any, schema: Schema): boolean {
  const own = (key: string) => Object.hasOwn(value, key)
  const isKeyed = typeof value === 'object' && value !== null && !Array.isArray(value)
  const types: Record<string, boolean> = {
    number: typeof value === 'number',
    integer: Number.isInteger(value),
    string: typeof value === 'string',
    object: isKeyed,
    array: Array.isArray(value),
  }
  if (schema['type'] !== undefined && !types[schema['type']]) return false
  if ('const' in schema && value !== schema['const']) return false
  if ('enum' in schema && !schema['enum'].includes(value)) return false
  if ('anyOf' in schema && !schema['anyOf'].some((one: Schema) => fits(value, one))) return false
  if ('oneOf' in schema && schema['oneOf'].filter((one: Schema) => fits(value, one)).length !== 1) return false
  if (typeof value === 'number') {
    const { minimum = -Infinity, maximum = Infinity, exclusiveMinimum, exclusiveMaximum } = schema
    if (value < minimum || value > maximum || value <= exclusiveMinimum || value >= exclusiveMaximum) return false
  }
  if (Array.isArray(value)) {
    if (value.length < schema['minItems'] || value.length > schema['maxItems']) return false
    return value.every((one) => fits(one, schema['items'] ?? {}))
  }
  if (!isKeyed || schema['properties'] === undefined) return true
  if (!schema['required'].every(own)) return false
  return Object.keys(value).every((key) =>
    Object.hasOwn(schema['properties'], key)
      ? fits(value[key], schema['properties'][key])
      : schema['additionalProperties'] !== false,
  )
}

const number = fc.constantFrom(-2, -1, -0.5, 0, 0.5, 1, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10, 11)
const words = fc.constantFrom('here', 'there', 'rail', 'none', 'some', 'taken', 'a', 'b')
const ends = fc.tuple(number, number).map(([one, other]) => ({ from: Math.min(one, other), to: Math.max(one, other) }))
const nothing = fc.constantFrom(null, true, [], {}, [1], { from: 1 }, { kind: 'none', more: 1 }, { kind: 'some' })
const several = <T>(one: fc.Arbitrary<T>) => fc.array(one, { maxLength: 4 })
const likely: Record<string, fc.Arbitrary<unknown>> = {
  size: number,
  value: number,
  count: number,
  ends,
  oneOrEnds: fc.oneof(number, ends),
  place: words,
  inner: fc.record({ length: number, deep: fc.record({ name: words }, { requiredKeys: [] }) }, { requiredKeys: [] }),
  parts: several(fc.record({ bits: number }, { requiredKeys: [] })),
  kind: fc.oneof(
    words,
    fc.record({ kind: words, ohms: number, volts: number }, { requiredKeys: ['kind'] }),
    number.map((ohms) => ({ kind: 'some', ohms })),
  ),
  other: fc.oneof(words, number),
  note: number,
}
const required = { size: 1 }

describe('a schema', () => {
  const schema = () => schemaOf(every, { title: 'every kind' }) as Schema
  const takes = (given: object) => {
    try {
      readRecord(every, given as never, 'choice')
      return true
    } catch (error) {
      if (error instanceof InputError) return false
      throw error
    }
  }

  it.each(Object.entries(likely))('takes what the reader takes, and nothing else: %s', (field, arbitrary) => {
    const own = schema()
    const seen = { taken: 0, refused: 0 }
    fc.assert(
      fc.property(fc.oneof({ arbitrary, weight: 5 }, { arbitrary: nothing, weight: 1 }), (value) => {
        // A text is read by its field: a schema can't say more of it than that it is one.
        const isText =
          typeof value === 'string' && /^(size|value|count|oneOrEnds|other)$/.test(field) && value !== 'rail'
        fc.pre(!isText)
        const given = { ...required, [field]: value }
        const taken = takes(given)
        seen[taken ? 'taken' : 'refused']++
        // Both signs of a size are held against its limits, by the reader alone.
        if (field === 'size' && !taken) return
        expect([JSON.stringify(given), fits(given, own)]).toEqual([JSON.stringify(given), taken])
      }),
      { numRuns: 300 },
    )
    expect(Math.min(seen.taken, seen.refused)).toBeGreaterThan(10)
  })

  it('has what is taken otherwise, and takes it', () => {
    for (const [name, { default: otherwise }] of Object.entries<Schema>(schema()['properties'] as Schema)) {
      if (otherwise !== undefined)
        expect([name, fits({ ...required, [name]: otherwise }, schema())]).toEqual([name, true])
    }
    expect(fits({}, schema())).toBe(false)
    expect(fits({ ...required, more: 1 }, schema())).toBe(false)
  })
})

describe('what is taken otherwise', () => {
  it('reads the same where it is written out, as the table and the assumptions write it', () => {
    const bare = readRecord(every, { size: '1 V', inner: {}, parts: [{}, { bits: 4 }], kind: 'taken' }, 'choice')
    const given = {
      size: '1 V',
      value: '4.7 ohm ±1 %',
      count: 2,
      ends: { from: '1 s', to: '2 s' },
      place: 'here',
      inner: { length: '1 m', deep: {} },
      parts: [{ bits: 3 }, { bits: 4 }],
      kind: { kind: 'taken', volts: '5 V' },
      other: 'rail',
      note: 7,
    } as const
    expect(readRecord(every, given, 'choice')).toEqual(bare)
    expect(takenFor(every, given)).toEqual([])
    const said = takenFor(every, { size: '1 V', inner: {}, parts: [{}, { bits: 4 }], kind: 'taken' })
    expect(said.map(({ field, value }) => `${field} = ${value}`)).toEqual([
      'value = 4.7 ohm ±1 %',
      'count = 2',
      'ends = 1 s to 2 s',
      'place = here',
      'inner.length = 1 m',
      'parts[0].bits = 3',
      'kind.volts = 5 V',
      'other = rail',
      'note = 7',
    ])
    expect(takenFor(every, required).map(({ field }) => field)).toEqual([
      'value',
      'count',
      'ends',
      'place',
      'kind',
      'other',
      'note',
    ])
  })

  it('stands in the table beside what each field takes', () => {
    const lines = fieldsOf(every).map(
      ({ path, takes, limits, otherwise, required }) =>
        `${path}${required ? '!' : ''}: ${takes}; ${limits}; ${otherwise}`,
    )
    expect(lines).toEqual([
      'size!: size or value with tolerance; at least -1 V and at most 2 V; ',
      'value: value with tolerance; more than 0 ohm and less than 10 ohm; 4.7 ohm ±1 %',
      'count: number; at least 1 and at most 4; 2',
      'ends: range { from, to }; at least 0 s and at most 3 s; 1 s to 2 s',
      'oneOrEnds: number or range { from, to }; more than 0 A and at most 3 A; ',
      'place: "here" or "there"; ; here',
      'inner.length: number; at least 0 m and at most 5 m; 1 m',
      'inner.deep.name: "a" or "b"; ; ',
      'parts: list of 1 to 3; ; ',
      'parts[].bits: number; at least 0 and at most 8; 3',
      'kind: "none" or "some" or "taken"; ; none',
      'kind (some).ohms!: value with tolerance; at least 0 ohm and at most 9 ohm; ',
      'kind (taken).volts: number; at least 0 V and at most 9 V; 5 V',
      'other: "rail" or number; ; rail',
      'note: see its meaning; ; 7',
    ])
  })
})

describe('a name one place too high', () => {
  it.each([
    ['length', 'inner.length'],
    ['deep', 'inner.deep'],
    ['name', 'inner.deep.name'],
  ])('%s is led to %s', (name, path) => {
    expect(() => readRecord(every, { ...required, [name]: 1 } as never, 'choice')).toThrow(`did you mean ${path}?`)
  })

  it('is one of a record that is none at all', () => {
    for (const given of [undefined, null, 5, 'text', []]) {
      expect(() => readRecord(every, given as never, 'choice')).toThrow(/^choice = /)
    }
  })

  it('is said where it stands, in the place of a word too', () => {
    const inWord = record({
      at: either(['none'], part({ x: exactly({ unit: 'V', min: 0, max: 1, meaning: 'x' }) }, { meaning: 'a part' }), {
        meaning: 'a place',
      }),
    })
    expect(() => readRecord(inWord, { at: { x: 2 } }, 'choice')).toThrow(/^at\.x = 2 V: allowed is (?!"none")/)
    expect(() => readRecord(inWord, { at: 5 as never }, 'choice')).toThrow(/^at = 5: allowed is "none" or /)
  })

  it('has no kind from its prototype', () => {
    const kind = Object.create({ kind: 'none' })
    expect(() => readRecord(every, { ...required, kind }, 'choice')).toThrow(/^kind\.kind = /)
  })
})

describe('a unit', () => {
  const names = ['V', 'A', 's', 'm', 'K', 'F'] as const
  const factors = fc.array(fc.tuple(fc.constantFrom(...names), fc.constantFrom('*', '/')), {
    minLength: 2,
    maxLength: 4,
  })
  const written = (all: readonly (readonly [string, string])[]) =>
    all.map(([name, operator], i) => (i === 0 ? name : operator + name)).join('')

  it('is the same whatever the order of its factors, and what is multiplied and divided by is out', () => {
    fc.assert(
      fc.property(factors, fc.constantFrom(...names), (all, more) => {
        const [first, ...others] = all
        const unit = written(all) as Unit
        expect(readNumber(`3.5 ${written([first!, ...others.toReversed()])}`, { field: 'x', unit })).toBe(3.5)
        expect(readNumber(`3.5 ${unit}*${more}/${more}`, { field: 'x', unit })).toBe(3.5)
        expect(() => readNumber(`3.5 ${unit}*${more}`, { field: 'x', unit })).toThrow(InputError)
      }),
      { numRuns: 200 },
    )
  })
})

describe('a text', () => {
  it('may count in the plural', () => {
    expect(readNumber('12 bits', { field: 'x', unit: 'bit' })).toBe(12)
    expect(readNumber('3 counts', { field: 'x', unit: 'LSB' })).toBe(3)
    expect(() => readNumber('12 bits', { field: 'x', unit: 'V' })).toThrow(InputError)
  })

  it('of a capacitor may begin with its letter, four digits behind it', () => {
    const size = fc.tuple(fc.integer({ min: 1000, max: 9999 }), fc.constantFrom(-16, -13, -10))
    fc.assert(
      fc.property(size, ([digits, power]) => {
        const farads = Number(`${digits}e${power}`)
        expect(readCapacitorCode(capacitorCode(farads)).value).toBe(farads)
      }),
    )
  })

  it('of two limits may be a code and a number', () => {
    expect(readSpread('3V3 to 4 V', { field: 'x', unit: 'V' })).toMatchObject({ lower: 3.3, upper: 4 })
  })

  it('of two numbers is said to hold two', () => {
    for (const text of ['3 4', '3 4 V', '3 -4', '3 V 4']) {
      expect(() => readNumber(text, { field: 'x', unit: 'V' })).toThrow(text === '3 V 4' ? InputError : /two numbers/)
    }
  })

  it('of a size keeps below what it must stay below, whichever its sign', () => {
    const size = record({ x: spread({ symbol: 'x', unit: 'V', min: -9, below: 2, magnitude: true, meaning: 'size' }) })
    expect(readRecord(size, { x: '-1.9 V' }, 'choice').x).toMatchObject({ lower: -1.9, upper: 1.9 })
    for (const x of ['2 V', '-2 V', '-3 V']) expect(() => readRecord(size, { x }, 'choice')).toThrow(/^x = /)
  })
})

describe('limits', () => {
  const numberText = fc.tuple(fc.integer({ min: -999, max: 999 }), fc.integer({ min: -12, max: 12 }))

  it('may leave their unit to the second, whatever way the first is written', () => {
    fc.assert(
      fc.property(numberText, fc.constantFrom('', '.0', '.5'), fc.constantFrom('e', 'E'), ([whole, power], rest, e) => {
        const low = `${whole}${rest}${e}${power}`
        const high = `1${e}+20`
        const { lower, upper } = readSpread(`${low} to ${high} mV`, { field: 'x', unit: 'V' })
        const exact = Number(`${whole}${rest}e${power - 3}`)
        expect(Math.abs(lower - exact)).toBeLessThanOrEqual(1e-15 * Math.abs(exact))
        expect(upper).toBe(1e17)
      }),
      { numRuns: 200 },
    )
  })

  it.each(['x3 to 4 V', '3V3x to 4 V', 'about 3 to 4 V'])('refuse %s', (text) => {
    expect(() => readSpread(text, { field: 'x', unit: 'V' })).toThrow(InputError)
  })
})
