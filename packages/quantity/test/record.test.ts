import { describe, expect, expectTypeOf, it } from 'vitest'
import {
  either,
  exactly,
  fieldsOf,
  type Given,
  InputError,
  kinds,
  list,
  own,
  part,
  type Read,
  range,
  readRecord,
  record,
  type Spread,
  schemaOf,
  spread,
  takenFor,
  word,
} from '../src/index.js'

const timing = {
  wait: { symbol: 't_wait', unit: 's', min: 0, max: 10, otherwise: 1e-3, meaning: 'wait before the sample' },
  drift: { symbol: 'D', unit: '1/K', magnitude: true, otherwise: 1e-4, meaning: 'largest drift, either sign' },
} as const

const choice = record(
  {
    reference: spread({ symbol: 'R_ref', unit: 'ohm', above: 0, max: 1e6, meaning: 'reference resistor' }),
    bits: exactly({ unit: '1', min: 1, max: 32, integer: true, meaning: 'bits' }),
    load: range({ unit: 'ohm', min: 0, max: 100, meaning: 'resistances to read' }),
    topology: word(['load at ground', 'load at rail'], { otherwise: 'load at ground', meaning: 'where the load is' }),
    timing: part(timing, { meaning: 'when it is read' }),
    supply: either(['rail'], spread({ symbol: 'V_s', unit: 'V', above: 0, max: 60, meaning: 'supply' }), {
      otherwise: 'rail',
      meaning: 'the rail, or a supply of its own',
    }),
    calibration: kinds(
      {
        none: {},
        zero: { short: { symbol: 'R_short', unit: 'ohm', min: 0, max: 1, otherwise: 0, meaning: 'what a short has' } },
        span: { resistor: { symbol: 'R_cal', unit: 'ohm', above: 0, max: 100, meaning: 'known resistor' } },
      },
      { otherwise: 'none', meaning: 'how it is calibrated' },
    ),
    bias: list(
      part(
        {
          volts: exactly({ unit: 'V', min: 0, max: 100, meaning: 'bias' }),
          share: exactly({ unit: '1', above: 0, max: 1, meaning: 'what is left of it' }),
        },
        { meaning: 'point' },
      ),
      { least: 1, most: 4, optional: true, meaning: 'capacitance against bias' },
    ),
    name: own<string>()(
      (given, field) => {
        if (typeof given === 'string' && given.length <= 10) return given.toUpperCase()
        throw new InputError({ field, value: given, allowed: 'a name of at most 10 letters' })
      },
      { schema: { type: 'string', maxLength: 10 }, otherwise: 'part', meaning: 'what it is called' },
    ),
  },
  (read: { bits: number }, field) => {
    if (read.bits === 13) throw new InputError({ field: `${field}.bits`, value: 13, allowed: 'another number' })
  },
)

const given: Given<typeof choice> = { reference: '47 ohm ±1 %', bits: 12, load: { from: 0.5, to: '1.2 ohm' } }
const read = (more: object = {}) => readRecord(choice, { ...given, ...more }, 'choice')
const refused = (more: object): InputError => {
  try {
    read(more)
  } catch (error) {
    if (error instanceof InputError) return error
    throw error
  }
  throw new Error('was taken')
}

describe('what is read', () => {
  it('is every field in SI units, with what is taken otherwise', () => {
    expect(read()).toEqual({
      reference: { nominal: 47, lower: 46.53, upper: 47.47, distribution: { kind: 'rectangular' } },
      bits: 12,
      load: { from: 0.5, to: 1.2 },
      topology: 'load at ground',
      timing: {
        wait: { nominal: 1e-3, lower: 1e-3, upper: 1e-3, distribution: { kind: 'exact' } },
        drift: { nominal: 0, lower: -1e-4, upper: 1e-4, distribution: { kind: 'rectangular' } },
      },
      supply: 'rail',
      calibration: { kind: 'none' },
      bias: undefined,
      name: 'PART',
    })
  })

  it('takes one value for both ends of a range that allows it', () => {
    const pulses = record({ duty: range({ unit: '1', above: 0, below: 1, orOne: true, meaning: 'duties' }) })
    const of = (duty: Given<typeof pulses>['duty']) => readRecord(pulses, { duty }, 'choice').duty
    expect(of(0.5)).toEqual({ from: 0.5, to: 0.5 })
    expect(of('20 %')).toEqual({ from: 0.2, to: 0.2 })
    expect(of({ from: 0.1, to: '90 %' })).toEqual({ from: 0.1, to: 0.9 })
    expect(() => of(1.5)).toThrow(/^duty = 1\.5/)
    expect(() => of(null as never)).toThrow(/duty/)
    expect(() => readRecord(choice, { ...given, load: 1 as never }, 'choice')).toThrow(/load/)
  })

  it('takes kinds as a word where nothing more is needed, values in the place of a word, and lists', () => {
    expect(read({ calibration: 'zero' }).calibration).toMatchObject({ kind: 'zero', short: { nominal: 0 } })
    expect(read({ calibration: { kind: 'span', resistor: 2 } }).calibration).toMatchObject({ resistor: { nominal: 2 } })
    expect(read({ supply: '3.3 V' }).supply).toMatchObject({ nominal: 3.3 })
    expect(read({ bias: [{ volts: '2 V', share: '80 %' }] }).bias).toEqual([{ volts: 2, share: 0.8 }])
    expect(read({ name: undefined, timing: undefined }).name).toBe('PART')
  })

  it('has the types of its fields', () => {
    expectTypeOf<Read<typeof choice>['reference']>().toEqualTypeOf<Spread>()
    expectTypeOf<Read<typeof choice>['bits']>().toEqualTypeOf<number>()
    expectTypeOf<Read<typeof choice>['topology']>().toEqualTypeOf<'load at ground' | 'load at rail'>()
    expectTypeOf<Read<typeof choice>['supply']>().toEqualTypeOf<'rail' | Spread>()
    expectTypeOf<Read<typeof choice>['name']>().toEqualTypeOf<string>()
    expectTypeOf<Given<typeof choice>['topology']>().toEqualTypeOf<'load at ground' | 'load at rail' | undefined>()
    // @ts-expect-error a field that isn't in the record
    const wrong: Given<typeof choice> = { ...given, refrence: 47 }
    // @ts-expect-error a required field is missing
    const missing: Given<typeof choice> = { bits: 12, load: { from: 0, to: 1 } }
    expect([wrong, missing]).toHaveLength(2)
  })

  it('leaves what it was given as it is, and no prototype is read or written', () => {
    const frozen = Object.freeze({ ...given, timing: Object.freeze({ wait: '2 ms' }) })
    expect(readRecord(choice, frozen, 'choice').timing.wait.nominal).toBe(2e-3)
    expect(() => readRecord(choice, JSON.parse('{"reference":47,"bits":12,"__proto__":{"a":1}}'), 'choice')).toThrow(
      /Unknown: __proto__/,
    )
    expect(() => readRecord(choice, Object.create(given), 'choice')).toThrow(/Missing: reference, bits, load/)
    expect(refused({ calibration: { kind: 'constructor' } }).field).toBe('calibration.kind')
    expect(({} as { a?: number }).a).toBeUndefined()
  })
})

describe('what is refused', () => {
  it.each([
    [{ refrence: 47 }, 'choice', /Unknown: refrence \(did you mean reference\?\)/],
    [{ reference: -1 }, 'reference', /more than 0 ohm/],
    [{ bits: 12.5 }, 'bits', /whole number/],
    [
      { bits: { nominal: 12, lower: 11, upper: 13, distribution: { kind: 'rectangular' } } },
      'bits',
      /without a tolerance/,
    ],
    [{ bits: 13 }, 'choice.bits', /another number/],
    [{ load: { from: 2, to: 1 } }, 'load.from', /at most the other end/],
    [{ topology: 'upside down' }, 'topology', /"load at ground" or "load at rail"/],
    [{ timing: { wiat: 1 } }, 'timing', /did you mean wait/],
    [{ timing: { wait: '1 ohm' } }, 'timing.wait', /in s/],
    [{ supply: 'cell' }, 'supply', /in V/],
    [{ calibration: 'span' }, 'calibration', /Missing: resistor/],
    [{ calibration: 'two points' }, 'calibration', /"none" or "zero" or "span"/],
    [{ calibration: { kind: 'zero', resistor: 2 } }, 'calibration', /Unknown: resistor/],
    [{ bias: [] }, 'bias', /a list of 1 to 4/],
    [{ bias: [{ volts: 1, share: 1, sharp: 2 }] }, 'bias[0]', /Unknown: sharp/],
    [{ bias: [{ volts: 1, share: 2 }] }, 'bias[0].share', /at most 1/],
    [{ name: 'much too long a name' }, 'name', /at most 10/],
  ])('%j by the field', (more, field, message) => {
    const error = refused(more)
    expect(error.field).toBe(field)
    expect(error.message).toMatch(message)
  })

  it('says all that is wrong in one error, the first field with what is allowed there', () => {
    const error = refused({
      reference: -1,
      bits: 12.5,
      refrence: 47,
      timing: { wait: '1 ohm', drift: 'small' },
      bias: [
        { volts: 1, share: 2 },
        { volts: -1, share: 1 },
      ],
    })
    expect(error.message).toMatch(
      /^choice = an object: .* Unknown: refrence \(did you mean reference\?\)\. Also wrong: /,
    )
    expect(error.message).toMatch(
      /: reference = -1 ohm, bits = 12\.5, timing\.wait = "1 ohm", timing\.drift = "small" and 2 more$/,
    )
    expect(error.also.map(({ field, allowed }) => [field, allowed !== ''])).toEqual(
      ['reference', 'bits', 'timing.wait', 'timing.drift', 'bias[0].share', 'bias[1].volts'].map((field) => [
        field,
        true,
      ]),
    )
    const two = refused({ bits: 12.5, topology: 'upside down' })
    expect([two.field, two.also.map(({ field }) => field)]).toEqual(['bits', ['topology']])
    expect(refused({ bits: 12.5 }).also).toEqual([])
  })

  it('cuts a long unknown name', () => {
    expect(refused({ ['x'.repeat(1e5)]: 1 }).message.length).toBeLessThan(1000)
  })
})

describe('what follows from a record', () => {
  it('says what was taken by default, with value, unit and meaning', () => {
    const texts = takenFor(choice, { ...given, timing: { wait: '2 ms' }, calibration: { kind: 'zero' } }).map(
      ({ text }) => text,
    )
    expect(texts).toEqual([
      'topology = load at ground (where the load is)',
      'timing.drift = ±100 ppm/K (largest drift, either sign)',
      'supply = rail (the rail, or a supply of its own)',
      'calibration.short = 0 Ω (what a short has)',
      'name = part (what it is called)',
    ])
  })

  it('has a schema that closes every object and names what is taken otherwise', () => {
    const schema = schemaOf(choice, { title: 'Example' }) as any
    expect(schema.required).toEqual(['reference', 'bits', 'load'])
    expect(schema.additionalProperties).toBe(false)
    expect(schema.properties.reference.description).toBe(
      'reference resistor; in ohm; more than 0 ohm and at most 1 Mohm',
    )
    expect(schema.properties.reference.anyOf[0]).toEqual({ type: 'number', maximum: 1e6, exclusiveMinimum: 0 })
    expect(schema.properties.timing.properties.wait.default).toBe(1e-3)
    expect(schema.properties.calibration.oneOf).toContainEqual({ const: 'none' })
    expect(schema.properties.calibration.oneOf).not.toContainEqual({ const: 'span' })
    expect(schema.properties.bias.items.additionalProperties).toBe(false)
    expect(JSON.parse(JSON.stringify(schema))).toEqual(schema)
  })

  it('has a table of all fields', () => {
    const rows = fieldsOf(choice)
    expect(rows.map(({ path }) => path)).toEqual([
      'reference',
      'bits',
      'load',
      'topology',
      'timing.wait',
      'timing.drift',
      'supply',
      'calibration',
      'calibration (zero).short',
      'calibration (span).resistor',
      'bias',
      'bias[].volts',
      'bias[].share',
      'name',
    ])
    expect(rows.find(({ path }) => path === 'timing.wait')).toMatchObject({
      takes: 'value with tolerance',
      unit: 's',
      limits: 'at least 0 s and at most 10 s',
      otherwise: '1 ms',
      required: false,
    })
  })
})
