import type { Margin } from '@ohmward/budget'
import { remedyTexts } from '../changes/texts.js'
import { shortTripCurrent } from '../formulas/index.js'
import type { Findings } from '../rail/findings.js'
import { followed, usualOf } from '../search/climb.js'
import type { Plan } from '../search/plan.js'
import { type Hold, holdAll, type Limit } from './hold.js'

/** Rated voltages against the highest rail: full, released, plugged in. */
export function voltageMargins(plan: Plan, hold: Hold): Margin[] {
  const { read } = plan
  const text = { unit: 'V', sense: 'at most', remedies: remedyTexts.voltage, catches: ['J12'] } as const
  const least = read.capacitors.reduce((a, b) => (b.fields.ratedVoltage.lower < a.fields.ratedVoltage.lower ? b : a))
  const limits: Limit[] = [
    {
      text: { ...text, id: 'rated-voltage', name: `highest rail below the rating of ${least.name}` },
      limit: least.fields.ratedVoltage.lower,
    },
  ]
  const { railMaximum } = read.insertion
  if (railMaximum.upper > 0) {
    const name = 'highest rail below the absolute maximum on it'
    limits.push({ text: { ...text, id: 'rail-maximum', name }, limit: railMaximum.lower })
  }
  if (!rings(plan)) return holdAll(hold, ({ highestCreeping }) => highestCreeping, limits)
  const exact = ({ highest }: Findings) => highest
  const near = ({ highestNearly }: Findings) => highestNearly
  return holdAll(hold, near, limits).map((margin) => {
    const worst = exact(plan.at(margin.at))
    if (Math.abs(worst - margin.worst) > 2e-6 * worst) return followed(plan, margin, near, exact)
    const { V_oc, T_a, Y_age } = margin.at as Record<string, number>
    const nominal = exact(plan.at({ V_oc: V_oc!, T_a: T_a!, Y_age: Y_age! }))
    return { ...margin, worst, nominal, slack: margin.limit - worst, nominalSlack: margin.limit - nominal }
  })
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

/** Inrush at insertion against contact and protection. */
export function insertionMargins(plan: Plan, hold: Hold): Margin[] {
  const { contactSurge, shortVoltage, shortDelay } = plan.read.insertion
  const margins: Margin[] = []
  const text = { sense: 'at most', remedies: remedyTexts.inrush, catches: ['J11'] } as const
  if (contactSurge.upper > 0) {
    const name = 'inrush at insertion, below what the contact stands'
    const near = ({ inrushNearly }: Findings) => inrushNearly
    const margin = hold({ ...text, id: 'contact-surge', name, unit: 'A' }, near, contactSurge.lower)
    const isBiased = plan.read.capacitors.some(({ bias }) => bias !== undefined)
    margins.push(isBiased ? followed(plan, margin, near, ({ inrush }) => inrush) : margin)
  }
  if (shortVoltage.upper > 0 && shortDelay.upper > 0) {
    const name = 'inrush over before the protection takes it for a short'
    const scale = shortDelay.lower
    const level = ({ board }: Findings) => shortTripCurrent({ V_short: shortVoltage.lower, R_prot: board.protection })
    const near = (findings: Findings) => findings.timeAboveNearly(level(findings), scale)
    const exact = (findings: Findings) => findings.timeAbove(level(findings), scale)
    // What makes the formula of the first order right on a usual board, where it is about right.
    const usual = usualOf(plan)
    const { resistance } = usual.board.source
    const ratio = exact(usual) / usual.timeAboveWithout(level(usual), resistance)
    const fit = resistance * (ratio > 0.2 && ratio < 5 ? ratio : 1)
    const first = (findings: Findings) => findings.timeAboveWithout(level(findings), fit)
    const margin = hold({ ...text, id: 'short-delay', name, unit: 's' }, first, scale)
    const found = followed(plan, margin, near, exact)
    const [worst, nominal] = [Math.max(0, found.worst), Math.max(0, found.nominal)]
    margins.push({ ...found, worst, nominal, slack: scale - worst, nominalSlack: scale - nominal })
  }
  return margins
}
