import { type BlockRow, furthestStation, type Margin, plainMargin, type Station } from '@ohmward/budget'
import type { ReadThermometry } from '../thermometry/fields.js'
import { temperaturePlan } from '../thermometry/plan.js'
import type { RowContext } from './context.js'

/** The temperature that is read out of the load's own resistance. */
export function temperatureRows({ choice, plan }: RowContext): BlockRow[] {
  const { thermometry } = choice
  if (!thermometry) return []
  const { inputs, row, conditions, result } = temperaturePlan(choice, plan, thermometry)
  const { hotCelsius, error, elementTimeConstant, waitAfterOff } = thermometry
  const reading = { inputs, row, conditions, follow: plan.reading, formulas: plan.formulas }
  const station = once(() => furthestStation({ inputs, row, conditions }, result, hotCelsius))
  const rows: BlockRow[] = [
    {
      kind: 'error',
      id: 'temperature',
      name: 'error of the temperature',
      unit: 'K',
      sense: 'at most',
      reading,
      shown: result,
      truth: hotCelsius,
      allowed: error.lower,
      station,
      budget: { name: 'T_ind', symbol: 'T_ind', quantity: 'indicated temperature', unit: 'degC' },
      catches: ['C01', 'C02', 'C03', 'C04'],
    },
  ]
  if (elementTimeConstant.upper > 0) {
    rows.push({
      kind: 'plain',
      id: 'equalised',
      name: 'time for element and body to equalise',
      unit: 's',
      sense: 'at most',
      worst: 3 * elementTimeConstant.upper,
      limit: waitAfterOff.lower,
      catches: ['C06'],
    })
  }
  return [...rows, ...hotSpotRow(thermometry, station)]
}

/** A value that is found when it is first asked for. */
function once<T extends object>(find: () => T): () => T {
  let found: T | undefined
  return () => {
    found ??= find()
    return found
  }
}

/** The hottest spot of an element, which is hotter than its mean and may be hotter still than that is read. */
function hotSpotRow(
  { restCelsius, hotCelsius, limitCelsius, hotSpotFactor }: ReadThermometry,
  station: () => Station<string>,
): BlockRow[] {
  if (limitCelsius === undefined) return []
  const T_0 = restCelsius.nominal
  const spot = (mean: number, factor: number) => T_0 + factor * (mean - T_0)
  const text = {
    id: 'hot-spot',
    name: 'hottest spot of the element',
    unit: 'degC',
    sense: 'at most',
    catches: ['C05'],
  } as const
  const hold = (): Margin => {
    const { lower, upper, verdict, reasons, doubt } = station().extremes
    const error = Math.max(hotCelsius - lower, upper - hotCelsius)
    // What reads too low by a share of the rise is hotter by more than that once it reads the wanted value. A reading
    // that may miss more than half of the rise is none.
    const share = Math.min(error / Math.abs(hotCelsius - T_0), 0.5)
    const worst = spot(hotCelsius + error / (1 - share), hotSpotFactor.upper)
    const margin = plainMargin(text, worst, limitCelsius.lower, spot(hotCelsius, hotSpotFactor.nominal))
    const isSure = verdict === 'sure' || (doubt !== null && 2 * hotSpotFactor.upper * doubt <= margin.slack)
    return isSure || margin.verdict !== 'holds'
      ? margin
      : { ...margin, verdict: 'not sure', reason: reasons.join('; ') }
  }
  return [{ kind: 'own', ...text, hold }]
}
