import {
  demand,
  demandShape,
  either,
  exactly,
  InputError,
  kinds,
  list,
  part,
  range,
  readRecord,
  record,
  spread,
  takenFor,
  word,
} from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'

/** What a call is refused for. */
function refused(act: () => unknown): InputError {
  try {
    act()
  } catch (error) {
    if (error instanceof InputError) return error
    throw error
  }
  throw new Error('nothing was refused')
}

const volts = { symbol: 'V', unit: 'V', meaning: 'a voltage' } as const
const loose = (value: unknown) => value as never

describe('a field that says something wrong of itself is refused where it is made', () => {
  it('a misspelled key, with the nearest that exists', () => {
    expect(refused(() => spread(loose({ ...volts, maximum: 5 }))).message).toMatch(/Unknown: maximum/)
    expect(refused(() => exactly(loose({ unit: 'V', meanign: 'a voltage' }))).message).toMatch(
      /Missing: meaning\. Unknown: meanign \(did you mean meaning\?\)/,
    )
    const unit = refused(() => part(loose({ level: { ...volts, otherwize: '1 V' } }), { meaning: 'a part' }))
    expect(unit.field).toBe('field.fields.level')
    expect(unit.message).toMatch(/did you mean otherwise\?/)
  })

  it.each([
    ['a limit that is no number', () => spread({ ...volts, max: loose('5 V') }), 'field.max'],
    ['an endless limit', () => range({ unit: 'V', min: -Infinity, meaning: 'a range' }), 'field.min'],
    [
      'a default that is no word of it',
      () => word(['a', 'b'], { otherwise: loose('c'), meaning: 'w' }),
      'field.otherwise',
    ],
    [
      'a default that is no kind',
      () => kinds({ none: {} }, { otherwise: loose('zero'), meaning: 'k' }),
      'field.otherwise',
    ],
    ['a default of NaN', () => exactly({ unit: 'V', otherwise: NaN, meaning: 'n' }), 'field.otherwise'],
    ['no words', () => either([], spread(volts), { meaning: 'e' }), 'field.words'],
    ['a field inside that is none', () => list(loose(3), { least: 0, most: 1, meaning: 'l' }), 'field.of'],
    ['a kind of field that there is none of', () => record({ a: loose({ kind: 'numbr' }) }), 'fields.a.kind'],
    ['a field in the place of a table', () => record(loose(spread(volts))), 'fields.symbol'],
    ['a check that is no function', () => record({ a: spread(volts) }, loose({})), 'check'],
  ])('%s', (_, make, field) => {
    expect(refused(make).field).toBe(field)
  })

  it('once alone: what was looked at is taken again, by itself and in a record', () => {
    const field = spread(volts)
    expect(() => record({ field, again: field })).not.toThrow()
    expect(readRecord(record({ field }), { field: 3 }, 'choice').field.nominal).toBe(3)
  })
})

describe('what reads a record takes records alone', () => {
  it.each([undefined, null, 3, {}, { fields: [] }, { fields: { a: 1 } }])('not %j', (none) => {
    expect(refused(() => takenFor(loose(none), {})).field).toMatch(/^record/)
    expect(refused(() => readRecord(loose(none), {}, 'choice')).field).toMatch(/^record/)
  })
})

describe('the shape of an object', () => {
  const shape = { name: 'a text', watts: 'a finite number', note: '?a text', more: '?anything' } as const

  it('is met with what may be left out and without it', () => {
    for (const given of [
      { name: 'fuse', watts: 1 },
      { name: 'fuse', watts: 1, note: 'slow', more: Symbol('s') },
      { name: 'fuse', watts: 1, note: undefined, other: undefined },
    ]) {
      expect(() => demandShape(given, 'line', shape)).not.toThrow()
    }
  })

  it.each([
    [
      'missing and unknown keys',
      { name: 'fuse', wats: 1 },
      'line',
      /Missing: watts\. Unknown: wats \(did you mean watts\?\)/,
    ],
    ['an inherited key', Object.assign(Object.create({ watts: 1 }), { name: 'fuse' }), 'line', /Missing: watts/],
    ['a wrong value', { name: 'fuse', watts: NaN }, 'line.watts', /allowed is a finite number/],
    ['a wrong value that may be left out', { name: 'fuse', watts: 1, note: 3 }, 'line.note', /allowed is a text/],
    ['a list', ['fuse', 1], 'line', /a list: allowed is an object with name, watts; optional: note, more/],
  ])('names %s', (_, given, field, message) => {
    const error = refused(() => demandShape(given, 'line', shape))
    expect(error.field).toBe(field)
    expect(error.message).toMatch(message)
  })

  it('names what it is itself held to wrongly', () => {
    expect(refused(() => demandShape({ a: 1 }, 'line', { a: loose('a nummber') })).field).toBe('shape.a')
  })
})

it('a demand that names no field is refused for that', () => {
  expect(refused(() => demand(false, loose(undefined))).field).toBe('problem.field')
  expect(refused(() => demand(false, { field: '', value: 1, allowed: 'more' })).field).toBe('problem.field')
})
