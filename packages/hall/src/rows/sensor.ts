import { type Margin, plainMargin } from '@ohmward/budget'
import { conductorRise } from '../chain/source.js'
import type { ReadChoice } from '../choice/index.js'
import { remedies } from './remedies.js'
import { text } from './text.js'

/** Whether the sensor's supply stays in its rated range. */
export function supplyMargins({ sensor, sensorSupply, rail }: ReadChoice): Margin[] {
  const [lowest, highest] = sensorSupply ? [sensorSupply.lower, sensorSupply.upper] : [rail.from, rail.to]
  return [
    plainMargin(
      text('supply-low', 'sensor above its lowest supply', 'V', 'at least', ['E01'], remedies.supply),
      lowest,
      sensor.supplyMinimum.upper,
    ),
    plainMargin(
      text('supply-high', 'sensor below its highest supply', 'V', 'at most', ['E01'], remedies.supplyHigh),
      highest,
      sensor.supplyMaximum.lower,
    ),
  ]
}

/** Whether the sensor's conductor stays cool enough. */
export function conductorMargin(choice: ReadChoice): Margin {
  const { ambient, sensor } = choice
  const celsius = (end: 'nominal' | 'upper') => ambient.to + conductorRise(choice, end)
  return plainMargin(
    text('conductor', "temperature of the sensor's conductor", 'degC', 'at most', [], remedies.conductor),
    celsius('upper'),
    sensor.maximumCelsius.lower,
    celsius('nominal'),
  )
}
