import { type DecisionRule, type Margin, marginOf, plainMargin } from '@ohmward/budget'
import type { Place, Plan } from '../chain/plan.js'
import type { ReadChoice } from '../choice/index.js'
import { watching, watchingZero, whileOn } from './circumstances.js'
import { remedies } from './remedies.js'
import { text } from './text.js'

/** Whether the sensor's output stays in its linear span, in use and at its zero. */
export function spanMargins({ sensor, current }: ReadChoice, plan: Plan, rule: DecisionRule): Margin[] {
  const formulas = plan.formulas()
  const wanted = (x: Place) => plan.output(x)['V_want']!
  const margins = [
    marginOf(
      {
        ...text('span-high', 'output below the end of its linear span', 'V', 'at most', ['E02'], remedies.span),
        value: wanted,
        limit: (x: Place) => x['V_hi']!,
      },
      watching(formulas, ['V_want', 'V_hi'], whileOn(plan, current.to, rule)),
    ),
    marginOf(
      {
        ...text('span-low', 'output above the begin of its linear span', 'V', 'at least', ['E10'], remedies.low),
        value: wanted,
        limit: sensor.lowOutput.upper,
      },
      watching(formulas, ['V_want'], whileOn(plan, Math.min(current.from, 0), rule)),
    ),
  ]
  const { zeroOutput } = plan
  if (zeroOutput) {
    margins.push(
      marginOf(
        {
          ...text('zero-span', 'zero reading inside the linear span', 'V', 'at least', ['E04'], remedies.zero),
          value: (x: Place) => zeroOutput(x)['V_want']!,
          limit: sensor.lowOutput.upper,
        },
        watchingZero(formulas, ['V_want'], whileOn(plan, 0, rule)),
      ),
    )
  }
  return margins
}

/** Whether the largest current stays in the linear range that the data sheet states. */
export function ratedMargin({ current, sensor }: ReadChoice): Margin {
  return plainMargin(
    text('rated-current', 'largest current within the linear range', 'A', 'at most', [], remedies.span),
    Math.max(Math.abs(current.from), Math.abs(current.to)),
    sensor.ratedCurrent.lower,
  )
}
