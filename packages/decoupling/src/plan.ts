import type { Row } from '@ohmward/budget'
import { circuitOf, type RailAnswer, railOf } from './chain.js'
import type { ReadDecoupling } from './choice.js'
import { type Board, boardRow, conditionNames, type InputSet, inputsOf } from './inputs.js'
import { type PlugIn, type PwmCurrents, plugIn, pwmCurrents } from './waveform/index.js'

/** A choice made ready for the engines. */
export interface Plan {
  readonly read: ReadDecoupling
  readonly inputs: InputSet
  readonly conditions: readonly string[]
  readonly row: Row<string>
  /** The rail of a board; each board is followed once. */
  readonly rail: (board: Board) => RailAnswer
  /** Currents of its steady PWM; undefined without PWM or steady state. */
  readonly currents: (board: Board) => PwmCurrents | undefined
  /** What plugging in does on a board; once each. */
  readonly plugged: (board: Board) => PlugIn
}

/** Boards that are remembered, so that margins which ask for the same one don't follow it again. */
const remembered = 20_000

/** Makes a choice ready. One plan serves one check at a time. */
export function planOf(read: ReadDecoupling): Plan {
  const inputs = inputsOf(read)
  const names = Object.keys(inputs).filter((name) => {
    const input = inputs[name]
    return typeof input === 'object' && input.lower < input.upper
  })
  const fresh = boardRow(read) as unknown as (columns: Readonly<Record<string, Float64Array>>, i: number) => Board
  const boards = new Map<string, Board>()
  const row = (columns: Readonly<Record<string, Float64Array>>, i: number): Board => {
    let key = ''
    for (const name of names) key += `${columns[name]![i]} `
    const known = boards.get(key)
    if (known !== undefined) return known
    if (boards.size >= remembered) boards.clear()
    const board = fresh(columns, i)
    boards.set(key, board)
    return board
  }
  const rail = once((board: Board) => railOf(read, board))
  const currents = once((board: Board) => {
    const { circuit, pwm } = rail(board)
    return { found: pwm ? pwmCurrents(circuit, pwm) : undefined }
  })
  const plugged = once((board: Board) => plugIn(circuitOf(read, board)))
  return {
    read,
    inputs,
    conditions: conditionNames,
    row: row as unknown as Row<string>,
    rail,
    currents: (board) => currents(board).found,
    plugged,
  }
}

/** Asks once for each board. */
function once<A extends object>(ask: (board: Board) => A): (board: Board) => A {
  const known = new WeakMap<Board, A>()
  return (board) => {
    const before = known.get(board)
    if (before !== undefined) return before
    const answer = ask(board)
    known.set(board, answer)
    return answer
  }
}
