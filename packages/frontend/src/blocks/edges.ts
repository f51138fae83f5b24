import { holdRow } from '@ohmward/budget'
import type { DividerChoice } from '@ohmward/divider'
import type { HallChoice } from '@ohmward/hall'
import { mosfet } from '@ohmward/mosfet'
import { InputError, readSpread } from '@ohmward/quantity'
import type { ReadDesign } from '../design/record.js'
import { once } from '../kept/once.js'
import { type Edges, isPulsed } from '../pulse/conducting.js'
import { isZeroedEachTime, readAfter } from '../pulse/off-times.js'
import type { SolvedSpan } from '../supply/solve.js'
import { mosfetAt } from './mosfet-at.js'

/** The edges at what was solved, worked out where they are first asked for. */
const known = new WeakMap<SolvedSpan, () => Edges | undefined>()

/** Delay and edge as the switch's own block has them; undefined where it refuses its supply: then it has a row that says so. */
export function edgesOf(design: ReadDesign, solved: SolvedSpan): Edges | undefined {
  const found = known.get(solved) ?? once(() => edgesAt(design, solved))
  known.set(solved, found)
  return found()
}

/** Whether the gate may not get there at what was solved. The whole walk is asked first: where it always gets there, no place has to be. */
export const isStuckAt = (design: ReadDesign, solved: SolvedSpan, longest: () => Edges | undefined): boolean =>
  isPulsed(design) && longest()?.isStuck === true && edgesOf(design, solved)?.isStuck === true

/** The longest of the whole walk where they are short beside a time, which spares each place its own; else those of the place. */
function edgesBeside(time: number, design: ReadDesign, solved: SolvedSpan, longest: () => Edges | undefined): Edges {
  const found = longest()
  const isShort = found !== undefined && Math.max(found.on, found.off) <= 0.1 * time
  return (isShort ? found : edgesOf(design, solved)) ?? { on: 0, off: 0 }
}

function edgesAt(design: ReadDesign, solved: SolvedSpan): Edges | undefined {
  const { choice, conditions } = mosfetAt(design, solved)
  const { frequency } = design.pwm
  try {
    // A load that is never off, or always on, has its edges too when it is measured.
    const read = mosfet.read({ ...choice, pwm: { frequency, duty: { from: 0.5, to: 0.5 } } }, conditions)
    const { rows } = mosfet.setup(read)
    const most = (id: string) => {
      const row = rows.find((one) => one.id === id)
      if (row?.kind !== 'limit') return 0
      // That the gate may not get there is told beside the time.
      const { doubt: _, ...time } = row
      return Math.max(0, holdRow(time).margin.worst)
    }
    const plateau = rows.find(({ id }) => id === 'gate-plateau')!
    return { on: most('on-edge'), off: most('off-edge'), isStuck: holdRow(plateau).margin.slack < 0 }
  } catch (error) {
    if (error instanceof InputError) return undefined
    throw error
  }
}

/** The longest that a reading may be told an edge to take, s. */
const longest = 1

const readEdge = (given: unknown, field: string): number =>
  given === undefined ? 0 : readSpread(given as number, { field, unit: 's', min: 0, max: longest }).upper

/** When the resistance is read: what the switch takes to be off, or what is said of it where that is more. */
export function untilOff(
  design: ReadDesign,
  solved: SolvedSpan,
  most: () => Edges | undefined,
): NonNullable<DividerChoice['timing']> & { readonly edge: number } {
  const { timing } = design.divider
  const told = readEdge(timing?.edge, 'divider.timing.edge')
  const edge = Math.max(told, edgesBeside(readAfter(design), design, solved, most).off)
  return { ...timing, edge: Math.min(longest, edge) }
}

/**
 * When the current is read: what the switch takes to be on and the current to rise, or what is said of it where that is more. A zero that
 * is read each time waits for the switch to be off as well.
 */
export function untilOn(
  design: ReadDesign,
  solved: SolvedSpan,
  most: () => Edges | undefined,
): NonNullable<HallChoice['timing']> {
  const { timing, wait } = design.hall
  const told = timing?.edge === undefined ? 1e-6 : readEdge(timing.edge, 'hall.timing.edge')
  // A load that stays on is read at any time.
  if (!isPulsed(design)) return { ...timing, edge: told }
  const { frequency, duty } = design.pwm
  // Without a wait of its own the sensor is read as soon as it has settled, of a pulse that is much longer.
  const spare =
    wait === undefined ? (0.1 * duty.from) / frequency : readSpread(wait, { field: 'hall.wait', unit: 's' }).lower
  const { on, off } = edgesBeside(spare, design, solved, most)
  const edges = [told, on + design.load.rise, ...(isZeroedEachTime(design) ? [off] : [])]
  return { ...timing, edge: Math.min(longest, Math.max(...edges)) }
}
