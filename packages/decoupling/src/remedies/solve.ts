import type { Board } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { edge, type Failing, slackOf, type Trial } from './trial.js'

/** What becomes of a trial with a factor or a value of a remedy. */
export type Change = (trial: Trial, x: number, at: Failing['at']) => Trial

/** The edge of one remedy over all that fails; where PWM starts below its steady state, once more with its start. */
export function solved(cases: readonly Failing[], change: Change, bad: number, good: number): number | null {
  const slack = (withStart: boolean) => (x: number) =>
    Math.min(...cases.map(({ kind, trial, at }) => slackOf(kind, change(trial, x, at), withStart)))
  const value = edge(slack(false), bad, good)
  return value === null || slack(true)(value) >= 0 ? value : edge(slack(true), value, good)
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
