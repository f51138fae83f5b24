import { type PartFields, plusMinus, readPart } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { refusalOf } from './refuse.js'

const fields = {
  offset: { symbol: 'V_os', meaning: 'offset voltage, maximum', unit: 'V', magnitude: true },
  gain: { symbol: 'A', meaning: 'open-loop gain, minimum', unit: '1', above: 0 },
  rise: { symbol: 't_r', meaning: 'rise time', unit: 's', min: 0, otherwise: '10 ns ±1 ns' },
} as const satisfies PartFields

describe('a part as its data sheet states it', () => {
  it('is read by words, what is not given taken from the table', () => {
    const part = readPart({ offset: '10 µV', gain: 1e6 }, fields, 'amplifier')
    expect(part.offset).toEqual({ nominal: 0, lower: -1e-5, upper: 1e-5, distribution: { kind: 'rectangular' } })
    expect(part.gain).toMatchObject({ nominal: 1e6, distribution: { kind: 'exact' } })
    expect(part.rise.nominal).toBe(1e-8)
    expect(part.rise.upper).toBeCloseTo(1.1e-8, 20)
    expect(readPart({ offset: 0, gain: 1, rise: 0 }, fields, 'a').offset).toMatchObject({ lower: 0, upper: 0 })
    expect(readPart({ offset: '-2 µV ±1 µV', gain: 1, rise: 0 }, fields, 'a')).toMatchObject({
      offset: { nominal: -2e-6 },
      rise: { nominal: 0 },
    })
    // A tolerance makes no sign known: as large as it may be, either way.
    expect(readPart({ offset: '2 µV ±50 %', gain: 1 }, fields, 'a').offset).toMatchObject({
      lower: expect.closeTo(-3e-6, 20),
      upper: expect.closeTo(3e-6, 20),
    })
    // Nor do limits of which one is nothing.
    for (const offset of ['0 µV to 3 µV', '1.5 µV ±100 %', plusMinus(1.5e-6, 1.5e-6)])
      expect(readPart({ offset, gain: 1 }, fields, 'a').offset).toMatchObject({
        lower: expect.closeTo(-3e-6, 20),
        upper: expect.closeTo(3e-6, 20),
      })
    expect(readPart({ offset: -3, gain: 1 }, fields, 'a').offset).toMatchObject({ lower: -3, upper: 3 })
  })

  it('names every missing and unknown field, or the first bad value', () => {
    expect(refusalOf(() => readPart({ ofset: 1 }, fields, 'amplifier')).hint).toBe(
      'Missing: offset, gain. Unknown: ofset (did you mean offset?)',
    )
    expect(refusalOf(() => readPart({ offset: 0, gain: 0 }, fields, 'amplifier')).field).toBe('amplifier.gain')
    expect(refusalOf(() => readPart({ offset: 0, gain: 0 }, fields, '')).field).toBe('gain')
    expect(refusalOf(() => readPart({ offset: 0, gain: 1, rise: null }, fields, 'a')).field).toBe('a.rise')
    expect(refusalOf(() => readPart({ offset: 0, gain: 1, rise: null }, fields, 'a')).value).toBe(null)
  })
})
