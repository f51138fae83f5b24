import type { Box } from './box.js'

/** (√5 - 1)/2. */
const golden = 0.6180339887498949

/** Narrows a maximum between `from` and `to` down by golden sections; the box remembers the best value met. */
function narrow(box: Box, k: number, sign: number, from: number, to: number, steps: number): [number, number] {
  let a = to - golden * (to - from)
  let b = from + golden * (to - from)
  let atA = sign * box.move(k, a)
  let atB = sign * box.move(k, b)
  for (let n = 0; n < steps; n++) {
    if (atA > atB) {
      to = b
      b = a
      atB = atA
      a = to - golden * (to - from)
      atA = sign * box.move(k, a)
    } else {
      from = a
      a = b
      atA = atB
      b = from + golden * (to - from)
      atB = sign * box.move(k, b)
    }
  }
  return atA > atB ? [a, atA] : [b, atB]
}

/** How finely each input's line is searched. */
export interface Fineness {
  /** Parts into which the line of an input is cut; 0 leaves the input where it is. */
  readonly parts: (k: number) => number
  /** Golden sections about the best point of a line, where that is inside it. */
  readonly sections: number
  /** Lines with so many parts are narrowed about a limit as well: a maximum may be close to it. */
  readonly narrowFrom: number
  /** Rounds over all inputs, at most. */
  readonly rounds: number
}

/**
 * Coordinate ascent of `sign` times the model: input after input, the best point of its line with the others held,
 * round after round until nothing improves. What it finds, the box remembers.
 */
export function climb(box: Box, sign: 1 | -1, start: readonly number[], fineness: Fineness): void {
  const place = start.slice()
  let value = sign * box.at(place)
  if (Number.isNaN(value)) value = -Infinity
  for (let round = 0; round < fineness.rounds; round++) {
    const before = value
    for (let k = 0; k < place.length; k++) {
      const parts = fineness.parts(k)
      if (parts === 0) continue
      let fraction = place[k]!
      let most = value
      const take = (at: number, there: number) => {
        if (there > most) {
          most = there
          fraction = at
        }
      }
      for (let n = 0; n <= parts; n++) if (n / parts !== place[k]) take(n / parts, sign * box.move(k, n / parts))
      if (parts >= fineness.narrowFrom || (fraction > 0 && fraction < 1 && parts > 1)) {
        const [from, to] = [Math.max(fraction - 1 / parts, 0), Math.min(fraction + 1 / parts, 1)]
        take(...narrow(box, k, sign, from, to, fineness.sections))
      }
      place[k] = fraction
      value = most
      box.put(k, fraction)
    }
    if (!(value > before)) break
  }
}
