import type { Margin } from '@ohmward/budget'
import type { DecouplingChoice, DecouplingConditions } from '../choice/choice.js'
import { readDecoupling } from '../choice/read.js'
import { planOf } from '../search/plan.js'
import { limitMargins } from './limits.js'

/**
 * The margins of the rail's limits alone at one open-circuit voltage: for following a rail over the discharge.
 *
 * @param volts - open-circuit voltage, in place of the conditions' range
 * @throws InputError naming the first field that isn't allowed
 */
export function railLimitMargins(choice: DecouplingChoice, conditions: DecouplingConditions, volts: number): Margin[] {
  const plan = planOf(readDecoupling(choice, conditions))
  return limitMargins({ ...plan, inputs: { ...plan.inputs, V_oc: volts } }, {})
}
