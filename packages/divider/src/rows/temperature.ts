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

const spotText = {
  id: 'hot-spot',
  name: 'hottest spot of the element',
  unit: 'degC',
  sense: 'at most',
  catches: ['C05'],
} as const

/** The hottest spot of an element, which is hotter than its mean and may be hotter still than that is read. */
function hotSpotRow(thermometry: ReadThermometry, station: () => Station<string>): BlockRow[] {
  const limit = thermometry.limitCelsius?.lower
  if (limit === undefined) return []
  return [{ kind: 'own', ...spotText, hold: () => hotSpotMargin(thermometry, limit, station()) }]
}

/** What is looked at of the conditions at which a reading is furthest off. */
type HeldStation = Pick<Station<string>, 'doubts'> & {
  readonly extremes: Pick<Station<string>['extremes'], 'lower' | 'upper' | 'reasons' | 'doubt'>
}

/**
 * The hottest spot once the wanted temperature is read, by how far the reading may be from it.
 *
 * @param limit - hottest that a spot may be, °C
 * @param station - lowest and highest reading at the wanted temperature, °C, and what is in doubt about them
 */
export function hotSpotMargin(
  { restCelsius, hotCelsius, hotSpotFactor }: ReadThermometry,
  limit: number,
  { extremes: { lower, upper, reasons, doubt }, doubts }: HeldStation,
): Margin {
  const rise = Math.abs(hotCelsius - restCelsius.nominal)
  const spot = (mean: number, factor: number) => restCelsius.nominal + factor * (mean - restCelsius.nominal)
  // What reads too low by a share of the rise is hotter by more than that once it reads the wanted value.
  const worstAt = (error: number) => spot(hotCelsius + error / (1 - Math.min(error / rise, 0.5)), hotSpotFactor.upper)
  const error = Math.max(hotCelsius - lower, upper - hotCelsius)
  const margin = plainMargin(spotText, worstAt(error), limit, spot(hotCelsius, hotSpotFactor.nominal))
  if (margin.verdict !== 'holds') return margin
  // A doubt has a size, and counts as if the reading missed so much more.
  const atMost = error + (doubt ?? Infinity)
  if (doubts.length === 0 && atMost <= rise / 2 && worstAt(atMost) <= limit) return margin
  const blind = 'a reading that may miss more than half of the rise says nothing of the hottest spot'
  return { ...margin, verdict: 'not sure', reason: [...doubts, ...reasons].join('; ') || blind }
}
