import type { CompiledInputs, Evaluator } from '../model/evaluate.js'
import { coin } from '../model/signs.js'

/** Pairs of opposite random corners at which the parts are tried together. */
const pairs = 8

/** What screening tells of the conditions. */
export interface Screening {
  /** The worst first. */
  readonly candidates: readonly Candidate[]
  /** Parts that made no difference anywhere, alone or together: they stand at their nominal values until they do. */
  readonly silent: Readonly<Record<string, number>>
}

/** One set of conditions. */
export interface Candidate {
  readonly at: Readonly<Record<string, number>>
  readonly corner: boolean
  /** Reach of the output as far as one input at a time tells; infinite where parts that do nothing alone go beyond it together. */
  readonly reach: number
  /** The same without looking behind a clip: always finite. */
  readonly told: number
  /** What the parts add to the badness there. */
  readonly parts: number
  /** Which way each input has to go for a smaller output and for a larger one, as far as that is known: -1, 0 or 1 by position. */
  readonly corners: readonly [Int8Array, Int8Array]
}

const corners = new Map<number, readonly Int8Array[]>()

/** Corners of so many inputs, each with its opposite: all of up to four, else random ones and all high. The same at every call, so they are thrown once. */
export function cornersOf(size: number): readonly Int8Array[] {
  let signs = corners.get(size)
  if (signs === undefined) {
    const toss = coin()
    signs = Array.from({ length: pairs + 1 }, (_, n) =>
      Int8Array.from({ length: size }, (_way, k) => (n === pairs || (size < 5 ? (n >> k) & 1 : toss()) ? 1 : -1)),
    ).flatMap((sign) => [sign, sign.map((one) => -one)])
    corners.set(size, signs)
  }
  return signs
}

/** All combinations of the conditions' ends, and the middle of all where there is more than one. */
function placesOf({ spreads }: CompiledInputs<string>, fixed: readonly number[]): number[][] {
  let places: number[][] = [[]]
  for (const i of fixed) {
    const { lower, upper } = spreads[i]!
    const ends = lower === upper ? [lower] : [lower, upper]
    places = places.flatMap((place) => ends.map((value) => [...place, value]))
  }
  if (places.length > 1) places.push(fixed.map((i) => (spreads[i]!.lower + spreads[i]!.upper) / 2))
  return places
}

/**
 * Moves the parts one at a time and all at once at every combination of the conditions' ends and in the middle of all. A
 * part that made no difference at the first is moved together with the others of its kind at the next, and by itself
 * only where that makes one. The output may stand behind a clip anywhere: random corners are tried at each.
 */
export function screen(
  compiled: CompiledInputs<string>,
  at: Evaluator,
  conditions: readonly string[],
  badness: (lower: number, upper: number) => number,
): Screening {
  const { names, spreads, varying } = compiled
  const fixed = conditions.map((name) => names.indexOf(name))
  const parts = varying.filter((i) => !fixed.includes(i))
  /** By input: 1 while it made no difference anywhere. */
  const asleep = new Uint8Array(names.length)
  let sleeping = 0

  const thrown = () => cornersOf(names.length)

  /** The output with all parts as `ways` says; they are nominal again after it. */
  const together = (ways: (i: number) => number): number => {
    for (const i of parts) {
      const way = ways(i)
      if (way !== 0) at.set(i, way > 0 ? spreads[i]!.upper : spreads[i]!.lower)
    }
    const value = at.value()
    for (const i of parts) at.set(i, spreads[i]!.nominal)
    return value
  }

  const go = (place: readonly number[]) => {
    for (let n = 0; n < fixed.length; n++) at.set(fixed[n]!, place[n]!)
  }
  const places = placesOf(compiled, fixed)
  const candidates = places.map((place, first) => {
    go(place)
    const base = at.finite()
    let lower = base
    let upper = base
    const wake = () => {
      if (sleeping === 0) return
      const moves = [together((i) => -asleep[i]!), together((i) => asleep[i]!)]
      for (const sign of thrown().slice(0, 4)) moves.push(together((i) => asleep[i]! * sign[i]!))
      const down = Math.min(...moves, base)
      const up = Math.max(...moves, base)
      lower += down - base
      upper += up - base
      if (down !== base || up !== base) {
        asleep.fill(0)
        sleeping = 0
      }
    }
    if (first > 0) wake()
    const low = new Int8Array(names.length)
    const high = new Int8Array(names.length)
    for (const i of parts) {
      if (asleep[i] === 1) continue
      const spread = spreads[i]!
      at.set(i, spread.lower)
      const a = at.finite() - base
      at.set(i, spread.upper)
      const b = at.finite() - base
      at.set(i, spread.nominal)
      if (first === 0 && a === 0 && b === 0) {
        asleep[i] = 1
        sleeping++
      }
      const least = Math.min(a, b)
      const most = Math.max(a, b)
      if (least < 0) {
        lower += least
        low[i] = a < b ? -1 : 1
      }
      if (most > 0) {
        upper += most
        high[i] = a > b ? -1 : 1
      }
    }
    // All of them at once: behind a clip that is more than their sum.
    const lowest = together((i) => low[i]!)
    const highest = together((i) => high[i]!)
    if (lowest < lower) lower = lowest
    if (highest > upper) upper = highest
    if (first === 0) wake()
    const reach = badness(lower, upper)
    return {
      at: Object.fromEntries(place.map((value, n) => [conditions[n], value])),
      corner: place.every((value, n) => value === spreads[fixed[n]!]!.lower || value === spreads[fixed[n]!]!.upper),
      reach,
      told: reach,
      parts: reach - badness(base, base),
      corners: [low, high] as const,
      lower,
      upper,
    }
  })
  /** Whether parts go beyond what was seen together: so it is behind a clip, or bends. */
  const isBehindClip = (n: number): boolean => {
    const { lower, upper } = candidates[n]!
    go(places[n]!)
    return thrown().some((way) => {
      const value = together((i) => way[i]!)
      return !(value >= lower - spare(lower, upper) && value <= upper + spare(lower, upper))
    })
  }
  const silent = varying.filter((i) => asleep[i] === 1)
  return {
    candidates: candidates
      .map((one, n): Candidate => (isBehindClip(n) ? { ...one, reach: Infinity } : one))
      .sort((a, b) => (a.reach === b.reach ? 0 : b.reach - a.reach)),
    silent: Object.fromEntries(silent.map((i) => [names[i], spreads[i]!.nominal])),
  }
}

/** What rounding may add to a reach. */
const spare = (lower: number, upper: number) =>
  1e-9 * (upper - lower) + 1e-12 * Math.max(Math.abs(lower), Math.abs(upper))
