import { coin } from '../model/signs.js'
import { corner, roundingOf } from './around.js'
import type { Box } from './box.js'
import type { Seen } from './look.js'

/** Steps of all inputs together, about, and bounds of the rounds: few inputs are followed more closely. */
const steps = 200
const [fewest, most] = [4, 48]
/** Up to so many inputs, every corner is looked at. */
const fewInputs = 5

/** Fractions of a line on which it is told whether the result turns along it. */
const line = [0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1]

/** Notes what a single step of input `k` did; a direction that contradicts what was seen is looked into. */
function note(box: Box, seen: Seen, k: number, from: number, to: number, change: number, tolerance: number): void {
  if (!(Math.abs(change) > tolerance)) return
  if (Math.abs(change) > seen.effect[k]!) seen.effect[k] = Math.abs(change)
  const way = to > from === change > 0 ? 1 : -1
  if (seen.direction[k] === 0) seen.direction[k] = way
  if (seen.direction[k] === way || seen.turns[k] === 1) return
  if (turnsAlong(box, k, to, tolerance)) seen.turns[k] = 1
  else seen.depends[k] = 1
}

/** Whether the result both rises and falls along input `k` where the others stand. */
function turnsAlong(box: Box, k: number, own: number, tolerance: number): boolean {
  let rises = false
  let falls = false
  let before = Number.NaN
  for (const fraction of line) {
    const value = box.move(k, fraction)
    if (value - before > tolerance) rises = true
    else if (before - value > tolerance) falls = true
    if (!Number.isNaN(value)) before = value
  }
  box.put(k, own)
  return rises && falls
}

/**
 * Looks at every corner where these are few, and walks through the box, one input moved at a time to a limit or to a place inside, and notes in which direction each
 * step took the result: every step is a look from another place.
 */
export function wander(box: Box, seen: Seen): void {
  if (box.size === 0) return
  const toss = coin(0x6c078965)
  const somewhere = () => {
    if (toss()) return toss() ? 1 : 0
    let fraction = 0.5
    for (let bit = 0; bit < 8; bit++) fraction = (fraction + (toss() ? 1 : 0)) / 2
    return fraction
  }
  if (box.size <= fewInputs) {
    for (let n = 0; n < 2 ** box.size; n++) box.at(box.nominal.map((_, k) => (n >> k) & 1))
  }
  const rounds = Math.min(most, Math.max(fewest, Math.floor(steps / box.size)))
  for (let round = 0; round < rounds; round++) {
    const place = box.nominal.map(somewhere)
    let before = box.at(place)
    for (let k = 0; k < place.length; k++) {
      const from = place[k]!
      const to = somewhere()
      if (to === from) continue
      place[k] = to
      const value = box.move(k, to)
      note(box, seen, k, from, to, value - before, roundingOf(box))
      before = value
    }
  }
}

/**
 * Holds the best values met against the corners that the directions seen lead to. Where one lies elsewhere, some input
 * goes against its direction on the way between the two: it is found by walking there, and isn't settled.
 */
export function holdAgainstCorners(box: Box, seen: Seen): void {
  for (const sign of [1, -1] as const) {
    const { value, place } = sign === 1 ? box.best.upper : box.best.lower
    const here = place.slice()
    const goal = corner(seen, sign)
    if (goal.every((fraction, k) => fraction === here[k])) continue
    const tolerance = roundingOf(box)
    if (!(sign * (value - box.at(goal)) > tolerance)) continue
    let before = box.at(here)
    for (let k = 0; k < here.length; k++) {
      if (here[k] === goal[k]) continue
      const after = box.move(k, goal[k]!)
      const lost = sign * (before - after)
      if (!(lost <= tolerance / here.length)) {
        if (here[k]! > 0 && here[k]! < 1) seen.turns[k] = 1
        else seen.depends[k] = 1
        if (lost > seen.effect[k]!) seen.effect[k] = lost
      }
      before = after
    }
  }
}
