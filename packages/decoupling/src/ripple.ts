import type { DecisionRule, Margin } from '@ohmward/budget'
import type { ReadCapacitor } from './choice.js'
import type { Findings } from './findings.js'
import { life, selfHeating } from './formulas/index.js'
import { holding } from './hold.js'
import type { Plan } from './plan.js'
import { remedyTexts } from './remedy-texts.js'

/** Ripple current of one part of kind k; 0 without PWM. */
export const rippleOf = (part: ReadCapacitor, { ripple }: Findings, k: number): number => (ripple[k] ?? 0) / part.count

/** Expected life of a part of kind k in hours, heated by its ripple; a million hours at most, beyond which nothing is known. */
export function lifeOf(part: ReadCapacitor, findings: Findings, k: number): number {
  const { board } = findings
  const { thermalResistance, lifeHours, lifeCelsius } = part.fields
  const one = board.branches[k]!.resistance * part.count
  const dT_C = selfHeating({ R_thC: thermalResistance.upper, I_C: rippleOf(part, findings, k), ESR: one })
  const dT_rated = lifeCelsius.lower - board.ambientCelsius
  return Math.min(1e6, life({ t_rated: lifeHours.lower, dT_rated, dT_C, dT_half: 10 }))
}

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
