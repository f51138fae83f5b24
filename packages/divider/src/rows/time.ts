import { missedCounts } from '@ohmward/adc'
import { acquisitionNeeded, settlingTime } from '@ohmward/adc/formulas'
import type { PlainRow } from '@ohmward/budget'
import { nominalGain } from '../chain/inputs.js'
import type { ReadChoice } from '../choice.js'
import { amplifierTimeConstant, neededWait } from '../formulas/index.js'
import type { RowContext } from './context.js'

/** Whether everything is settled when the sample is taken. */
export function timeRows({ choice }: RowContext): PlainRow[] {
  const { amplifier: a, timing, converter } = choice
  const N_bits = converter.bits
  const gain = nominalGain(choice) + (choice.topology === 'load at rail' ? 1 : 0)
  const tau_a = amplifierTimeConstant({ G_noise: gain, GBW: a.gainBandwidth.lower })
  const rows: PlainRow[] = [
    {
      kind: 'plain',
      id: 'settling',
      name: 'settled within half a count',
      unit: 's',
      sense: 'at most',
      worst: neededWait({
        t_rec: a.recovery.upper,
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
      name: "converter's reference settled",
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
function samplingRow({ timing, converter }: ReadChoice): PlainRow {
  const { spreads, bits } = converter
  const { filter, filterResistance } = timing
  const own = { R_sw: spreads.R_sw.upper, C_sh: spreads.C_sh.upper }
  const t_acq = spreads.t_acq.lower
  if (filter.upper > 0 && filterResistance.lower > 0) {
    const missed = missedCounts({
      ...own,
      R_src: filterResistance.upper,
      capacitance: { lower: filter.lower / filterResistance.upper, upper: filter.upper / filterResistance.lower },
      bits,
      t_acq,
      T_s: timing.samples.nominal > 1 ? t_acq + spreads.t_conv.lower : Math.max(timing.wait.lower, t_acq),
    })
    return {
      kind: 'plain',
      id: 'sampling',
      name: 'counts missing at the end of sampling',
      unit: 'LSB',
      sense: 'at most',
      worst: missed,
      limit: 0.5,
      catches: ['D01'],
    }
  }
  return {
    kind: 'plain',
    id: 'acquisition',
    name: 'sampling time that the source needs',
    unit: 's',
    sense: 'at most',
    worst: acquisitionNeeded({ ...own, R_s: filterResistance.upper, N_bits: bits }),
    limit: t_acq,
    catches: ['D01'],
  }
}
