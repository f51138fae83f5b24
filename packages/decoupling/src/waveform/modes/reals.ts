/**
 * A list of n numbers to be filled in. A list that once held whole numbers alone is another kind of list to the engine that runs this:
 * code that meets both kinds is made anew each time, which cost more than following the waveforms did.
 */
export function reals(n: number): number[] {
  const list = new Array<number>(n)
  if (n > 0) list[0] = 0.5
  return list
}

/** The same, with its numbers. */
export function realsOf(n: number, value: (k: number) => number): number[] {
  const list = reals(n)
  for (let k = 0; k < n; k++) list[k] = value(k)
  return list
}

/** The identity matrix. */
export const identity = (n: number): number[][] => Array.from({ length: n }, (_, i) => realsOf(n, (j) => +(i === j)))
