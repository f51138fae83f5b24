import { type Margin, plainMargin } from '@ohmward/budget'
import type { Nominal } from '../chain/noise.js'
import type { Plan } from '../chain/plan.js'
import type { ReadChoice } from '../choice/index.js'
import * as f from '../formulas/index.js'
import { remedies } from './remedies.js'
import { text } from './text.js'

/** What a reading resolves: its smallest step, its noise, the share of the span that it uses, what may be divided by it. */
export function readingMargins(choice: ReadChoice, { behind }: Plan): Margin[] {
  const { resolution, leastUse, divideFrom, converter } = choice
  const A_count = f.countCurrent({ ...behind.nominal, N_bits: converter.bits })
  const margins = [
    plainMargin(
      text('resolution', 'smallest step of the reading', 'A', 'at most', ['E07'], remedies.resolution),
      f.readingStep({ A_count, h_round: behind.halfWidth }),
      resolution,
    ),
    plainMargin(
      text('noise', 'noise of the reading, peak to peak', 'A', 'at most', ['E07'], remedies.noise),
      f.readingNoise({ A_count, n_read: behind.noise }),
      resolution,
    ),
    plainMargin(
      text('range', 'share of the span that is used', '1', 'at least', ['E10'], remedies.range),
      usedShare(choice, behind.nominal),
      leastUse,
    ),
  ]
  if (divideFrom !== undefined) {
    margins.push(
      plainMargin(
        text(
          'quotient',
          'counts of the smallest current that is divided by',
          '1',
          'at least',
          ['F05'],
          remedies.quotient,
        ),
        f.countsOf({ I_x: divideFrom, A_count }),
        10,
      ),
    )
  }
  return margins
}

/** Share of the nominal span on the side of the largest current; the converter's end counts where it comes first. */
function usedShare({ current, sensor, sensorSupply, rail }: ReadChoice, nominal: Nominal): number {
  const upwards = Math.abs(current.to) >= Math.abs(current.from)
  const I_max = Math.max(Math.abs(current.to), Math.abs(current.from))
  const V_s = sensorSupply?.nominal ?? (rail.from + rail.to) / 2
  const V_span = upwards
    ? f.spanAbove({ ...nominal, V_s, V_oh: sensor.highOutputDrop.upper })
    : f.spanBelow({ ...nominal, V_ol: sensor.lowOutput.upper })
  return f.rangeUsed({ S_n: nominal.S_n, I_max, V_span: Math.max(V_span, 1e-9) })
}
