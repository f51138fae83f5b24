import type { Row } from '@ohmward/budget'
import { boardMaker } from './board.js'
import type { ReadDecoupling } from './choice.js'
import { Findings } from './findings.js'
import { conditionNames, type InputSet, inputsOf } from './inputs.js'
import { memory } from './memory.js'

/** A choice made ready for the engines. One plan serves one check at a time. */
export interface Plan {
  readonly read: ReadDecoupling
  readonly inputs: InputSet
  readonly conditions: readonly string[]
  /** Makes the findings of a board: what {@link model} hands to its function. */
  readonly row: Row<string>
}

type Columns = Readonly<Record<string, Float64Array>>

/** Makes a choice ready. */
export function planOf(read: ReadDecoupling): Plan {
  const inputs = inputsOf(read)
  const row = rowOf(read, Object.keys(inputs)) as unknown as Row<string>
  return { read, inputs, conditions: conditionNames, row }
}

/** A function of findings as the engines take it. */
export const model = (value: (findings: Findings) => number) =>
  value as unknown as (x: Readonly<Record<string, number>>) => number

/** Makes the findings of the board in a row of columns, or gives those that were made before. */
function rowOf(read: ReadDecoupling, names: readonly string[]): (columns: Columns, i: number) => Findings {
  const x = new Float64Array(names.length + 1)
  const makeBoard = boardMaker(read, names)
  const known = memory(x, () => new Findings(read, makeBoard(x)))
  let bound: Columns | undefined
  let list: readonly Float64Array[] = []
  return (columns, i) => {
    if (columns !== bound) {
      bound = columns
      list = names.map((name) => columns[name]!)
    }
    for (let k = 0; k < list.length; k++) x[k] = list[k]![i]!
    return known()
  }
}
