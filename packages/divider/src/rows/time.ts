import { acquisitionNeeded, settlingTime } from '@ohmward/adc/formulas'
import type { PlainRow } from '@ohmward/budget'
import type { ReadChoice } from '../choice.js'
import { neededWait } from '../formulas/index.js'
import { loopTimeConstant, missedBehindFilter } from '../settling.js'
import type { RowContext } from './context.js'

/** Whether everything is settled when the sample is taken. */
export function timeRows({ choice }: RowContext): PlainRow[] {
  const { amplifier: a, timing, converter } = choice
  const N_bits = converter.bits
  const tau_a = loopTimeConstant(choice)
  const rows: PlainRow[] = [
    {
      kind: 'plain',
      id: 'settling',
      name: 'settling to half a count',
      unit: 's',
      sense: 'at most',
      worst: neededWait({
        // Until the power is off, the amplifier stays where it can't follow.
        t_rec: a.recovery.upper + timing.edge.upper,
        V_hi: choice.amplifierSupply?.upper ?? choice.rail.to,
        SR: a.slewRate.lower,
        t_settle: settlingTime({ N_bits, tau: tau_a }),
        t_filter: settlingTime({ N_bits, tau: timing.filter.upper }),
      }),
      limit: timing.wait.lower,
      catches: ['A07', 'A10', 'D07'],
    },
    samplingRow(choice),
  ]
  if (timing.referenceSettling.upper > 0) {
    rows.push({
      kind: 'plain',
      id: 'reference-start',
      name: "settling of the converter's reference",
      unit: 's',
      sense: 'at most',
      worst: timing.referenceSettling.upper,
      limit: timing.wait.lower,
      catches: ['D02'],
    })
  }
  return rows
}

/** Whether the sampling capacitor is charged in time: by the source alone, or out of a filter's capacitor at the pin. */
function samplingRow(choice: ReadChoice): PlainRow {
  const { spreads, bits } = choice.converter
  const missed = missedBehindFilter(choice)
  if (missed !== undefined) {
    return {
      kind: 'plain',
      id: 'sampling',
      name: 'settling error after sampling',
      unit: 'LSB',
      sense: 'at most',
      worst: missed,
      limit: 0.5,
      catches: ['D01'],
    }
  }
  const [R_s, R_sw, C_sh] = [choice.timing.filterResistance.upper, spreads.R_sw.upper, spreads.C_sh.upper]
  return {
    kind: 'plain',
    id: 'acquisition',
    name: 'sampling time needed by the source',
    unit: 's',
    sense: 'at most',
    worst: acquisitionNeeded({ R_s, R_sw, C_sh, N_bits: bits }),
    limit: spreads.t_acq.lower,
    catches: ['D01'],
  }
}
