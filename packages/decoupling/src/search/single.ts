import type { Margin } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import { leastOfLargest } from '../chain/capacitor.js'
import type { ReadCapacitor, ReadDecoupling } from '../choice/choice.js'
import { type Plan, planOf } from './plan.js'

/** One part of a kind apart from its fellows: each has the spread of its own data sheet. */
export interface Single {
  readonly plan: Plan
  readonly part: ReadCapacitor
  /** Its place among the capacitors of the plan. */
  readonly place: number
}

/**
 * One part of kind k by itself, the worst of whose current is sought: it may conduct best while those beside it conduct worst. A
 * series resistance that is stated by its largest value alone is anything from the least share of that on, for each by itself.
 */
export function singlesOf(read: ReadDecoupling): (k: number) => Single {
  const all = read.capacitors.map(withLeast)
  // Where a kind is one part the rail is the same for each such kind, and its boards are followed once.
  let alone: Plan | undefined
  return (k) => {
    const { count } = all[k]!
    const part = { ...all[k]!, count: 1 }
    if (count === 1) {
      alone ??= planOf({ ...read, capacitors: all })
      return { plan: alone, part, place: k }
    }
    const capacitors = [...all.map((one, i) => (i === k ? { ...one, count: count - 1 } : one)), part]
    return { plan: planOf({ ...read, capacitors }), part, place: all.length }
  }
}

/** A margin over a single part, its inputs called after its kind: the `C_r3` beside two kinds is `C_r1_one`. */
export function namedAfter(margin: Margin, place: number, k: number): Margin {
  if (place === k) return margin
  const at = Object.entries(margin.at).map(([name, value]) => [nameOf(name, place, k), value] as const)
  return { ...margin, at: Object.fromEntries(at) }
}

const ownInputs = ['C_r', 'ESR_r', 'ESL_']

const nameOf = (name: string, place: number, k: number): string => {
  const own = ownInputs.find((symbol) => name === `${symbol}${place + 1}`)
  return own === undefined ? name : `${own}${k + 1}_one`
}

function withLeast(part: ReadCapacitor): ReadCapacitor {
  const { seriesResistance: given } = part.fields
  if (given.lower !== given.upper) return part
  const seriesResistance: Spread = {
    ...given,
    lower: leastOfLargest * given.upper,
    distribution: { kind: 'rectangular' },
  }
  return { ...part, fields: { ...part.fields, seriesResistance } }
}
