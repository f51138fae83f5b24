import { plainMargin } from '@ohmward/budget'
import { currentLimits } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'
import type { Solved } from './solve.js'
import type { ReadyRow } from './stage.js'

/** Limits on the current of cells and path, at the largest duty for long and while it is on. Pitfalls K03, K11. */
export function supplyRows({ supply, pwm }: ReadDesign, { current, span }: Solved): ReadyRow[] {
  const share = Math.sqrt(pwm.duty.to)
  const { lower, nominal, upper } = current
  const rms = { ...current, lower: lower * share, nominal: nominal * share, upper: upper * share }
  return currentLimits(supply, rms, current, span.celsius.to).map(({ name, what, limit, slack }) => {
    const id = `${what} of ${name}`.replace(/\W+/g, '-')
    const text = { id, name: `${what} of ${name}`, unit: 'A', sense: 'at most', catches: ['K03', 'K11'] } as const
    const middle = what === 'pulse current' || what === 'trip' ? nominal : nominal * share
    return { id: `supply/${id}`, hold: () => plainMargin(text, limit - slack, limit, Math.min(middle, upper)) }
  })
}
