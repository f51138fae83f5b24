import type { Margin } from '@ohmward/budget'
import { type Board, boardAt } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import type { InputSet } from '../choice/inputs.js'
import { type RailLimit, railLimits, railRowIds, steadyDrop } from '../rail/limits.js'
import { powerAllowed, tripAllowed, tripLoad } from '../rail/protection.js'
import { lowestFromStart, railOf } from '../rail/rail.js'
import type { RailReading } from '../rail/reading.js'
import { portCurrent, restOf } from '../rail/steady.js'
import { lowestOf } from '../search/inside.js'
import { planOf } from '../search/plan.js'

/** A board in its choice, either of them changed to see what it would do. */
export interface Trial {
  readonly read: ReadDecoupling
  readonly board: Board
}

/** A margin that fails, on its own worst board. */
export interface Failing {
  readonly kind: 'rail' | 'power' | 'trip' | 'port'
  readonly trial: Trial
  /** Values of the inputs that make the board. */
  readonly at: Readonly<Record<string, number>>
}

/** Least distance to the limits of rail and logic rail, each as a part of its limit; below 0 where one is broken. */
export function railSlack({ read, board }: Trial, limits: readonly RailLimit[], withStart = false): number {
  const answer = railOf(read, board)
  const lowest = withStart ? lowestFromStart(board, answer) : answer.lowest
  let least = Number.POSITIVE_INFINITY
  for (const { volts, place } of limits) least = Math.min(least, (place === 'rail' ? lowest : answer.logic) / volts - 1)
  return least
}

/** How much of its room a failing margin has, as a part of its limit; below 0 while it fails. */
export function slackOf(kind: Failing['kind'], trial: Trial, withStart = false): number {
  const { read, board } = trial
  if (kind === 'rail') return railSlack(trial, railLimits(read), withStart)
  if (kind === 'power') return board.load.kind === 'power' ? powerAllowed(board) / board.load.power - 1 : 1
  if (kind === 'trip') return tripAllowed(read, board) / tripLoad(read, board, railOf(read, board).lowest) - 1
  return board.source.currentLimit! / portCurrent(read, board) - 1
}

/** The margins that fail and that a remedy can be sized for, each on its own worst board; the rail's own first. */
export function failing(read: ReadDecoupling, inputs: InputSet, margins: readonly Margin[]): Failing[] {
  const rail = railRowIds(read)
  const kinds: Readonly<Record<string, Failing['kind']>> = {
    'power-exists': 'power',
    'protection-trip': 'trip',
    'port-current': 'port',
  }
  const list: Failing[] = []
  const known = new Set<string>()
  for (const { id, verdict, slack, at } of margins) {
    const kind = rail.includes(id) ? 'rail' : kinds[id]
    if (kind === undefined || verdict !== 'fails' || slack >= 0) continue
    const board = boardAt(read, inputs, at)
    const key = kind + JSON.stringify(board)
    if (known.has(key)) continue
    known.add(key)
    list.push({ kind, at, trial: { read, board } })
  }
  return list.sort((a, b) => Number(b.kind === 'rail') - Number(a.kind === 'rail'))
}

/** Values of the inputs on the board with the lowest rail, or with another lowest value. */
export const worstValues = (
  read: ReadDecoupling,
  value?: (reading: RailReading) => number,
): Readonly<Record<string, number>> => lowestOf(planOf(read), value).values

/** How far the source at rest stands above every limit, V; a logic rail's drop counts. Below 0 only its voltage or the limits help. */
export function restSlack({ read, board }: Trial): number {
  const rest = restOf(board)
  return Math.min(...railLimits(read).map((limit) => rest - limit.volts - steadyDrop(read, limit)(board)))
}

/**
 * The value nearest to `bad` with which `slack` is 0 or more, between one where it is and one where it isn't, both above 0; `null`
 * where it isn't even at `good`. Regula falsi drawn towards the middle, never slower than halving (Oliveira and Takahashi, 2020).
 */
export function edge(slack: (x: number) => number, bad: number, good: number): number | null {
  let high = slack(good)
  if (!(high >= 0)) return null
  let low = slack(bad)
  if (low >= 0) return bad
  let [b, g] = [Math.log(bad), Math.log(good)]
  let reach = 2 * Math.abs(g - b)
  while (Math.abs(g - b) > 1e-12 && high > 1e-13) {
    const middle = (b + g) / 2
    const straight = (high * b - low * g) / (high - low)
    const side = Math.sign(middle - straight)
    const span = g - b
    const drawn = straight + side * Math.min(0.1 * span * span, Math.abs(middle - straight))
    reach /= 2
    const free = Math.max(0, reach - Math.abs(span) / 2)
    const x = Math.abs(drawn - middle) <= free ? drawn : middle - side * free
    const here = slack(Math.exp(x))
    if (here >= 0) [g, high] = [x, here]
    else [b, low] = [x, here]
  }
  return Math.exp(g)
}
