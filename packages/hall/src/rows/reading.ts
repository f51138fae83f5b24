import type { PlainRow } from '@ohmward/budget'
import type { Behind } from '../chain/behind.js'
import * as f from '../formulas/index.js'
import type { ReadChoice } from '../read-choice.js'
import type { RowContext } from './context.js'

/** What a reading resolves: its smallest step, its noise, the share of the span that it uses, what may be divided by it. */
export function readingRows({ choice, plan: { behind } }: RowContext): PlainRow[] {
  const { resolution, leastUse, divideFrom } = choice
  const { A_count } = behind
  const rows: PlainRow[] = [
    {
      kind: 'plain',
      id: 'resolution',
      name: 'smallest step of the reading',
      unit: 'A',
      sense: 'at most',
      worst: f.readingStep({ A_count, h_round: behind.halfWidth }),
      limit: resolution,
      catches: ['E07'],
    },
    {
      kind: 'plain',
      id: 'noise',
      name: 'noise of the reading, peak to peak',
      unit: 'A',
      sense: 'at most',
      worst: f.readingNoise({ A_count, n_read: behind.noise }),
      limit: resolution,
      catches: ['E07'],
    },
  ]
  if (leastUse !== undefined) {
    rows.push({
      kind: 'plain',
      id: 'range',
      name: 'share of the span used',
      unit: '1',
      sense: 'at least',
      worst: usedShare(choice, behind),
      limit: leastUse,
      catches: ['E10'],
    })
  }
  if (divideFrom !== undefined) {
    rows.push({
      kind: 'plain',
      id: 'quotient',
      name: 'counts at the smallest current used as a divisor',
      unit: '1',
      sense: 'at least',
      worst: f.countsOf({ I_x: divideFrom, A_count }),
      limit: 10,
      catches: ['F05'],
    })
  }
  return rows
}

/** Share of the nominal span on the side of the largest current; the converter's end counts where it comes first. */
export function usedShare(
  { current, sensor, sensorSupply, nominalRail }: ReadChoice,
  { nominal }: Pick<Behind, 'nominal'>,
): number {
  const upwards = Math.abs(current.to) >= Math.abs(current.from)
  const I_max = Math.max(Math.abs(current.to), Math.abs(current.from))
  const V_s = sensorSupply?.nominal ?? nominalRail
  const V_span = upwards
    ? f.spanAbove({ ...nominal, V_s, V_oh: sensor.highOutputDrop.upper })
    : f.spanBelow({ ...nominal, V_ol: sensor.lowOutput.upper })
  return f.rangeUsed({ S_n: nominal.S_n, I_max, V_span: Math.max(V_span, 1e-9) })
}
