import { coin } from './evaluate-signs.js'
import type { Box } from './extremes-box.js'
import { look, type Seen } from './extremes-look.js'

/** Random places inside, and pairs of opposite random corners: fixed, so the cost is linear in the inputs. */
const inside = 8
const corners = 4

/** The corner of the largest (`sign` 1) or smallest (-1) result by the directions seen; where none was seen, by `sign`. */
export const corner = ({ direction }: Seen, sign: 1 | -1): number[] =>
  direction.map((d) => ((d || 1) * sign > 0 ? 1 : 0))

const ends = () => [0, 1]
const quarters = () => [0, 0.25, 0.75, 1]
/** From a corner: what is next to it, the middle, the opposite limit. */
const inward = (own: number) => (own > 0.5 ? [0, 0.5, 0.999, 1] : [0, 0.001, 0.5, 1])

/** Notes in which direction each input acts: at the nominal values, at the two corners that these suggest, at random ones. */
export function lookAround(box: Box): Seen {
  const seen: Seen = { direction: [], turns: [], depends: [], effect: [], places: 0 }
  for (let k = 0; k < box.size; k++) {
    seen.direction.push(0)
    seen.turns.push(false)
    seen.depends.push(false)
    seen.effect.push(0)
  }
  if (box.size === 0) return seen
  const toss = coin()
  const end = () => (toss() ? 1 : 0)
  const somewhere = () => {
    let fraction = 0.5
    for (let bit = 0; bit < 8; bit++) fraction = (fraction + end()) / 2
    return fraction
  }
  for (let n = 0; n < inside; n++) box.at(box.nominal.map(somewhere))
  const around = (place: readonly number[], fractions: (own: number) => readonly number[]) => {
    const { lower, upper } = box.best
    const size = Math.max(Math.abs(lower.value), Math.abs(upper.value))
    look(box, place, fractions, 1e-9 * (upper.value - lower.value) + 1e-14 * size, seen)
  }
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
