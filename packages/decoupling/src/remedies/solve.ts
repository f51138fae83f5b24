import type { Board } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { climb } from '../search/climb.js'
import type { Plan } from '../search/plan.js'
import { edge, type Failing, slackOf, type Trial } from './trial.js'

/** What becomes of a trial with a factor or a value of a remedy. */
export type Change = (trial: Trial, x: number, at: Failing['at']) => Trial

/** How much of its room a trial has; below 0 while it fails. */
type Slack = (trial: Trial) => number

/** Rounding of a slack, as a part of its limit. */
const rounding = 1e-12
/** Boards that are added before a remedy is given up. */
const mostBoards = 8

/** The edge of one remedy over all that fails; where PWM starts below its steady state, once more with its start. */
export function solved(cases: readonly Failing[], change: Change, bad: number, good: number): number | null {
  const slack = (withStart: boolean) => (x: number) =>
    Math.min(...cases.map(({ kind, trial, at }) => slackOf(kind, change(trial, x, at), withStart)))
  const value = edge(slack(false), bad, good)
  return value === null || slack(true)(value) >= 0 ? value : edge(slack(true), value, good)
}

/**
 * The same for a remedy of time or of capacitance, with which parts count that made no difference before: in the end of a long burst
 * the rail stands where the source alone leaves it.
 */
export function solvedAnew(
  plan: Plan,
  cases: readonly Failing[],
  change: Change,
  bad: number,
  good: number,
): number | null {
  const onRail = cases.filter(({ kind }) => kind === 'rail')
  const others = cases.filter(({ kind }) => kind !== 'rail')
  const size = (boards: readonly Failing[]) => solved([...boards, ...others], change, bad, good)
  return settled(plan, onRail, change, (trial) => slackOf('rail', trial), size)
}

/** A size over ever more boards, each the worst that is found with the size before, until none is worse. */
export function settled(
  plan: Plan,
  cases: readonly Failing[],
  change: Change,
  slack: Slack,
  size: (cases: readonly Failing[]) => number | null,
): number | null {
  let boards = cases
  for (let round = 0; round < mostBoards; round++) {
    const value = size(boards)
    const [first] = boards
    if (value === null || first === undefined) return value
    const lack = (at: Failing['at']): number => -slack(change({ read: plan.read, board: plan.at(at).board }, value, at))
    const same = (x: number): number => x
    const { at, worst } = climb({ ...plan, at: lack }, boards.at(-1)!.at, same, same)
    if (worst <= rounding) return value
    boards = [...boards, { kind: 'rail', at, trial: { read: plan.read, board: plan.at(at).board } }]
  }
  return null
}

export const withBoard = (change: (board: Board, x: number) => Partial<Board>): Change => {
  return ({ read, board }, x) => ({ read, board: { ...board, ...change(board, x) } })
}

export const withLoad = (
  change: (load: ReadDecoupling['load'], x: number) => Partial<ReadDecoupling['load']>,
): Change => {
  return ({ read, board }, x) => ({ read: { ...read, load: { ...read.load, ...change(read.load, x) } }, board })
}

/** Finds the value of a remedy between one that isn't enough and one that may be. */
export type Solve = (change: Change, bad: number, good: number) => number | null
