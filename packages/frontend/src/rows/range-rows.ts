import { type BlockRow, type Margin, plainMargin } from '@ohmward/budget'
import { divider } from '@ohmward/divider'
import type { Spread } from '@ohmward/quantity'
import { resistanceOf } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'
import { element } from '../supply/path.js'
import type { SolvedSpan } from '../supply/solve.js'
import type { ReadyRow } from './ready-row.js'

/**
 * The load itself, from cold to at work, against the resistances that must be read: beyond them no error is held, and the amplifier may
 * saturate. With two wires the leads count as load, but their nominal part is taken off. Pitfall A01.
 */
export function rangeRows(design: ReadDesign, { span }: SolvedSpan): ReadyRow[] {
  const { ambientCelsius, load: own } = design
  const { load } = divider.read(design.divider, { rail: { from: 1, to: 1 }, ambientCelsius })
  const { resistance, temperatureCoefficient, workingCelsius } = own
  const part = { ...element('load', resistance), temperatureCoefficient }
  const ends = [span.celsius.from, span.celsius.to, workingCelsius].map((celsius) => resistanceOf(part, celsius))
  const least = ends.reduce((a, b) => (b.lower < a.lower ? b : a))
  const most = ends.reduce((a, b) => (b.upper > a.upper ? b : a))
  return [rowOf('smallest', 'at least', least, load.from), rowOf('largest', 'at most', most, load.to)]
}

function rowOf(end: 'smallest' | 'largest', sense: Margin['sense'], { lower, nominal, upper }: Spread, limit: number) {
  const text = {
    id: `range-${end}`,
    name: `${end} load resistance, against the ${end} to be read`,
    unit: 'ohm',
    sense,
    catches: ['A01'],
  } as const
  const margin = plainMargin(text, sense === 'at most' ? upper : lower, limit, nominal)
  // Loads lie anywhere between their limits.
  const below = upper > lower ? Math.min(1, Math.max(0, (limit - lower) / (upper - lower))) : 0
  const probability = sense === 'at most' ? below : 1 - below
  const hold = (): Margin => (margin.verdict === 'holds' ? margin : { ...margin, probability })
  const row: BlockRow = { kind: 'own', ...text, hold }
  return { id: `divider/${text.id}`, row }
}
