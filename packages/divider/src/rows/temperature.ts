import { type BlockRow, type ErrorRow, furthestStation, type Reading } from '@ohmward/budget'
import { temperaturePlan } from '../temperature-plan.js'
import type { ReadThermometry } from '../thermometry.js'
import type { RowContext } from './context.js'

/** The temperature that is read out of the load's own resistance. */
export function temperatureRows({ choice, plan }: RowContext): BlockRow[] {
  const { thermometry } = choice
  if (!thermometry) return []
  const { inputs, row, conditions, result } = temperaturePlan(choice, plan, thermometry)
  const { hotCelsius, error, elementTimeConstant, waitAfterOff } = thermometry
  const reading = { inputs, row, conditions, follow: plan.reading, formulas: plan.formulas }
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
      budget: { name: 'T_ind', symbol: 'T_ind', quantity: 'indicated temperature', unit: 'degC' },
      catches: ['C01', 'C02', 'C03', 'C04'],
    },
  ]
  if (elementTimeConstant.upper > 0) {
    rows.push({
      kind: 'plain',
      id: 'equalised',
      name: 'element and body equal after switching off',
      unit: 's',
      sense: 'at most',
      worst: 3 * elementTimeConstant.upper,
      limit: waitAfterOff.lower,
      catches: ['C06'],
    })
  }
  return [...rows, ...hotSpotRow(thermometry, reading, result)]
}

/** The hottest spot of an element, which is hotter than its mean and may be hotter still than that is read. */
function hotSpotRow(
  { restCelsius, hotCelsius, limitCelsius, hotSpotFactor }: ReadThermometry,
  { inputs, row, conditions }: Reading,
  shown: ErrorRow['shown'],
): BlockRow[] {
  if (limitCelsius === undefined) return []
  const T_0 = restCelsius.nominal
  const { extremes } = furthestStation({ inputs, row, conditions }, shown, hotCelsius)
  const error = Math.max(hotCelsius - extremes.lower, extremes.upper - hotCelsius)
  const spot = (mean: number, factor: number) => T_0 + factor * (mean - T_0)
  // What reads too low by a share of the rise is hotter by more than that once it reads the wanted value. A reading that
  // may miss more than half of the rise is none.
  const share = Math.min(error / Math.abs(hotCelsius - T_0), 0.5)
  return [
    {
      kind: 'plain',
      id: 'hot-spot',
      name: 'hottest spot of the element',
      unit: 'degC',
      sense: 'at most',
      worst: spot(hotCelsius + error / (1 - share), hotSpotFactor.upper),
      limit: limitCelsius.lower,
      nominal: spot(hotCelsius, hotSpotFactor.nominal),
      catches: ['C05'],
    },
  ]
}
