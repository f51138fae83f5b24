import type { Margin } from '@ohmward/budget'
import { highestRail } from './chain.js'
import { tripCurrent } from './formulas/index.js'
import type { Hold } from './hold.js'
import type { Board } from './inputs.js'
import type { Plan } from './plan.js'
import { remedyTexts } from './remedy-texts.js'

/** Rated voltages against the highest rail: full, released, plugged in. */
export function voltageMargins({ read, rail, plugged }: Plan, hold: Hold): Margin[] {
  const highest = (board: Board) => highestRail(rail(board), plugged(board))
  const text = { unit: 'V', sense: 'at most', remedies: remedyTexts.voltage, catches: ['J12'] } as const
  const least = read.capacitors.reduce((a, b) => (b.fields.ratedVoltage.lower < a.fields.ratedVoltage.lower ? b : a))
  const margins = [
    hold(
      { ...text, id: 'rated-voltage', name: `highest rail below the rating of ${least.name}` },
      highest,
      least.fields.ratedVoltage.lower,
    ),
  ]
  const { railMaximum } = read.insertion
  if (railMaximum.upper > 0) {
    const name = 'highest rail below the absolute maximum on it'
    margins.push(hold({ ...text, id: 'rail-maximum', name }, highest, railMaximum.lower))
  }
  return margins
}

/** Inrush at insertion against contact and protection. */
export function insertionMargins({ read, plugged }: Plan, hold: Hold): Margin[] {
  const { contactSurge, shortVoltage, shortDelay } = read.insertion
  const margins: Margin[] = []
  const text = { sense: 'at most', remedies: remedyTexts.inrush, catches: ['J11'] } as const
  if (contactSurge.upper > 0) {
    margins.push(
      hold(
        { ...text, id: 'contact-surge', name: 'inrush at insertion, below what the contact stands', unit: 'A' },
        (board) => plugged(board).inrush,
        contactSurge.lower,
      ),
    )
  }
  if (shortVoltage.upper > 0 && shortDelay.upper > 0) {
    const level = ({ protection }: Board) => tripCurrent({ V_trip: shortVoltage.lower, R_pair: protection })
    margins.push(
      hold(
        { ...text, id: 'short-delay', name: 'inrush over before the protection takes it for a short', unit: 's' },
        (board) => plugged(board).timeAbove(level(board)),
        shortDelay.lower,
      ),
    )
  }
  return margins
}
