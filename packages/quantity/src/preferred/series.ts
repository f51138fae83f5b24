import { InputError } from '../read/error.js'

/** A series of preferred values, by the number of values in a decade (IEC 60063). */
export type Series = 'E3' | 'E6' | 'E12' | 'E24' | 'E48' | 'E96' | 'E192'

/** IEC 60063, E24. Eight of them (27 to 47, 82) are older than the rule of the roots and keep their value. */
const e24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91]

const tens = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18]
const sizes: readonly string[] = ['E3', 'E6', 'E12', 'E24', 'E48', 'E96', 'E192']

/** How many values the series has in a decade. @throws InputError where there is no such series */
export function sizeOf(series: Series): number {
  if (!sizes.includes(series)) throw new InputError({ field: 'series', value: series, allowed: sizes.join(', ') })
  return Number(series.slice(1))
}

/** Digits of each value of a decade: two of them up to E24, three beyond. Made when first asked for. */
const figures: Record<number, readonly number[]> = {}

function figuresOf(size: number): readonly number[] {
  figures[size] ??= Array.from({ length: size }, (_, place) => {
    if (size <= 24) return e24[(place * 24) / size]!
    return size === 192 && place === 185 ? 920 : Math.round(10 ** (2 + place / size))
  })
  return figures[size]
}

/**
 * The value at an index that counts through all decades, 0 at 1. One multiplication or division by an exact power of
 * ten, so that it is the double nearest to the decimal.
 */
export function valueAt(size: number, index: number): number {
  const decade = Math.floor(index / size)
  const power = decade - (size <= 24 ? 1 : 2)
  const digits = figuresOf(size)[index - decade * size]!
  return power < 0 ? digits / tens[-power]! : digits * tens[power]!
}

/** Index of the largest preferred value that isn't above `value`. */
export function indexAtMost(size: number, value: number): number {
  let index = Math.floor(size * Math.log10(value))
  while (valueAt(size, index) > value) index--
  while (valueAt(size, index + 1) <= value) index++
  return index
}
