import type { Margin } from '@ohmward/budget'
import { switchOf } from './chain/index.js'
import { type MosfetChoice, type MosfetConditions, readMosfet } from './choice.js'
import { inputsOf, topologyOf } from './inputs.js'
import { heldMargin, marginSpecs } from './margins/index.js'

/**
 * Holds a few margins of a choice, by their ids, and returns the first that fails; `undefined` where all hold. The
 * junction is taken at its limit, which no check can be milder than.
 */
export function screen(choice: MosfetChoice, conditions: MosfetConditions, ids: readonly string[]): Margin | undefined {
  const read = readMosfet(choice, conditions)
  const inputs = inputsOf(read)
  const circuit = switchOf(topologyOf(read))
  const specs = marginSpecs({ read, circuit }, read.ambient.to)
  for (const id of ids) {
    const spec = specs.find((one) => one.id === id)
    const margin = spec && heldMargin(spec, circuit, inputs, {})
    if (margin && margin.verdict !== 'holds') return margin
  }
  return undefined
}
