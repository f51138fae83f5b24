import type { DecisionRule, Margin } from '@ohmward/budget'
import { remedyTexts } from '../changes/texts.js'
import { lifeOf, rippleOf } from '../rail/life.js'
import type { Plan } from '../search/plan.js'
import { holding } from './hold.js'

/** What PWM does to each kind of capacitor. */
export function rippleMargins(plan: Plan, rule: DecisionRule): Margin[] {
  const { read } = plan
  const hold = holding(plan, rule)
  return read.capacitors.flatMap((part, k) => {
    const { name, fields } = part
    const margins: Margin[] = []
    if (read.load.pwm && fields.rippleCurrent.upper > 0) {
      margins.push(
        hold(
          {
            id: `ripple-${k + 1}`,
            name: `ripple current of ${name}`,
            unit: 'A',
            sense: 'at most',
            remedies: remedyTexts.ripple,
            catches: ['J10'],
          },
          (findings) => rippleOf(part, findings, k),
          fields.rippleCurrent.lower,
        ),
      )
    }
    if (read.wantedLifeHours !== undefined && fields.lifeHours.upper > 0) {
      margins.push(
        hold(
          {
            id: `life-${k + 1}`,
            name: `life of ${name}, hours`,
            unit: '1',
            sense: 'at least',
            remedies: remedyTexts.life,
            catches: ['J10'],
          },
          (findings) => lifeOf(part, findings, k),
          read.wantedLifeHours,
        ),
      )
    }
    return margins
  })
}
