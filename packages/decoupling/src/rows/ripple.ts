import type { OwnRow } from '@ohmward/budget'
import { lifeOf, rippleOf } from '../rail/life.js'
import type { Plan } from '../search/plan.js'
import { over } from './row.js'

/** What PWM does to each kind of capacitor. */
export function rippleRows(plan: Plan): OwnRow[] {
  const { capacitors, load, wantedLifeHours } = plan.read
  return capacitors.flatMap((part, k) => {
    const { name, fields } = part
    const rows: OwnRow[] = []
    if (load.pwm && fields.rippleCurrent.upper > 0) {
      const text = {
        id: `ripple-${k + 1}`,
        name: `ripple current of ${name}`,
        unit: 'A',
        sense: 'at most',
        catches: ['J10'],
      } as const
      rows.push(over(plan, text, (reading) => rippleOf(part, reading, k), fields.rippleCurrent.lower))
    }
    if (wantedLifeHours !== undefined && fields.lifeHours.upper > 0) {
      const text = {
        id: `life-${k + 1}`,
        name: `life of ${name}, hours`,
        unit: '1',
        sense: 'at least',
        catches: ['J10'],
      } as const
      rows.push(over(plan, text, (reading) => lifeOf(part, reading, k), wantedLifeHours))
    }
    return rows
  })
}
