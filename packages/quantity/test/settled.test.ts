import { describe, expect, it } from 'vitest'
import { part, readRecord, record, settled, spread } from '../src/index.js'

const ohms = spread({ symbol: 'R', unit: 'ohm', above: 0, max: 1e6, meaning: 'its resistance' })
const board = record({ shunt: part({ ohms }, { meaning: 'the shunt' }) })
/** Hands what is given to the reader as it is, whatever its type. */
const read = (given: unknown) => readRecord(board, given, 'board').shunt.ohms.nominal

describe('what is settled', () => {
  it('is the same, and nothing in it changes any more', () => {
    const given = { shunt: { ohms: '10 mohm ±1 %' }, list: [1, { a: null }, undefined] }
    const copy = settled(given)
    expect(copy).toEqual(given)
    for (const one of [copy, copy.shunt, copy.list, copy.list[1]]) expect(Object.isFrozen(one)).toBe(true)
    for (const one of [given, given.shunt, given.list]) expect(Object.isFrozen(one)).toBe(false)
    expect(settled(copy)).toBe(copy)
  })

  it('reads as what it was copied from, now and again, whatever becomes of that', () => {
    const shunt = { ohms: 0.01 }
    const copy = settled({ shunt })
    expect([read({ shunt }), read(copy), read({ ...copy })]).toEqual([0.01, 0.01, 0.01])
    shunt.ohms = 0.02
    // What may change is read anew each time.
    expect([read({ shunt }), read(copy), read({ ...copy })]).toEqual([0.02, 0.01, 0.01])
  })

  it('is refused as what it was copied from, each time', () => {
    for (const shunt of [{ ohms: -1 }, {}, { ohms: 1, watts: 2 }, JSON.parse('{ "ohms": 1, "__proto__": {} }')]) {
      const copy = settled({ shunt })
      for (const given of [{ shunt }, copy, copy]) expect(() => read(given)).toThrow(/shunt/)
    }
  })

  it('leaves what can still change as it is, and what holds it', () => {
    const round: Record<string, unknown> = {}
    round['itself'] = [round, round]
    const made = new Date(0)
    const computed = {
      get ohms() {
        return 1
      },
    }
    for (const given of [round, { made }, { call: () => 1 }, [[made]]]) {
      expect(settled(given)).toBe(given)
      expect(Object.isFrozen(given)).toBe(false)
    }
    // A computed field is worked out once.
    expect(settled(computed)).toEqual({ ohms: 1 })
    expect(['text', 7, null, undefined].map(settled)).toEqual(['text', 7, null, undefined])
  })

  it('copies what stands at several places once', () => {
    let given: unknown = { a: 1 }
    // Two to the power of sixty paths lead to the innermost.
    for (let k = 0; k < 60; k++) given = { one: given, other: given }
    const copy = settled(given) as { one: unknown; other: unknown }
    expect(copy.one).toBe(copy.other)
  })
})
