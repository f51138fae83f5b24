import type { Box } from './box.js'

/** What was seen of each input, by position. */
export class Seen {
  /** 1 where the result was seen to rise with the input, -1 to fall, 0 where no effect was seen yet. */
  readonly direction: Int8Array
  /** 1 where the result both rises and falls along the input, the others held. */
  readonly turns: Uint8Array
  /** 1 where the direction differs from place to place. */
  readonly depends: Uint8Array
  /** Largest change of the result that this input alone was seen to make. */
  readonly effect: number[]
  /** Places looked around so far. */
  places = 0

  constructor(size: number) {
    this.direction = new Int8Array(size)
    this.turns = new Uint8Array(size)
    this.depends = new Uint8Array(size)
    this.effect = new Array<number>(size).fill(0)
  }
}

/**
 * Moves each input alone, from a place, over fractions of its width, and notes in which direction the result goes.
 * Inputs that made no difference so far are first moved all at once; only where that makes one does each get its turn.
 *
 * @param fractions - ascending, from 0 to 1, for an input whose own fraction at the place is given
 * @param tolerance - differences up to this are rounding
 */
export function look(
  box: Box,
  place: readonly number[],
  fractions: (own: number) => readonly number[],
  tolerance: number,
  seen: Seen,
): void {
  const { direction, turns, depends, effect } = seen
  const middle = box.at(place)
  const rest = seen.places > 0 && effect.includes(0) && !stirs(box, place, effect, middle, fractions(0).length > 2)
  const asleep = rest ? effect.map((own) => own === 0) : undefined
  if (asleep !== undefined) for (let k = 0; k < place.length; k++) if (asleep[k] === true) box.put(k, place[k]!)
  seen.places++
  for (let k = 0; k < place.length; k++) {
    if (asleep?.[k] === true) continue
    const own = place[k]!
    const line = fractions(own)
    let rises = false
    let falls = false
    let before = Number.NaN
    let pending = true
    let lowest = middle
    let highest = middle
    for (let n = 0; n < line.length; ) {
      const fraction = line[n]!
      let value = middle
      if (pending && fraction >= own) {
        pending = false
        if (fraction === own) n++
      } else {
        value = box.move(k, fraction)
        n++
      }
      if (value < lowest) lowest = value
      else if (value > highest) highest = value
      if (value - before > tolerance) rises = true
      else if (before - value > tolerance) falls = true
      if (!Number.isNaN(value)) before = value
    }
    box.put(k, own)
    if (highest - lowest > effect[k]!) effect[k] = highest - lowest
    if (rises && falls) turns[k] = 1
    else if (rises || falls) {
      const way = rises ? 1 : -1
      if (direction[k] === -way) depends[k] = 1
      else direction[k] = way
    }
  }
}

/** A place inside, another one for each input: what is the same at both limits differs there. */
const within = (k: number): number => 0.1 + 0.8 * ((0.618034 * (k + 1)) % 1)

/**
 * Whether the result changes when the inputs without effect go together to their lower limits, to their upper ones, or
 * inside, where the look that follows moves them inside too.
 */
function stirs(box: Box, place: readonly number[], effect: number[], middle: number, inside: boolean): boolean {
  const gone = (to: (k: number) => number) => place.map((own, k) => (effect[k] === 0 ? to(k) : own))
  const makesNone =
    box.at(gone(() => 0)) === middle &&
    box.at(gone(() => 1)) === middle &&
    (!inside || box.glance(gone(within)) === middle)
  if (!makesNone) box.at(place)
  return !makesNone
}
