import { type DecisionRule, type Margin, marginOf, plainMargin } from '@ohmward/budget'
import type { Input } from '@ohmward/quantity'
import type { Place, Plan } from '../chain/plan.js'
import { sourceAt } from '../chain/source.js'
import type { ReadChoice } from '../choice/index.js'
import * as f from '../formulas/index.js'
import { watching, whileOn } from './circumstances.js'
import { remedies } from './remedies.js'
import { text } from './text.js'

/** Whether the converter can still read the pin. */
export function converterMargin({ current, reading, pwm }: ReadChoice, plan: Plan, rule: DecisionRule): Margin {
  // Behind an averaging filter the pin sees the mean, and what ripples about it.
  const averaged = reading === 'averaged' && pwm
  const largest = averaged ? current.to * pwm.duty.to : current.to
  const on = whileOn(plan, largest, rule)
  const seen = averaged ? { ...on, inputs: plan.inputs(largest) as Record<string, Input> } : on
  return marginOf(
    {
      ...text('converter-high', 'pin below the full scale', 'V', 'at most', ['E02'], remedies.converter),
      value: (x: Place) => plan.reading(x)['V_pin']!,
      limit: (x: Place) => x['V_top']!,
    },
    watching(plan.formulas(), ['V_pin', 'V_top'], seen),
  )
}

/** What a sensor supplied from above the rail drives into the pin's clamp. */
export function clampMargins(choice: ReadChoice): Margin[] {
  const { sensorSupply, rail, sensor, divider } = choice
  if (!sensorSupply) return []
  const R_o = sensor.outputResistance.lower
  const k_d = divider ? f.dividerRatio({ R_o, R_t: divider.top.lower, R_b: divider.bottom.upper }) : 1
  const R_src = sourceAt(choice, 'lower')
  return [
    plainMargin(
      text('clamp', "current into the pin's clamp, sensor at its supply", 'A', 'at most', ['E02'], remedies.clamp),
      f.clampCurrent({ V_hi: sensorSupply.upper, k_d, V_rail: rail.from, V_clamp: 0.3, R_src }),
      1e-3,
    ),
  ]
}
