import type { PlainRow } from '@ohmward/budget'
import { conductorRise } from '../chain/source.js'
import type { RowContext } from './context.js'

/** Whether the sensor's supply stays in its rated range, and its conductor cool enough. */
export function sensorRows({ choice }: RowContext): PlainRow[] {
  const { sensor, sensorSupply, rail, ambient } = choice
  const [lowest, highest] = sensorSupply ? [sensorSupply.lower, sensorSupply.upper] : [rail.from, rail.to]
  const celsius = (end: 'nominal' | 'upper') => ambient.to + conductorRise(choice, end)
  return [
    {
      kind: 'plain',
      id: 'supply-low',
      name: 'lowest sensor supply',
      unit: 'V',
      sense: 'at least',
      worst: lowest,
      limit: sensor.supplyMinimum.upper,
      catches: ['E01'],
    },
    {
      kind: 'plain',
      id: 'supply-high',
      name: 'highest sensor supply',
      unit: 'V',
      sense: 'at most',
      worst: highest,
      limit: sensor.supplyMaximum.lower,
      catches: ['E01'],
    },
    {
      kind: 'plain',
      id: 'conductor',
      name: "temperature of the sensor's conductor",
      unit: 'degC',
      sense: 'at most',
      worst: celsius('upper'),
      limit: sensor.maximumCelsius.lower,
      nominal: celsius('nominal'),
      catches: [],
    },
  ]
}
