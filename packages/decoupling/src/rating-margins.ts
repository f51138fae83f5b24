import type { Margin } from '@ohmward/budget'
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
export function insertionMargins({ read }: Plan, hold: Hold): Margin[] {
  const { contactSurge, shortVoltage, shortDelay } = read.insertion
  const margins: Margin[] = []
  const text = { sense: 'at most', remedies: remedyTexts.inrush, catches: ['J11'] } as const
  if (contactSurge.upper > 0) {
    margins.push(
      hold(
        { ...text, id: 'contact-surge', name: 'inrush at insertion, below what the contact stands', unit: 'A' },
        ({ inrush }) => inrush,
        contactSurge.lower,
      ),
    )
  }
  if (shortVoltage.upper > 0 && shortDelay.upper > 0) {
    margins.push(
      hold(
        { ...text, id: 'short-delay', name: 'inrush over before the protection takes it for a short', unit: 's' },
        (findings) =>
          findings.timeAbove(tripCurrent({ V_trip: shortVoltage.lower, R_pair: findings.board.protection })),
        shortDelay.lower,
      ),
    )
  }
  return margins
}
