import type { Margin, OwnRow } from '@ohmward/budget'
import type { RailReading } from '../rail/reading.js'
import { followed } from '../search/climb.js'
import { glanceAt } from '../search/glance.js'
import { marginInside } from '../search/inside.js'
import type { Plan } from '../search/plan.js'
import { type Limit, overAll } from './row.js'

/** Rated voltages against the highest rail: full, released, plugged in. */
export function voltageRows(plan: Plan): OwnRow[] {
  const { read } = plan
  const text = { unit: 'V', sense: 'at most', catches: ['J12'] } as const
  const least = read.capacitors.reduce((a, b) => (b.fields.ratedVoltage.lower < a.fields.ratedVoltage.lower ? b : a))
  const limits: Limit[] = [
    {
      text: { ...text, id: 'rated-voltage', name: `highest rail against the rating of ${least.name}` },
      limit: least.fields.ratedVoltage.lower,
    },
  ]
  const { railMaximum } = read.insertion
  if (railMaximum.upper > 0) {
    const name = 'highest rail against the lowest absolute maximum'
    limits.push({ text: { ...text, id: 'rail-maximum', name }, limit: railMaximum.lower })
  }
  let isRinging: boolean | undefined
  const rows = overAll(
    limits,
    ({ text: own, limit }, rule) => {
      isRinging ??= rings(plan)
      const value = isRinging ? near : creeping
      return marginInside(plan, { ...own, value, limit }, rule)
    },
    ({ limit }) => glanceAt(plan, 'at most', near, limit),
  )
  return rows.map((row) => ({
    ...row,
    hold: (rule) => {
      const margin = row.hold(rule)
      return isRinging ? exactly(plan, margin) : margin
    },
  }))
}

const creeping = ({ highestCreeping }: RailReading) => highestCreeping
const near = ({ highestNearly }: RailReading) => highestNearly
const exact = ({ V_high }: RailReading) => V_high

/** A margin of the peak that was searched in long steps, with the exact value. */
function exactly(plan: Plan, margin: Margin): Margin {
  const worst = exact(plan.at(margin.at))
  if (Math.abs(worst - margin.worst) > 2e-6 * worst) return followed(plan, margin, near, exact)
  const { V_oc, T_a, Y_age } = margin.at as Record<string, number>
  const nominal = exact(plan.at({ V_oc: V_oc!, T_a: T_a!, Y_age: Y_age! }))
  return { ...margin, worst, nominal, slack: margin.limit - worst, nominalSlack: margin.limit - nominal }
}

/**
 * Whether some board may go above its source: with the resistances in the loop at their least, the inductance at its largest, and each
 * series resistance at either end, since it damps neither when it is small nor when it is large beside another kind.
 */
function rings({ read, inputs, at }: Plan): boolean {
  const values: Record<string, number> = {}
  for (const [name, input] of Object.entries(inputs)) {
    if (typeof input === 'object') values[name] = name === 'V_oc' || /^(L$|ESL)/.test(name) ? input.upper : input.lower
  }
  const { ambient, age } = read
  const open = Object.entries(inputs).flatMap(([name, input]) =>
    /^ESR/.test(name) && typeof input === 'object' && input.lower < input.upper ? [[name, input.upper] as const] : [],
  )
  const ways = Array.from({ length: 2 ** Math.min(open.length, 4) }, (_, way) =>
    Object.fromEntries(open.filter((_, bit) => (way >> bit) & 1)),
  )
  return ways.some((way) =>
    [ambient.from, ambient.to].some((T_a) =>
      [age.from, age.to].some((Y_age) => {
        const { highestNearly, board } = at({ ...values, ...way, T_a, Y_age })
        return highestNearly > board.source.voltage
      }),
    ),
  )
}
