import { type HallChoice, sensorFields } from '@ohmward/hall'
import { readSpread, type Spread } from '@ohmward/quantity'

/** What the rail and the path need to know of the current sensor. */
export interface ReadSensor {
  readonly supplyMinimum: Spread
  readonly supplyMaximum: Spread
  readonly conductorResistance: Spread
}

/** Reads a field of the sensor. @throws InputError naming the field */
export function sensorSpread(
  sensor: HallChoice['sensor'],
  word: keyof ReadSensor | 'sensitivity' | 'zeroOutput',
): Spread {
  const { symbol: _, meaning: __, ...limits } = sensorFields[word]
  return readSpread(sensor?.[word], { ...limits, field: `hall.sensor.${word}` })
}

/** Reads what the supply and its path need to know of the sensor. @throws InputError naming the field */
export const readSensor = (sensor: HallChoice['sensor']): ReadSensor => ({
  supplyMinimum: sensorSpread(sensor, 'supplyMinimum'),
  supplyMaximum: sensorSpread(sensor, 'supplyMaximum'),
  conductorResistance: sensorSpread(sensor, 'conductorResistance'),
})
