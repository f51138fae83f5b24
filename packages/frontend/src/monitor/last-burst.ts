import { capacityAt } from '@ohmward/supply'
import { burstCharge } from '@ohmward/supply/formulas'
import type { ReadDesign } from '../design/record.js'
import { type Corner, loadedAt, openAt, reboundAt } from './corners.js'
import { highest } from './curves.js'
import { isReadWithin } from './lag.js'
import type { Landing } from './landing.js'

/** The lowest that a stop lets cells and rail come to, V. */
export interface Lowest {
  /** All cells in series at rest, 0 where they are empty before. */
  readonly rest: number
  /** The main rail with the load off and on. */
  readonly idle: number
  readonly rail: number
  /** All cells in series at their terminals under load. */
  readonly cells: number
}

/** How high the cells lie between the lowest and the highest of their curves. */
const shares = [0, 0.5, 1]

/**
 * The lowest that the last burst leaves: where cells are read before each, one may begin just above the stop, and takes its charge from
 * the least of capacities. A reading under load ends it at once. Pitfalls K05, K06.
 */
export function lowestAfter(design: ReadDesign, { acts, reads, on, rest, charge }: Landing): Lowest {
  const { cell, curves, corners, all } = on
  if (reads === 'under load') {
    const inside = [charge.lower, charge.upper, ...all.filter((q) => q > charge.lower && q < charge.upper)]
    const back = Math.min(...inside.map((q) => reboundAt(corners.strong, q, acts.lower)))
    // What acts on full cells may stand lower by itself.
    const { rested } = corners
    const full = curves.lower(1) - rested.drop - rested.idle * (rested.cellsAt(1) + rested.path)
    const warm = Math.min(acts.lower, loadedAt(rested, 1, full))
    // The next burst begins with the load cold.
    const rail = Math.min(warm, cooledAt({ corners, curves, all }, acts.lower))
    return { rest: rest.lower, idle: warm + back, rail, cells: cellsAt(corners.strong, rail) }
  }
  const capacity = capacityAt(cell, design.age.to).lower
  const time = isReadWithin(design) ? 0 : (design.bursts?.time ?? 0)
  // The least load takes most, of every source.
  const { load } = corners.rested
  const found: Lowest[] = []
  for (const corner of [corners.strong, corners.rested])
    for (const share of shares) {
      const voltage = (q: number) => curves.lower(q) + share * (curves.upper(q) - curves.lower(q))
      const from = highest(all, (q) => voltage(q) <= openAt(corner, q, acts.lower, reads))
      const to = from - (time === 0 ? 0 : taken({ ...corner, load }, from, acts.lower, time) / capacity)
      if (to < 0) return { rest: 0, idle: 0, rail: 0, cells: 0 }
      // What never reads so low in use goes on to fall off the end of its curve.
      const open = Math.min(voltage(to), openAt(corner, to, acts.lower, reads))
      const idle = open - corner.drop - corner.idle * (corner.cellsAt(to) + corner.path)
      const rail = loadedAt({ ...corner, load }, to, idle)
      found.push({ rest: open, idle, rail, cells: cellsAt({ ...corner, load }, rail) })
    }
  const least = (key: keyof Lowest) => Math.min(...found.map((one) => one[key]))
  return { rest: least('rest'), idle: least('idle'), rail: least('rail'), cells: least('cells') }
}

/**
 * Main rail as a cold load comes on a board that just doesn't stop while it is warm, V, at least. It falls furthest before the most resistance,
 * and of such boards one of the fullest cells comes down to the least charge, where that is most.
 */
function cooledAt({ corners, curves, all }: Pick<Landing['on'], 'corners' | 'curves' | 'all'>, rail: number): number {
  const { rested: cold } = corners
  const warm = { ...cold, load: cold.warm }
  const charge = highest(all, (q) => curves.upper(q) <= openAt(warm, q, rail, 'under load'))
  return loadedAt(cold, charge, rail + reboundAt(warm, charge, rail))
}

/** What a burst takes that begins where the rail has a voltage at rest, C: its current only falls. */
function taken(corner: Corner, charge: number, rest: number, t_burst: number): number {
  const I_L = loadedAt(corner, charge, rest) / corner.load
  return burstCharge({ I_L, d_on: corner.mean, t_burst }) + burstCharge({ I_L: corner.idle, d_on: 1, t_burst })
}

/** All cells in series at their terminals, V, where the main rail has a voltage under load. */
const cellsAt = ({ drop, path, load, idle }: Corner, rail: number): number => rail + drop + (rail / load + idle) * path
