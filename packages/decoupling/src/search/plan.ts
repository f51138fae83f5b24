import type { Margin, Row, WorstCase } from '@ohmward/budget'
import { type Input, nominalOf } from '@ohmward/quantity'
import { Boards } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { conditionsOf, type InputSet, inputsOf } from '../choice/inputs.js'
import { RailReading } from '../rail/reading.js'
import type { Allowance } from '../waveform/inside.js'
import { memory } from './memory.js'

/** The worst cases at which a value was held, whether its limit left each unsure, and which was taken. */
interface Course {
  readonly sense: Margin['sense']
  readonly cases: readonly WorstCase[]
  readonly isUnsure: readonly boolean[]
  readonly taken: number
}

/** A choice made ready for the engines. One plan serves one check at a time. */
export interface Plan {
  readonly read: ReadDecoupling
  readonly inputs: InputSet
  readonly conditions: readonly string[]
  /** Steps that are left of what a check may take, and the rows that couldn't be followed with them. */
  readonly allowance: Allowance
  readonly unfollowed: Set<string>
  /** By value: its limits are held one after the other, on the same board. */
  readonly courses: Map<(reading: RailReading) => number, Course>
  /** Makes the reading of a board: what {@link model} hands to its function. */
  readonly row: Row<string>
  /** The reading of one board; every input that isn't given at its nominal value. */
  readonly at: (values: Readonly<Record<string, number>>) => RailReading
}

type Columns = Readonly<Record<string, Float64Array>>

/** Steps that one check may take: a second's. Designs as they are built take 0.2 to 34 million. */
export const stepsOfCheck = 5e7

/** Makes a choice ready. */
export function planOf(read: ReadDecoupling): Plan {
  const inputs = inputsOf(read)
  const row = rowOf(read, inputs) as unknown as Row<string>
  const at = readingMaker(read, inputs)
  return {
    read,
    inputs,
    conditions: conditionsOf(read),
    row,
    at,
    allowance: { left: stepsOfCheck },
    unfollowed: new Set(),
    courses: new Map(),
  }
}

function readingMaker(read: ReadDecoupling, inputs: InputSet): Plan['at'] {
  const names = Object.keys(inputs)
  const nominal = names.map((name) => nominalOf(inputs[name]!))
  const x = new Float64Array(names.length)
  const boards = new Boards(read, names)
  return (values) => {
    for (let k = 0; k < names.length; k++) x[k] = values[names[k]!] ?? nominal[k]!
    return new RailReading(read, boards.make(x))
  }
}

/** A function of reading as the engines take it. */
export const model = (value: (reading: RailReading) => number) =>
  value as unknown as (x: Readonly<Record<string, number>>) => number

/** Makes the reading of the board in a row of columns, or gives those that were made before. */
function rowOf(read: ReadDecoupling, inputs: InputSet): (columns: Columns, i: number) => RailReading {
  const isFree = (input: Input | undefined): boolean => typeof input === 'object' && input.lower < input.upper
  // Those that vary come first: by them a board is known again.
  const names = Object.keys(inputs).sort((a, b) => Number(isFree(inputs[b])) - Number(isFree(inputs[a])))
  const x = new Float64Array(names.length)
  const key = new Float64Array(names.filter((name) => isFree(inputs[name])).length)
  const boards = new Boards(read, names)
  const known = memory(key, () => {
    for (let k = key.length; k < list.length; k++) x[k] = list[k]![row]!
    x.set(key)
    return new RailReading(read, boards.make(x))
  })
  let bound: Columns | undefined
  let list: readonly Float64Array[] = []
  let row = 0
  return (columns, i) => {
    if (columns !== bound) {
      bound = columns
      list = names.map((name) => columns[name]!)
    }
    row = i
    for (let k = 0; k < key.length; k++) key[k] = list[k]![i]!
    return known()
  }
}
