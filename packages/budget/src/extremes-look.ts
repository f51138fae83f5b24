import type { Box } from './extremes-box.js'

/** What was seen of each input, by position. */
export interface Seen {
  /** 1 where the result was seen to rise with the input, -1 to fall, 0 where no effect was seen yet. */
  readonly direction: number[]
  /** The result both rises and falls along the input, the others held. */
  readonly turns: boolean[]
  /** The direction differs from place to place. */
  readonly depends: boolean[]
  /** Largest change of the result that this input alone was seen to make. */
  readonly effect: number[]
  /** Places looked around so far. */
  places: number
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
  const middle = box.at(place)
  const asleep = seen.places > 0 ? seen.effect.map((effect) => effect === 0) : []
  if (asleep.includes(true) && !stirs(box, place, asleep, middle)) {
    for (let k = 0; k < place.length; k++) if (asleep[k]) box.put(k, place[k]!)
  } else asleep.fill(false)
  seen.places++
  for (let k = 0; k < place.length; k++) {
    if (asleep[k]) continue
    const own = place[k]!
    let rises = false
    let falls = false
    let before = Number.NaN
    let pending = true
    let lowest = middle
    let highest = middle
    const step = (value: number) => {
      if (value < lowest) lowest = value
      else if (value > highest) highest = value
      if (value - before > tolerance) rises = true
      else if (before - value > tolerance) falls = true
      if (!Number.isNaN(value)) before = value
    }
    for (const fraction of fractions(own)) {
      if (pending && fraction >= own) {
        pending = false
        step(middle)
      }
      if (fraction !== own) step(box.move(k, fraction))
    }
    box.put(k, own)
    if (highest - lowest > seen.effect[k]!) seen.effect[k] = highest - lowest
    if (rises && falls) seen.turns[k] = true
    else if (rises || falls) {
      const direction = rises ? 1 : -1
      if (seen.direction[k] === -direction) seen.depends[k] = true
      else seen.direction[k] = direction
    }
  }
}

/** Whether the result changes when the marked inputs go to their lower limits together, or to their upper ones. */
function stirs(box: Box, place: readonly number[], marked: readonly boolean[], middle: number): boolean {
  for (const end of [0, 1]) {
    if (box.at(place.map((own, k) => (marked[k] ? end : own))) !== middle) {
      box.at(place)
      return true
    }
  }
  return false
}
