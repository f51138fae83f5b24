import { between, type Spread } from '@ohmward/quantity'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'

/**
 * What the two resistors draw by which the cells are seen, A: while the board is awake they are on, whatever switches them off in the drawer.
 * At most that of the fullest source; how little, as it empties and sags, isn't followed.
 */
export function monitorDraws({ monitor, supply: { source } }: ReadDesign): { rail: string; current: Spread }[] {
  const { upper, lower } = monitor?.divider ?? {}
  if (upper === undefined || lower === undefined) return []
  const most =
    source.kind === 'port'
      ? source.voltage.upper
      : source.inSeries * (source.openCircuit.y.at(-1)! + source.openCircuitSpread.upper)
  const whole = most / (upper.lower + lower.lower)
  return [{ rail: mainRail, current: between(0, whole, most / (upper.nominal + lower.nominal)) }]
}
