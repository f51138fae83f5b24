import type { Margin } from '@ohmward/budget'
import type { Findings } from './findings.js'
import { followed, usualOf } from './followed.js'
import { tripCurrent } from './formulas/index.js'
import { type Hold, holdAll, type Limit } from './hold.js'
import type { Plan } from './plan.js'
import { remedyTexts } from './remedy-texts.js'

/** Rated voltages against the highest rail: full, released, plugged in. */
export function voltageMargins({ read }: Plan, hold: Hold): Margin[] {
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
  return holdAll(hold, ({ highest }) => highest, limits)
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
    const level = ({ board }: Findings) => tripCurrent({ V_trip: shortVoltage.lower, R_pair: board.protection })
    const near = (findings: Findings) => findings.timeAboveNearly(level(findings), scale)
    const exact = (findings: Findings) => findings.timeAbove(level(findings), scale)
    const first = (findings: Findings) => findings.timeAboveWithout(level(findings))
    const usual = usualOf(plan)
    const ratio = exact(usual) / first(usual)
    const share = ratio > 0.2 && ratio < 5 && exact(usual) > 0 ? ratio : 1
    const margin = hold({ ...text, id: 'short-delay', name, unit: 's' }, (findings) => share * first(findings), scale)
    const found = followed(plan, margin, near, exact)
    const [worst, nominal] = [Math.max(0, found.worst), Math.max(0, found.nominal)]
    margins.push({ ...found, worst, nominal, slack: scale - worst, nominalSlack: scale - nominal })
  }
  return margins
}
