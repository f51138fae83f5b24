import { coin } from '../model/signs.js'
import type { Box } from './box.js'
import { look, Seen } from './look.js'

/** Random places inside, and pairs of opposite random corners: fixed, so the cost is linear in the inputs. */
const inside = 8
const corners = 4

const both = [0, 1] as const
const quartered = [0, 0.25, 0.75, 1] as const
const fromTop = [0, 0.5, 0.999, 1] as const
const fromBottom = [0, 0.001, 0.5, 1] as const

export const ends = () => both
const quarters = () => quartered
/** From a corner: what is next to it, the middle, the opposite limit. */
const inward = (own: number) => (own > 0.5 ? fromTop : fromBottom)

/** The corner of the largest (`sign` 1) or smallest (-1) result by the directions seen; where none was seen, by `sign`. */
export function corner({ direction }: Seen, sign: 1 | -1): number[] {
  const place: number[] = []
  for (const way of direction) place.push((way || 1) * sign > 0 ? 1 : 0)
  return place
}

/** Differences up to this are rounding. */
export function roundingOf({ best: { lower, upper } }: Box): number {
  return 1e-9 * (upper.value - lower.value) + 1e-14 * Math.max(Math.abs(lower.value), Math.abs(upper.value))
}

/** Notes in which direction each input acts: at the nominal values, at the two corners that these suggest, at random ones. */
export function lookAround(box: Box): Seen {
  const seen = new Seen(box.size)
  if (box.size === 0) return seen
  const toss = coin()
  const end = () => (toss() ? 1 : 0)
  const somewhere = () => {
    let fraction = 0.5
    for (let bit = 0; bit < 8; bit++) fraction = (fraction + end()) / 2
    return fraction
  }
  for (let n = 0; n < inside; n++) box.at(box.nominal.map(somewhere))
  const around = (place: readonly number[], fractions: (own: number) => readonly number[]) =>
    look(box, place, fractions, roundingOf(box), seen)
  around(box.nominal, quarters)
  const [top, bottom] = [corner(seen, 1), corner(seen, -1)]
  around(top, inward)
  around(bottom, inward)
  for (let n = 0; n < corners; n++) {
    const place = box.nominal.map(end)
    around(place, ends)
    around(
      place.map((fraction) => 1 - fraction),
      ends,
    )
  }
  // A direction first seen away from the nominal values can move the two corners.
  for (const [before, sign] of [
    [top, 1],
    [bottom, -1],
  ] as const) {
    const now = corner(seen, sign)
    if (now.some((fraction, k) => fraction !== before[k])) around(now, inward)
  }
  return seen
}
