import type { DecisionRule, Margin } from '@ohmward/budget'
import type { Plan } from '../chain/plan.js'
import type { ReadChoice } from '../choice/index.js'
import { clampMargins, converterMargin } from './pin.js'
import { readingMargins } from './reading.js'
import { conductorMargin, supplyMargins } from './sensor.js'
import { ratedMargin, spanMargins } from './span.js'
import { timeMargins } from './time.js'

/** Every margin of the measurement but those of its error and its trip. */
export function measurementMargins(choice: ReadChoice, plan: Plan, rule: DecisionRule): Margin[] {
  return [...spanMargins(choice, plan, rule), converterMargin(choice, plan, rule), ...plainMargins(choice, plan)]
}

/** The margins that need no engine: their worst case is plain arithmetic. */
export function plainMargins(choice: ReadChoice, plan: Plan): Margin[] {
  return [
    ...supplyMargins(choice),
    ...clampMargins(choice),
    ...readingMargins(choice, plan),
    ...timeMargins(choice, plan.behind),
    ratedMargin(choice),
    conductorMargin(choice),
  ]
}
