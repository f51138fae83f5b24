import { InputError } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { refusalOf } from '../../quantity/test/refuse.js'
import { checkHall, type HallChoice, hallRecord } from '../src/index.js'
import { cell, knife } from './design.js'

/** Paths of everything in an answer that is no finite number. */
const strange = (x: unknown, path = ''): string[] =>
  typeof x === 'number'
    ? Number.isFinite(x)
      ? []
      : [path]
    : typeof x === 'object' && x !== null
      ? Object.entries(x).flatMap(([word, value]) => strange(value, `${path}.${word}`))
      : []

const answer = (more: object) => checkHall({ ...knife, ...more } as HallChoice, cell, { simulation: false })
const trip = { current: '8 A', normal: '6.5 A', withstand: '10 A' }

describe('what is not finite', () => {
  it.each(['on-window', 'averaged'])('leaves no check: %s', (reading) => {
    expect(strange(answer({ reading, trip, calibration: 'zero' }))).toEqual([])
  })

  const fields = hallRecord.fields
  const parts = {
    sensor: fields.sensor.fields,
    filter: fields.filter.fields,
    timing: fields.timing.fields,
    surroundings: fields.surroundings.fields,
  } as const
  const ends = Object.entries(parts).flatMap(([part, own]) =>
    Object.entries(own as Readonly<Record<string, { min?: number; max?: number; above?: number }>>).flatMap(
      ([word, { min, max, above }]) =>
        [min, max, above === undefined ? undefined : above + 1e-300]
          .filter((end) => end !== undefined)
          .map((end) => [part, word, end] as const),
    ),
  )
  it.each(ends)('does not come of the end of a field, or the field is named: %s.%s = %d', (part, word, end) => {
    for (const reading of ['on-window', 'averaged']) {
      try {
        const given = { ...(knife as Record<string, object>)[part], [word]: end }
        expect(strange(answer({ reading, trip, calibration: 'zero', [part]: given }))).toEqual([])
      } catch (error) {
        expect(error).toBeInstanceOf(InputError)
        expect((error as InputError).field).toMatch(/^(sensor|filter|timing|surroundings|wait|pwm|errors|trip)\b/)
      }
    }
  })

  it('comes of no two or three of them together either', () => {
    const tables = { ...parts, converter: fields.converter.fields, divider: fields.divider.fields }
    const places = Object.entries(tables).flatMap(([part, own]) =>
      Object.entries(own as Readonly<Record<string, { kind?: string; min?: number; max?: number }>>)
        .filter(([, { kind }]) => kind === undefined)
        .flatMap(([word, { min, max }]) =>
          [min, max].flatMap((end) => (end === undefined ? [] : [{ part, word, end }])),
        ),
    )
    const calibration = fc.constantFrom('none', 'zero', 'zero each time')
    const drawn = fc.subarray(places, { minLength: 2, maxLength: 3 })
    fc.assert(
      fc.property(drawn, calibration, fc.constantFrom('on-window', 'averaged'), (some, zero, reading) => {
        const base: Record<string, unknown> = { ...knife, divider: undefined, calibration: zero, reading, trip }
        for (const { part, word, end } of some) {
          const own = part === 'divider' ? { top: '1 kohm', bottom: '2 kohm' } : {}
          base[part] = { ...own, ...(base[part] as object | undefined), [word]: end }
        }
        if (base['divider'] === undefined) delete base['divider']
        try {
          expect(strange(answer(base))).toEqual([])
        } catch (error) {
          expect(error).toBeInstanceOf(InputError)
          expect((error as InputError).field).toMatch(
            /^(sensor|filter|timing|surroundings|converter|divider|wait|pwm|errors|trip)\b/,
          )
        }
      }),
      { numRuns: 60, seed: 11 },
    )
  })

  it('is not what noise at its allowed end leads to', () => {
    expect(strange(answer({ converter: { ...knife.converter, noise: 1e6 }, timing: { samples: 16 } }))).toEqual([])
  })
})

it('a capacitor with nothing before it is no filter', () => {
  const sensor = { ...knife.sensor, outputResistance: 0 }
  const { field, message } = refusalOf(() => answer({ sensor, filter: { resistance: 0, capacitance: '1 nF' } }))
  expect(field).toBe('filter.resistance')
  expect(message).toContain('sensor.outputResistance')
})
