/**
 * Tolerance letters of IEC 60062 in per cent, symmetrical ones, from the narrowest. F and K from public summaries of the
 * standard, the others from memory.
 */
export const evenLetters: Readonly<Record<string, number>> = {
  E: 0.005,
  L: 0.01,
  P: 0.02,
  W: 0.05,
  B: 0.1,
  C: 0.25,
  D: 0.5,
  F: 1,
  G: 2,
  H: 3,
  J: 5,
  K: 10,
  M: 20,
  N: 30,
}

/** Letters of capacitors whose limits aren't symmetrical, in per cent below and above (IEC 60062, from memory). */
export const unevenLetters: Readonly<Record<string, readonly [below: number, above: number]>> = {
  Q: [10, 30],
  T: [10, 50],
  S: [20, 50],
  Z: [20, 80],
}

/** Below 10 pF these letters are picofarads, not per cent (IEC 60062, from memory). */
export const picofaradLetters: Readonly<Record<string, number>> = { B: 0.1, C: 0.25, D: 0.5, F: 1, G: 2 }

/** A letter written out: `±5 %`, `-20/+80 %`; nothing where it is none. */
export function letterText(letter: string): string | undefined {
  if (Object.hasOwn(evenLetters, letter)) return `±${evenLetters[letter]} %`
  if (!Object.hasOwn(unevenLetters, letter)) return undefined
  const [below, above] = unevenLetters[letter]!
  return `+${above}/-${below} %`
}
