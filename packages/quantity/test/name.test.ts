import { describe, expect, it } from 'vitest'
import { name, readRecord, record, schemaOf } from '../src/index.js'
import { refusalOf } from './refuse.js'

const fuse = record({
  name: name({ meaning: 'what it is called' }),
  label: name({ meaning: 'a label', optional: true }, 5),
})

describe('a name', () => {
  it.each(['F1', 'nano fuse', 'Nancy', 'infinity pool', 'null hypothesis', '4.7', 'ä', 'x'.repeat(60)])(
    'is taken as it is: %s',
    (given) => {
      expect(readRecord(fuse, { name: given }, 'fuse')).toEqual({ name: given, label: undefined })
    },
  )

  it.each(['', '   ', 'NaN', 'nan', ' NaN ', 'Infinity', '-Infinity', 'undefined', 'null'])('is not %j', (given) => {
    const { field, value, allowed } = refusalOf(() => readRecord(fuse, { name: given }, 'fuse'))
    expect({ field, value }).toEqual({ field: 'name', value: given })
    expect(allowed).toMatch(/^a name of 1 to 60 characters/)
  })

  it.each([Number.NaN, 47, null, true, ['F1'], { name: 'F1' }])('is a text, which %j is not', (given) => {
    expect(refusalOf(() => readRecord(fuse, { name: given }, 'fuse')).field).toBe('name')
  })

  it('has an end, which the error says without repeating the whole of it', () => {
    const { message } = refusalOf(() => readRecord(fuse, { name: 'x'.repeat(1e5) }, 'fuse'))
    expect(message).toMatch(/1 to 60 characters/)
    expect(message.length).toBeLessThan(250)
    expect(refusalOf(() => readRecord(fuse, { name: 'F1', label: 'x'.repeat(6) }, 'fuse')).allowed).toMatch(/1 to 5 /)
  })

  it('has its length in the schema', () => {
    expect(schemaOf(fuse, { title: 'fuse' })).toMatchObject({
      properties: { name: { type: 'string', minLength: 1, maxLength: 60 }, label: { maxLength: 5 } },
    })
  })
})
