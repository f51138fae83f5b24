import { between, plusMinus, readSpread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { printable, typed } from '../src/block/changes/value.js'

const of = (given: unknown, value: number) => {
  const read = given === undefined ? plusMinus(10, 1) : given
  return typed(given, read, value, 'ohm', 4)
}

describe('a value in the place of another', () => {
  it.each([
    ['22 kohm ±1 %', 18e3, '18 kohm ±1 %'],
    ['22 kohm +/- 1 %', 18e3, '18 kohm +/- 1 %'],
    ['20 mohm ±4 mohm', 15e-3, '15 mohm ±4 mohm'],
    ['20 mohm ±4 mohm normal k=2', 15e-3, '15 mohm ±4 mohm normal k=2'],
    ['100 ohm +50/-20 %', 68, '68 ohm +50/-20 %'],
    ['3 mohm max', 2e-3, '<= 2 mohm'],
    ['<= 3 mohm', 2e-3, '<= 2 mohm'],
    ['>= 3 kohm', 4e3, '>= 4 kohm'],
    ['47 ohm', 33, '33 ohm'],
    [47, 33, '33 ohm'],
    [plusMinus(47, 4.7), 33, '33 ohm ±10 %'],
    [between(90, 120, 100), 47, '47 ohm +20/-10 %'],
    [plusMinus(100, 2, { kind: 'normal', coverage: 2 }), 47, '47 ohm ±2 % normal k=2'],
    // Twice and more its value up is no share that a reader takes.
    [between(38e-3, 205e-3, 66e-3), 33e-3, '33 mohm +69.5 mohm/-14 mohm'],
    // What was taken for it had a width, and keeps it.
    [undefined, 20, '20 ohm ±10 %'],
  ])('%s becomes %d with the tolerance that stood there', (given, value, text) => {
    expect(of(given, value)).toBe(text)
    // What is typed can be read, and a width that stood there is one still.
    const limits = { field: 'x', unit: 'ohm', min: 0, max: 1e6 } as const
    const read = readSpread(text, limits)
    const isWide = typeof given !== 'number' && given !== '47 ohm'
    expect(read.upper > read.lower).toBe(isWide)
  })
})

describe('numbers that may be printed', () => {
  it('have so many digits, go one way, and end at the end', () => {
    const up = printable(0.95, 1.3, 2)
    expect(up).toEqual([0.96, 0.97, 0.98, 0.99, 1, 1.1, 1.2, 1.3])
    expect(printable(1.15, 0.98, 2)).toEqual([1.1, 1, 0.99, 0.98])
    expect(printable(2, 2, 2)).toEqual([])
    for (const x of printable(3.2, 1e3, 2)) expect(Number(x.toPrecision(2))).toBe(x)
  })
})
