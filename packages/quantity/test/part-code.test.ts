import { capacitorCode, readCapacitorCode, readResistorCode, readSpread, resistorCode } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { refusalOf } from './refuse.js'

// IEC 60062, RKM code: forms from public summaries of the standard; L for milliohm and leading letters from memory.
describe('the code on a resistor', () => {
  it.each([
    [0.00005, 'L05'],
    [0.00047, 'L47'],
    [0.0047, '4L7'],
    [0.022, '22L'],
    [0.1, 'R10'],
    [0.47, 'R47'],
    [0.332, 'R332'],
    [1, '1R0'],
    [4.7, '4R7'],
    [3.32, '3R32'],
    [47, '47R'],
    [33.2, '33R2'],
    [470, '470R'],
    [1000, '1K0'],
    [4700, '4K7'],
    [47000, '47K'],
    [47300, '47K3'],
    [470000, '470K'],
    [4.7e6, '4M7'],
    [1e10, '10G'],
    [1.234e11, '123G4'],
    [1234, '1K234'],
  ])('%d ohm is %s, and back', (ohms, code) => {
    expect(resistorCode(ohms)).toBe(code)
    expect(readResistorCode(code)).toEqual({ value: ohms })
  })

  // F 1 %, K 10 % from public summaries, the others from memory.
  it.each([
    ['E', 0.00005],
    ['L', 0.0001],
    ['P', 0.0002],
    ['W', 0.0005],
    ['B', 0.001],
    ['C', 0.0025],
    ['D', 0.005],
    ['F', 0.01],
    ['G', 0.02],
    ['H', 0.03],
    ['J', 0.05],
    ['K', 0.1],
    ['M', 0.2],
    ['N', 0.3],
  ])('ends in %s for a tolerance of %d', (letter, tolerance) => {
    expect(resistorCode(4700, tolerance)).toBe(`4K7${letter}`)
    expect(readResistorCode(`4K7${letter}`)).toEqual({ value: 4700, tolerance })
  })

  it('takes the first letter as the multiplier', () => {
    expect(readResistorCode('10M')).toEqual({ value: 1e7 })
    expect(readResistorCode('10MM')).toEqual({ value: 1e7, tolerance: 0.2 })
    expect(readResistorCode(' 47KK ')).toEqual({ value: 47000, tolerance: 0.1 })
    expect(readResistorCode('R22')).toEqual({ value: 0.22 })
    expect(readResistorCode('0R22')).toEqual({ value: 0.22 })
    expect(readResistorCode('R022')).toEqual({ value: 0.022 })
    expect(readResistorCode('M47')).toEqual({ value: 470000 })
  })

  it('reads nothing else', () => {
    for (const code of [
      '',
      'R',
      'RJ',
      '4k7',
      '47',
      '4K7JJ',
      '4K7 J',
      '12345R',
      'R12345',
      '-4K7',
      '4.7K',
      '4n7',
      'x4K7',
    ])
      expect(refusalOf(() => readResistorCode(code)).message).toContain('allowed is a code such as 4K7, R47 or 4K7J')
    for (const code of [null, undefined, 47, {}, ['4K7']])
      expect(refusalOf(() => readResistorCode(code as string)).value).toBe(code)
  })

  it('holds four significant digits and no more', () => {
    for (const value of [12345, 1 / 3, 0, -47, Number.NaN, Infinity])
      expect(refusalOf(() => resistorCode(value)).allowed).toBe('above 0, with at most four significant digits')
    expect(resistorCode(0.1 + 0.2)).toBe('R30')
    for (const value of [1e-7, 1e12])
      expect(refusalOf(() => resistorCode(value)).allowed).toBe('what a code of LRKMG can hold')
    expect(refusalOf(() => resistorCode(47, 0.07)).message).toBe(
      'tolerance = 0.07: allowed is 0.00005, 0.0001, 0.0002, 0.0005, 0.001, 0.0025, 0.005, 0.01, 0.02, 0.03, 0.05, 0.1, 0.2, 0.3',
    )
  })
})

describe('the code on a capacitor', () => {
  it.each([
    [1e-13, 'p10'],
    [3.3e-13, 'p33'],
    [1e-12, '1p0'],
    [1e-11, '10p'],
    [1e-10, '100p'],
    [4.7e-9, '4n7'],
    [1e-6, '1u0'],
    [1e-3, '1m0'],
    [0.1, '100m'],
    [1, '1F0'],
  ])('%d F is %s, and back', (farads, code) => {
    expect(capacitorCode(farads)).toBe(code)
    expect(readCapacitorCode(code)).toEqual({ value: farads })
  })

  it('takes a tolerance letter and either sign for micro', () => {
    expect(capacitorCode(4.7e-9, 0.1)).toBe('4n7K')
    expect(readCapacitorCode('4n7K')).toEqual({ value: 4.7e-9, tolerance: 0.1 })
    expect(readCapacitorCode('10pF')).toEqual({ value: 1e-11, tolerance: 0.01 })
    expect(readCapacitorCode('4µ7')).toEqual({ value: 4.7e-6 })
    expect(readCapacitorCode('4μ7')).toEqual({ value: 4.7e-6 })
    expect(refusalOf(() => readCapacitorCode('4K7')).message).toContain('a code such as 4n7, 10p or 4n7K')
    expect(refusalOf(() => capacitorCode(1e-16)).allowed).toBe('what a code of pnumF can hold')
  })
})

describe('a tolerance letter', () => {
  // IEC 60062, from memory: limits of capacitors that are not symmetrical.
  it.each([
    ['Q', 0.1, 0.3],
    ['T', 0.1, 0.5],
    ['S', 0.2, 0.5],
    ['Z', 0.2, 0.8],
  ])('%s of a capacitor has limits of -%d and +%d', (letter, below, above) => {
    expect(readCapacitorCode(`100n${letter}`)).toEqual({ value: 1e-7, below, above })
    expect(capacitorCode(1e-7, { below, above })).toBe(`100n${letter}`)
    expect(refusalOf(() => readResistorCode(`4K7${letter}`)).hint).toContain('is not a tolerance letter')
  })

  // IEC 60062, from memory: 4.7 pF with C is 4.7 pF ± 0.25 pF, five per cent and not a quarter.
  it.each([
    ['B', 0.1],
    ['C', 0.25],
    ['D', 0.5],
    ['F', 1],
    ['G', 2],
  ])('%s below 10 pF is %d pF', (letter, picofarads) => {
    const { tolerance } = readCapacitorCode(`4p7${letter}`)
    expect(tolerance! * 4.7).toBeCloseTo(picofarads, 9)
    expect(capacitorCode(4.7e-12, picofarads / 4.7)).toBe(`4p7${letter}`)
    expect(readCapacitorCode(`10p${letter}`).tolerance).toBeLessThan(0.021)
  })

  it('that would be read as picofarads is not written for per cent', () => {
    expect(capacitorCode(4.7e-12, 0.05)).toBe('4p7J')
    expect(refusalOf(() => capacitorCode(4.7e-12, 0.01)).hint).toMatch(/Below 10 pF/)
    expect(refusalOf(() => readCapacitorCode('0p0C')).allowed).toBe('above 0')
  })

  it('that does not exist is refused with those that do', () => {
    const { message } = refusalOf(() => readResistorCode('4K7X'))
    expect(message).toContain('allowed is a code such as 4K7, R47 or 4K7J')
    for (const one of ['"X" is not a tolerance letter', 'E ±0.005 %', 'W ±0.05 %', 'J ±5 %', 'N ±30 %'])
      expect(message).toContain(one)
    expect(refusalOf(() => readCapacitorCode('4n7X')).message).toContain('Z +80/-20 %')
    expect(refusalOf(() => resistorCode(47, { below: 0.2, above: 0.8 } as never)).field).toBe('tolerance')
    expect(refusalOf(() => capacitorCode(1e-7, null as never)).field).toBe('tolerance')
  })

  it('in a field is written out', () => {
    const hintOf = (text: string, unit: 'ohm' | 'F') => refusalOf(() => readSpread(text, { field: 'part', unit })).hint
    expect(hintOf('4k7J', 'ohm')).toBe('Write the tolerance of the letter J out: ±5 %')
    expect(hintOf('4n7Z', 'F')).toBe('Write the tolerance of the letter Z out: +80/-20 %')
  })
})

describe('a code that is written', () => {
  it('can be read again, whatever the value', () => {
    let written = 0
    for (let power = -7; power < 13; power++) {
      for (const digits of [1, 1.2, 1.23, 1.234, 3.928, 9.999]) {
        const value = Number(`${digits}e${power}`)
        let code: string
        try {
          code = resistorCode(value)
        } catch {
          continue
        }
        written++
        expect(readResistorCode(code).value).toBeCloseTo(value, 12 - power)
      }
    }
    expect(written).toBeGreaterThan(80)
    expect(refusalOf(() => resistorCode(3.928e-5)).field).toBe('value')
  })
})
