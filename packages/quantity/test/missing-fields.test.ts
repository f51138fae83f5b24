import { missingFields, readRange } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { refusalOf } from './refuse.js'

describe('the fields of a part', () => {
  it('come back alone', () => {
    expect(missingFields({ a: 1, b: undefined, c: 3 }, ['a'], 'part', ['b', 'c'])).toEqual({ a: 1, c: 3 })
    expect(missingFields({}, [], 'part')).toEqual({})
  })

  it('are named all at once when they are missing or unknown', () => {
    const error = refusalOf(() => missingFields({ a: 1, d: 2, e: 3 }, ['a', 'b', 'c'], 'part', ['x', 'y']))
    expect(error.message).toBe(
      'part = an object: allowed is an object with a, b, c; optional: x, y. Missing: b, c. Unknown: d, e',
    )
    expect(refusalOf(() => missingFields({}, ['a'], 'part')).hint).toBe('Missing: a')
    expect(refusalOf(() => missingFields({ z: 1 }, [], 'part')).message).toBe(
      'part = an object: allowed is an object with no required field. Unknown: z',
    )
  })

  it('are own ones', () => {
    expect(refusalOf(() => missingFields(Object.create({ a: 1 }), ['a'], 'part')).hint).toBe('Missing: a')
    expect(refusalOf(() => missingFields({}, ['toString'], 'part')).hint).toBe('Missing: toString')
    expect(refusalOf(() => missingFields(JSON.parse('{"a":1,"__proto__":{}}'), ['a'], 'part')).hint).toBe(
      'Unknown: __proto__',
    )
  })

  it.each([[null], [undefined], [5], ['a'], [[]], [() => 1]])('are not found in %s', (value) => {
    expect(refusalOf(() => missingFields(value, ['a'], 'part'))).toMatchObject({ field: 'part', value })
  })
})

describe('a range to cover', () => {
  const spec = { field: 'rail', unit: 'V', min: 0 } as const

  it('has two ends', () => {
    expect(readRange({ from: '3.0 V', to: 4.2 }, spec)).toEqual({ from: 3, to: 4.2 })
    expect(readRange({ from: 3, to: 3 }, spec)).toEqual({ from: 3, to: 3 })
  })

  it.each<[unknown, string]>([
    [{ from: 4, to: 3 }, 'rail.from'],
    [{ from: -1, to: 3 }, 'rail.from'],
    [{ from: 1, to: '3 A' }, 'rail.to'],
    [{ from: 1 }, 'rail'],
    [{ from: 1, to: 2, step: 1 }, 'rail'],
    ['3..4', 'rail'],
    [5, 'rail'],
    [null, 'rail'],
  ])('%o is refused at %s', (given, field) => {
    expect(refusalOf(() => readRange(given, spec)).field).toBe(field)
  })

  it('says what the wrong order should be', () => {
    expect(refusalOf(() => readRange({ from: '4 V', to: 3 }, spec)).message).toBe(
      'rail.from = "4 V": allowed is at most the other end, to = 3',
    )
  })
})
