import { missedCounts, schedule } from '@ohmward/adc'
import { type Margin, plainMargin } from '@ohmward/budget'
import type { Behind } from '../chain/behind.js'
import { intervalOf } from '../chain/noise.js'
import { sourceAt } from '../chain/source.js'
import type { ReadChoice } from '../choice/index.js'
import * as f from '../formulas/index.js'
import { tasksOf } from '../period/tasks.js'
import { remedies } from './remedies.js'
import { text } from './text.js'

/** Margins of time: windows, settling, ripple, sampling, and what an averaged reading does to the power. */
export function timeMargins(choice: ReadChoice, behind: Behind): Margin[] {
  return [
    ...windowMargins(choice, behind),
    ...(choice.reading === 'averaged' ? averagedMargins(choice, behind) : []),
    samplingMargin(choice),
  ]
}

function windowMargins(choice: ReadChoice, behind: Behind): Margin[] {
  const { pwm, wait, reading } = choice
  const margins: Margin[] = []
  if (reading === 'on-window' && wait !== undefined) {
    margins.push(
      plainMargin(
        text('settling', 'settled within half a count at the sample', 's', 'at most', ['E08'], remedies.settling),
        behind.needed,
        wait,
      ),
    )
  }
  if (!pwm) return margins
  const { on, off } = schedule(tasksOf(choice, behind))
  const { frequency, duty } = pwm
  if (on.steps.length > 0 && duty.from < 1) {
    margins.push(
      plainMargin(
        text('on-window', 'readings within the shortest on-time', 's', 'at most', ['E08'], remedies.window),
        on.shortest,
        duty.from / frequency,
      ),
    )
  }
  if (off.steps.length > 0) {
    margins.push(
      plainMargin(
        text('off-window', 'readings within the shortest off-time', 's', 'at most', [], remedies.offWindow),
        off.shortest,
        (1 - duty.to) / frequency,
      ),
    )
  }
  return margins
}

function averagedMargins({ pwm, power, current, errors }: ReadChoice, { tauLeast }: Behind): Margin[] {
  if (!pwm) return []
  const { from, to } = pwm.duty
  const I_on = Math.max(Math.abs(current.from), Math.abs(current.to))
  const x = { f_PWM: pwm.frequency, tau_f: tauLeast }
  // The crest is furthest from the mean a little below half duty, the trough as much above: the less the filter averages
  // the more. Or as near to it as the range comes.
  const furthest = f.crestDuty(x)
  const within = (duty: number) => Math.min(Math.max(duty, from), to)
  const ripple = Math.max(
    f.rippleAbove({ ...x, D_PWM: within(furthest) }),
    f.rippleBelow({ ...x, D_PWM: within(1 - furthest) }),
  )
  const margins = [
    plainMargin(
      text('ripple', 'ripple of the averaged current from its mean', 'A', 'at most', ['E08'], remedies.ripple),
      ripple * I_on,
      Math.min(...errors.map(({ allowed }) => allowed)),
    ),
  ]
  if (power === 'squared reading') {
    const share = errors.filter(({ at }) => at !== 0).map(({ at, allowed }) => allowed / Math.abs(at))
    margins.push(
      plainMargin(
        text('power', 'power from the squared mean, over the true one', '1', 'at least', ['E09'], remedies.power),
        f.meanSquareShare({ I_avg: from * I_on, I_on, D_PWM: from }),
        f.leastPowerShare({ e_I: Math.min(...share, 0.5) }),
      ),
    )
  }
  return margins
}

function samplingMargin(choice: ReadChoice): Margin {
  const { converter, filter, timing } = choice
  const { spreads, bits } = converter
  const t_acq = spreads.t_acq.lower
  const missed = missedCounts({
    R_src: sourceAt(choice, 'upper'),
    capacitance: filter.capacitance,
    R_sw: spreads.R_sw.upper,
    C_sh: spreads.C_sh.upper,
    bits,
    t_acq,
    T_s: timing.samplesPerWindow.nominal > 1 ? t_acq + spreads.t_conv.lower : intervalOf(choice),
  })
  return plainMargin(
    text('sampling', 'counts missing at the end of sampling', 'LSB', 'at most', ['D01'], remedies.sampling),
    missed,
    0.5,
  )
}
