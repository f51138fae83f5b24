import { missingFields, readNumber } from '@ohmward/quantity'
import type { RowOver } from '../answer/assessment.js'
import { extremesOf } from '../answer/descend.js'
import { usableSpan } from '../answer/power/power.js'
import { later, now, type RunOptions } from '../answer/run.js'
import { mainRail } from '../design/rails.js'
import { readDesign } from '../design/read.js'
import type { Design } from '../design/record.js'
import type { ReadyRow } from '../rows/ready-row.js'
import { type Place, type Span, spanOf } from '../supply/place.js'
import { drawOf } from '../supply/rails.js'
import type { HeldSpan } from '../walk/held-span.js'
import type { Stage } from '../walk/stage.js'
import { type Walk, walkOf } from '../walk/walk.js'
import { boardsAt } from './board.js'
import { uniformOf } from './draw.js'
import { type Boards, failing } from './row.js'

/** How boards are simulated. */
export interface BoardOptions {
  /** Boards, 100 to 1 000 000; 10 000 by default. */
  readonly boards?: number
  /** Seed of the random numbers; 1 by default. */
  readonly seed?: number
}

/** A row that fails on some boards. */
export interface FailingRow extends Pick<RowOver, 'id' | 'block' | 'state'> {
  /** What the row is called. */
  readonly name: string
  /** Share of boards on which it fails. */
  readonly fails: number
  /** Share on which it is the first to fail as the cell empties, alone or with others. */
  readonly first: number
}

/** Boards as they would be built, each with one set of parts. */
export interface BoardSimulation {
  readonly boards: number
  /** Share of boards on which every row of blocks, supply and rails holds from full to the charge that must be usable; those of power, monitor and drawer are no part of it. */
  readonly works: number
  /** 95 % interval of that share, from the number of boards alone. */
  readonly interval: readonly [number, number]
  /** Share of boards that work down to each charge, at every temperature and age looked at. */
  readonly byCharge: readonly { readonly charge: number; readonly works: number }[]
  /** Rows that fail on some boards: on how many, and on how many they give way first. */
  readonly rows: readonly FailingRow[]
  /** The places that were looked at. A row that holds there at its worst holds on every board and isn't simulated. */
  readonly places: readonly Place[]
}

/** Charges between full and the one that must be usable. */
const charges = 6

/** A part's shares come from its name and the seed, so that they are the same whatever else is asked for. */
function seedOf(name: string, seed: number): number {
  let hash = 2166136261 ^ Math.imul(seed, 0x9e3779b1)
  for (let i = 0; i < name.length; i++) hash = Math.imul(hash ^ name.charCodeAt(i), 16777619)
  return hash
}

function* simulating(given: Design, options: BoardOptions): Generator<number, BoardSimulation> {
  missingFields(options, [], 'options', ['boards', 'seed'])
  const integer = { unit: '1', integer: true } as const
  const count = readNumber(options.boards ?? 10_000, { field: 'options.boards', ...integer, min: 100, max: 1_000_000 })
  const seed = readNumber(options.seed ?? 1, { field: 'options.seed', ...integer, min: 0, max: 2 ** 31 })
  const design = readDesign(given)
  const walk = walkOf(design, { charges: 2 })
  const usable = usableSpan(walk)
  const { charge } = usable
  const doubt = doubtIn(walk, usable)
  const idle = drawOf(design, mainRail)
  const known = new Map<string, Float64Array>()
  const shares = (name: string): Float64Array => {
    const column = known.get(name) ?? Float64Array.from({ length: count }, uniformOf(seedOf(name, seed)))
    known.set(name, column)
    return column
  }
  const levels =
    charge.from === charge.to
      ? [charge.from]
      : Array.from({ length: charges }, (_, i) => charge.from + ((charge.to - charge.from) * i) / (charges - 1))
  const states = extremesOf(walk)
  const works = new Uint8Array(count).fill(1)
  const fails = new Map<string, Uint8Array>()
  const named = new Map<string, Pick<FailingRow, 'id' | 'block' | 'state' | 'name'>>()
  const first = new Map<string, number>()
  const byCharge: { charge: number; works: number }[] = []
  const places: Place[] = []
  for (const [level, charge] of levels.entries()) {
    const here = new Map<string, Uint8Array>()
    for (const state of states) {
      const place = { ...state, charge }
      places.push(place)
      const held = walk.over(spanOf(place))
      const doubtful = walk.stages.flatMap((stage) =>
        doubt(stage, held).flatMap(({ id, row }) => {
          const margin = held.margin(stage, id)!
          return margin.verdict === 'holds' ? [] : [{ id, stage, row, margin, solved: { place, ...held.solved } }]
        }),
      )
      if (doubtful.length === 0) continue
      const { solved } = doubtful[0]!
      const boards = boardsAt(design, solved, idle, shares, count, walk.firmware).map(
        (at): Boards => ({ count, shares, at }),
      )
      for (const one of doubtful) {
        const { id, stage, row } = one
        for (const state of boards) here.set(id, either(here.get(id), failing(design, one, state)))
        named.set(id, { id, block: stage.block, state: stage.state, name: row.name })
      }
    }
    for (const [id, marks] of here) fails.set(id, either(fails.get(id), marks))
    for (let i = 0; i < count; i++) {
      if (works[i] === 0) continue
      const fallen = [...here].filter(([, marks]) => marks[i] === 1).map(([id]) => id)
      if (fallen.length === 0) continue
      works[i] = 0
      for (const id of fallen) first.set(id, (first.get(id) ?? 0) + 1)
    }
    byCharge.push({ charge, works: sum(works) / count })
    yield (level + 1) / levels.length
  }
  const share = sum(works) / count
  const rows = [...fails]
    .map(([id, marks]) => ({ ...named.get(id)!, fails: sum(marks) / count, first: (first.get(id) ?? 0) / count }))
    .filter(({ fails }) => fails > 0)
    .sort((a, b) => b.first - a.first || b.fails - a.fails)
  return { boards: count, works: share, interval: wilson(share, count), byCharge, rows, places }
}

/**
 * Rows of a stage at a place that may fail there. What holds over the whole span at once holds at every place in it and is not
 * held again; of a block that refuses the whole every row is asked for.
 */
function doubtIn(walk: Walk, usable: Span): (stage: Stage, held: HeldSpan) => readonly ReadyRow[] {
  const over = walk.over(usable)
  const known = new Map<Stage, ReadonlySet<string>>()
  const holding = (stage: Stage): ReadonlySet<string> => {
    const found =
      known.get(stage) ??
      new Set(over.ready(stage).flatMap(({ id }) => (over.margin(stage, id)!.verdict === 'holds' ? [id] : [])))
    known.set(stage, found)
    return found
  }
  return (stage, held) => {
    const sure = holding(stage)
    if (sure.size === over.ready(stage).length) return []
    return held.ready(stage).filter(({ id }) => !sure.has(id))
  }
}

/** Boards that are marked in either. */
const either = (one: Uint8Array | undefined, other: Uint8Array): Uint8Array =>
  one === undefined ? other : other.map((mark, i) => mark | one[i]!)

const sum = (marks: Uint8Array): number => marks.reduce((total, one) => total + one, 0)

/** 95 % interval of a share (Wilson 1927): good at 0 and 1 too. */
function wilson(share: number, n: number): [number, number] {
  const z = 1.959963984540054
  const middle = (share + (z * z) / (2 * n)) / (1 + (z * z) / n)
  const half = (z / (1 + (z * z) / n)) * Math.sqrt((share * (1 - share)) / n + (z * z) / (4 * n * n))
  // At 0 and 1 the formula ends there itself, but for its rounding.
  return [share === 0 ? 0 : Math.max(0, middle - half), share === 1 ? 1 : Math.min(1, middle + half)]
}

/**
 * Simulates boards as they would be built: one set of parts each, which it keeps over the whole discharge, what blocks share
 * shared. Looked at is every row that doesn't hold at its worst, at six charges from full to the one that must be usable, with
 * the weakest and the strongest supply: between these lie all others. The path is as warm as the air, as at the first step, and
 * as warm as each board's own current makes it.
 *
 * @throws InputError naming the first field or option that isn't allowed
 */
export const simulateBoards = (given: Design, options: BoardOptions = {}): BoardSimulation =>
  now(simulating(given, options))

/** The same in steps, to be followed and stopped. */
export async function simulateBoardsLater(
  given: Design,
  { onProgress, signal, ...options }: BoardOptions & RunOptions = {},
): Promise<BoardSimulation> {
  return later(simulating(given, options), { ...(onProgress && { onProgress }), ...(signal && { signal }) })
}
