import type { Margin } from '@ohmward/budget'
import { type DecouplingChoice, type DecouplingConditions, readDecoupling } from './choice.js'
import { limitMargins } from './margins.js'
import { planOf } from './plan.js'

/**
 * The margins of the rail's limits alone, without ratings, insertion and cautions: for following a rail over the discharge.
 *
 * @throws InputError naming the first field that isn't allowed
 */
export function railLimitMargins(choice: DecouplingChoice, conditions: DecouplingConditions): Margin[] {
  return limitMargins(planOf(readDecoupling(choice, conditions)), {})
}
