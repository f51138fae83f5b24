/** SI prefixes from 1e-15 to 1e12 in steps of a thousand; the blank is none. Written in ASCII: `u` is micro. */
const letters = 'fpnum kMGT'

/** Power of ten of a prefix letter, `undefined` where the letter is none: `m` is always milli and `M` always mega. */
export function powerOfPrefix(letter: string): number | undefined {
  const place = letter === ' ' || letter.length !== 1 ? -1 : letters.indexOf(letter)
  return place < 0 ? undefined : 3 * place - 15
}

/** The prefix for a number whose first digit stands at this power of ten, and its own power. */
export function prefixFor(exponent: number, largest: number): readonly [letter: string, power: number] {
  const power = Math.min(Math.max(3 * Math.floor(exponent / 3), -15), largest)
  return [letters[(power + 15) / 3]!.trim(), power]
}
