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
const remembered = 10_000

/** Makes a choice ready. One plan serves one check at a time. */
export function planOf(read: ReadDecoupling): Plan {
  const inputs = inputsOf(read)
  const names = Object.keys(inputs).filter((name) => {
    const input = inputs[name]
    return typeof input === 'object' && input.lower < input.upper
  })
  const fresh = boardRow(read) as unknown as (columns: Readonly<Record<string, Float64Array>>, i: number) => Board
  const known = memory(names.length)
  const row = (columns: Readonly<Record<string, Float64Array>>, i: number): Board => {
    for (let k = 0; k < names.length; k++) known.values[k] = columns[names[k]!]![i]!
    return known.find() ?? known.keep(fresh(columns, i))
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

/** Boards by the values that they were made of. */
function memory(size: number) {
  const values = new Float64Array(size)
  const words = new Uint32Array(values.buffer)
  const boards = new Map<number, { readonly of: Float64Array; readonly board: Board }>()
  let key = 0
  return {
    values,
    find(): Board | undefined {
      key = 0
      for (let k = 0; k < words.length; k++) key = Math.imul(key ^ words[k]!, 0x01000193) ^ (key >>> 15)
      const found = boards.get(key)
      return found?.of.every((value, k) => value === values[k]) ? found.board : undefined
    },
    keep(board: Board): Board {
      if (boards.size >= remembered) boards.clear()
      boards.set(key, { of: values.slice(), board })
      return board
    },
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
