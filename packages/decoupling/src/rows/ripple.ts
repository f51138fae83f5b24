import type { OwnRow, RowText } from '@ohmward/budget'
import { lifeOf, type Ripple, rippleOf } from '../rail/life.js'
import { followed } from '../search/climb.js'
import { glanceAt } from '../search/glance.js'
import type { Plan } from '../search/plan.js'
import { namedAfter, type Single, singlesOf } from '../search/single.js'
import { over, type Value } from './row.js'

/** A value of a single part, by the ripple current that it is asked for. */
type OfSingle = (single: Single, ripple: Ripple) => Value

const current: OfSingle =
  ({ part, place }, ripple) =>
  (reading) =>
    rippleOf(part, ripple(reading), place)
const life: OfSingle =
  ({ part, place }, ripple) =>
  (reading) =>
    lifeOf(part, reading, ripple(reading), place)

const nearly: Ripple = ({ rippleNearly }) => rippleNearly

/** What PWM does to one part of each kind of capacitor, the worst of its kind. */
export function rippleRows({ read }: Pick<Plan, 'read'>): OwnRow[] {
  const { capacitors, load, logicRail, wantedLifeHours } = read
  const singleOf = singlesOf(read)
  return capacitors.flatMap(({ name, fields }, k) => {
    const rows: OwnRow[] = []
    let known: Single | undefined
    const push = (text: RowText, limit: number, value: OfSingle): void => {
      rows.push({
        kind: 'own',
        ...text,
        hold: (rule) => {
          known ??= singleOf(k)
          const near = value(known, nearly)
          const margin = over(known.plan, text, near, limit).hold(rule)
          // A diode's pulses add little and cost much to follow: at the worst place only, and around it.
          const exact = value(known, ({ ripple }) => ripple)
          const isPulsed = load.pwm !== undefined && logicRail?.behind === 'diode'
          return namedAfter(isPulsed ? followed(known.plan, margin, near, exact) : margin, known.place, k)
        },
        estimate: () => {
          known ??= singleOf(k)
          return glanceAt(known.plan, text.sense, value(known, nearly), limit)
        },
      })
    }
    if (load.pwm && fields.rippleCurrent.upper > 0) {
      const text = { id: `ripple-${k + 1}`, name: `ripple current of ${name}`, unit: 'A', sense: 'at most' } as const
      push({ ...text, catches: ['J10'] }, fields.rippleCurrent.lower, current)
    }
    if (wantedLifeHours !== undefined && fields.lifeHours.upper > 0) {
      const text = { id: `life-${k + 1}`, name: `life of ${name}`, unit: 'h', sense: 'at least' } as const
      push({ ...text, catches: ['J10'] }, wantedLifeHours, life)
    }
    return rows
  })
}
