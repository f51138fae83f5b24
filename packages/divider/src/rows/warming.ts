import { type BlockRow, type ErrorRow, holdRow, type Margin, relativeSlack, type Values } from '@ohmward/budget'
import type { ReadChoice } from '../choice.js'
import { loadWarming } from '../formulas/index.js'
import { allowedShare } from './allowed.js'
import type { RowContext } from './context.js'

/** Growth of a load beyond which what warms it grows with it as fast: told as ten times what it is at first. */
const runaway = 0.9

/** Warming by the test current at the values of a reading, K. */
function warmingOf({ load, timing }: ReadChoice): (y: Values<string>) => number {
  const R_thx = load.thermalResistance.upper
  const tau_x = R_thx * load.heatCapacity.lower
  // A pulse of no length into no heat capacity has no answer: take that for a pulse that heats in full.
  const t_wait = timing.wait.upper || Number.MIN_VALUE
  return (y) => loadWarming({ I_t: y['I_t']!, R_x: y['R_x']!, R_thx, d_m: y['d_m']!, t_wait, tau_x })
}

/**
 * How much the test current changes the load by heating it: by itself, and with the error of the reading on the same board. What is
 * shown is the warm load, and the one that is wanted is cold.
 *
 * @param errors - the errors that are held
 */
export function warmingRows({ choice, plan, reading }: RowContext, errors: readonly ErrorRow[]): BlockRow[] {
  const { load, reference } = choice
  const { from, to, temperatureCoefficient: alpha } = load
  const limit = allowedShare(choice)
  const most = Math.max(Math.abs(alpha.lower), Math.abs(alpha.upper))
  if (!(most > 0 && load.thermalResistance.upper > 0 && Number.isFinite(limit))) return []
  const warming = warmingOf(choice)
  const warmed = (row: ErrorRow, share: number): ErrorRow => {
    const { fill: _, ...rest } = row
    const shown: ErrorRow['shown'] = (x) => {
      const y = plan.reading(x)
      const grown = share * warming(y)
      // A load that grows takes more of the heat, at a current that hardly falls.
      const more = grown > 0 ? (grown < runaway ? grown / (1 - grown) : 10 * grown) : grown
      return plan.correct(y['R_ind']!) * (1 + more)
    }
    return { ...rest, shown }
  }
  const shares = [alpha.lower, alpha.upper].filter((share, k, all) => share !== 0 && all.indexOf(share) === k)
  const text = {
    id: 'error-warmed',
    name: 'error with the load as warm as the test current makes it',
    unit: 'ohm',
    sense: 'at most',
    catches: ['B06'],
  } as const
  return [
    {
      kind: 'limit',
      id: 'warming',
      name: 'change of the load by the test current, relative',
      unit: '1',
      sense: 'at most',
      reading,
      // The power in the load is largest where it equals the rest of the loop.
      at: { R_x: Math.min(Math.max(reference.nominal, from), to) },
      value: (y) => most * warming(y),
      limit,
      catches: ['B06'],
    },
    {
      kind: 'own',
      ...text,
      causes: ['warming', ...errors.map(({ id }) => id)],
      hold: (rule) => {
        const margins = errors.flatMap((row) => shares.map((share) => holdRow(warmed(row, share), rule).margin))
        return { ...margins.reduce(tighter), ...text }
      },
    },
  ]
}

const tighter = (a: Margin, b: Margin): Margin => (relativeSlack(b) < relativeSlack(a) ? b : a)
