import { chargeAt, currentLimits } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'
import type { SolvedSpan } from './solve.js'
import type { ReadyRow } from './stage.js'

/** Limits on the current of cells and path, at the largest duty for long and while it is on. Pitfalls K03, K11. */
export function supplyRows({ supply, pwm }: ReadDesign, { current, span }: SolvedSpan): ReadyRow[] {
  const share = Math.sqrt(pwm.duty.to)
  const { lower, nominal, upper } = current
  const rms = { ...current, lower: lower * share, nominal: nominal * share, upper: upper * share }
  return currentLimits(supply, rms, current, span.celsius.to).map(({ name, what, limit, slack }) => {
    const id = `${what} of ${name}`.replace(/\W+/g, '-')
    const text = { id, name: `${what} of ${name}`, unit: 'A', sense: 'at most', catches: ['K03', 'K11'] } as const
    const middle = what === 'pulse current' || what === 'trip' ? nominal : nominal * share
    const row = { kind: 'plain', ...text, worst: limit - slack, limit, nominal: Math.min(middle, upper) } as const
    return { id: `supply/${id}`, row }
  })
}

/** Charge from full to the cut-off: an early one leaves less than is wanted. None for a port. */
export function chargeRow({ supply: { source }, requirements }: ReadDesign): ReadyRow[] {
  if (source.kind !== 'cell') return []
  const text = {
    id: 'charge',
    name: 'charge from full to the cut-off',
    unit: '1',
    sense: 'at least',
    catches: [],
  } as const
  const worst = 1 - chargeAt(source, source.lowestVoltage).nominal
  return [{ id: 'supply/charge', row: { kind: 'plain', ...text, worst, limit: requirements.usableCharge } }]
}
