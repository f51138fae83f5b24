import type { InputSet, Reading, Row } from '@ohmward/budget'
import type { PlaceSymbol } from './follow.js'
import { conditions } from './inputs.js'
import type { Switch } from './switch.js'

/**
 * A switch as the engines take it: as far as the stage that leaves the symbols named.
 *
 * @param own - inputs and conditions to cover that are other than the switch's own
 */
export function readingOf(
  circuit: Switch,
  symbols: readonly PlaceSymbol[],
  own: { readonly inputs?: InputSet; readonly conditions?: readonly string[] } = {},
): Reading {
  return {
    inputs: circuit.inputs,
    conditions,
    // The columns are always those of the switch's own inputs.
    row: circuit.row as Row<string>,
    follow: circuit.until(symbols),
    formulas: circuit.read,
    ...own,
  }
}
