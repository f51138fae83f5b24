import { schedule } from '@ohmward/adc'
import type { PlainRow } from '@ohmward/budget'
import type { Behind } from '../chain/behind.js'
import * as f from '../formulas/index.js'
import { tasksOf } from '../period/tasks.js'
import type { RowContext } from './context.js'

/** Windows, settling, ripple, sampling, and what an averaged reading does to the power. */
export const timeRows = (context: RowContext): PlainRow[] => [
  ...windowRows(context),
  ...(context.choice.reading === 'averaged' ? averagedRows(context) : []),
  samplingRow(context),
]

function windowRows({ choice, plan: { behind } }: RowContext): PlainRow[] {
  const { pwm, wait, reading } = choice
  const rows: PlainRow[] = zeroRow(behind)
  if (reading === 'on-window' && wait !== undefined) {
    rows.push({
      kind: 'plain',
      id: 'settling',
      name: 'settling to half a count',
      unit: 's',
      sense: 'at most',
      worst: behind.needed,
      limit: wait,
      catches: ['E08'],
    })
  }
  if (!pwm) return rows
  const { on, off } = schedule(tasksOf(choice, behind))
  const { frequency, duty } = pwm
  if (on.steps.length > 0 && duty.from < 1) {
    rows.push({
      kind: 'plain',
      id: 'on-window',
      name: 'time for the readings, load on',
      unit: 's',
      sense: 'at most',
      worst: on.shortest,
      limit: duty.from / frequency,
      catches: ['E08'],
    })
  }
  if (off.steps.length > 0) {
    rows.push({
      kind: 'plain',
      id: 'off-window',
      name: 'time for the readings, load off',
      unit: 's',
      sense: 'at most',
      worst: off.shortest,
      limit: (1 - duty.to) / frequency,
      catches: behind.fresh?.inPeriod ? ['E04', 'E08'] : [],
    })
  }
  return rows
}

/** A zero for which the load is held off by itself. */
function zeroRow({ fresh }: Behind): PlainRow[] {
  if (!fresh || fresh.inPeriod || fresh.offTime === undefined) return []
  return [
    {
      kind: 'plain',
      id: 'zero-off',
      name: 'time for the zero reading',
      unit: 's',
      sense: 'at most',
      worst: fresh.takes,
      limit: fresh.offTime,
      catches: ['E04', 'E08'],
    },
  ]
}

function averagedRows({ choice, plan }: RowContext): PlainRow[] {
  const { pwm, power, current, errors } = choice
  if (!pwm) return []
  const { from, to } = pwm.duty
  const I_on = Math.max(Math.abs(current.from), Math.abs(current.to))
  const x = { f_PWM: pwm.frequency, tau_f: plan.behind.tauLeast }
  // The crest is furthest from the mean a little below half duty, the trough as much above: the less the filter averages
  // the more. Or as near to it as the range comes.
  const furthest = f.crestDuty(x)
  const within = (duty: number) => Math.min(Math.max(duty, from), to)
  const ripple = Math.max(
    f.rippleAbove({ ...x, D_PWM: within(furthest) }),
    f.rippleBelow({ ...x, D_PWM: within(1 - furthest) }),
  )
  const rows: PlainRow[] = [
    {
      kind: 'plain',
      id: 'ripple',
      name: 'ripple of the averaged current from its mean',
      unit: 'A',
      sense: 'at most',
      worst: ripple * I_on,
      limit: Math.min(...errors.map(({ allowed }) => allowed)),
      catches: ['E08'],
    },
  ]
  if (power === 'squared reading') {
    const share = errors.filter(({ at }) => at !== 0).map(({ at, allowed }) => allowed / Math.abs(at))
    rows.push({
      kind: 'plain',
      id: 'power',
      name: 'power from the squared mean, over true power',
      unit: '1',
      sense: 'at least',
      worst: f.meanSquareShare({ I_avg: from * I_on, I_on, D_PWM: from }),
      limit: f.leastPowerShare({ e_I: Math.min(...share, 0.5) }),
      catches: ['E09'],
    })
  }
  return rows
}

function samplingRow({ plan: { behind } }: RowContext): PlainRow {
  return {
    kind: 'plain',
    id: 'sampling',
    name: 'settling error after sampling',
    unit: 'LSB',
    sense: 'at most',
    worst: behind.missed,
    limit: 0.5,
    catches: ['D01'],
  }
}
