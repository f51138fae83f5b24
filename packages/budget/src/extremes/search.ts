import { coin } from '../model/signs.js'
import { corner } from './around.js'
import type { Box } from './box.js'
import { climb } from './climb.js'
import type { Seen } from './look.js'

/** Corners that a search starts from, at most: fixed, so the cost is linear in the inputs. */
const starts = 16

/** The largest value, the smallest. */
export type Side = 1 | -1

/**
 * Searches the extremes: coordinate ascent over the inputs whose direction isn't settled, from the best place met,
 * from their nominal values and from corners (all of them where they are few); then makes sure, finely and over all
 * inputs, that moving no single one improves what was found.
 */
export function search(box: Box, seen: Seen, sides: readonly Side[]): void {
  const toss = coin(0x2545f491)
  const open = seen.turns.map((turns, k) => turns | seen.depends[k]!)
  const combinations = 2 ** open.filter(Boolean).length
  const rough = { parts: (k: number) => (seen.turns[k] ? 8 : open[k] ? 2 : 0), sections: 6, narrowFrom: 8, rounds: 5 }
  const fine = { parts: (k: number) => (open[k] ? 32 : 2), sections: 44, narrowFrom: 8, rounds: 4 }
  for (const sign of sides) {
    const best = sign === 1 ? box.best.upper : box.best.lower
    const known = corner(seen, sign)
    const from = (fraction: (k: number, position: number) => number) => {
      let position = 0
      const start = known.map((end, k) => (open[k] ? fraction(k, position++) : end))
      climb(box, sign, start, rough)
    }
    climb(box, sign, best.place, rough)
    from((k) => box.nominal[k]!)
    for (let n = 0; n < Math.min(starts, combinations); n++) {
      from((_, position) => (combinations <= starts ? (n >> position) & 1 : Number(toss())))
    }
    climb(box, sign, best.place, fine)
  }
}

/** Returns every input that makes no difference at an extreme to its nominal value, so that only what matters is named. */
export function settle(box: Box, sign: Side): void {
  if (box.size === 0) return
  const best = sign === 1 ? box.best.upper : box.best.lower
  box.at(best.place)
  for (let k = 0; k < box.size; k++) {
    const own = best.place[k]!
    if (own === box.nominal[k]) continue
    if (box.move(k, box.nominal[k]!) === best.value) best.place[k] = box.nominal[k]!
    else box.put(k, own)
  }
}
