import { type HallChoice, type HallConditions, hall, sensorFields } from '@ohmward/hall'
import { filterTime, plainSourceResistance, sensorTime, sourceResistance } from '@ohmward/hall/formulas'
import { InputError, readSpread, type Spread } from '@ohmward/quantity'

/** What the rail and the path need to know of the current sensor, and its zero. */
export interface ReadSensor {
  readonly supplyMinimum: Spread
  readonly supplyMaximum: Spread
  readonly conductorResistance: Spread
  readonly zeroOutput: Spread
}

/** Reads a field of the sensor. @throws InputError naming the field */
export function sensorSpread(sensor: HallChoice['sensor'], word: keyof ReadSensor | 'sensitivity'): Spread {
  const { symbol: _, meaning: __, ...limits } = sensorFields[word]
  return readSpread(sensor?.[word], { ...limits, field: `hall.sensor.${word}` })
}

/** Reads what the supply and its path need to know of the sensor. @throws InputError naming the field */
export const readSensor = (sensor: HallChoice['sensor']): ReadSensor => ({
  supplyMinimum: sensorSpread(sensor, 'supplyMinimum'),
  supplyMaximum: sensorSpread(sensor, 'supplyMaximum'),
  conductorResistance: sensorSpread(sensor, 'conductorResistance'),
  zeroOutput: sensorSpread(sensor, 'zeroOutput'),
})

/** What of a design the reading of the current hangs on. */
interface Sensing {
  readonly hall: Omit<HallChoice, 'pwm' | 'otherTasks'>
  readonly pwm: NonNullable<HallChoice['pwm']>
  readonly ambientCelsius: HallConditions['ambientCelsius']
}

/**
 * By how much the code of a sensor that follows its supply lies behind that, s at most: sensor, filter and conversion. 0 where neither follows a
 * rail of the design, and where its block refuses it.
 */
export function readSensorLag({ hall: given, pwm, ambientCelsius }: Sensing): number {
  const isStated = given.sensorSupply !== undefined && given.sensorSupply !== 'rail'
  if (given.sensor.output !== 'ratiometric' || isStated) return 0
  try {
    const conditions = { rail: { from: 5, to: 5 }, ambientCelsius }
    const { sensor, filter, divider, converter } = hall.read({ ...given, otherTasks: [], pwm }, conditions)
    const [R_o, R_filt] = [sensor.outputResistance.upper, filter.resistance.upper]
    const R_src = divider
      ? sourceResistance({ R_o, R_t: divider.top.upper, R_b: divider.bottom.upper, R_filt })
      : plainSourceResistance({ R_o, R_filt })
    const tau_f = filterTime({ R_src, C_f: filter.capacitance.upper })
    return sensorTime({ BW_s: sensor.bandwidth.lower }) + tau_f + converter.spreads.t_conv.upper
  } catch (error) {
    if (error instanceof InputError) return 0
    throw error
  }
}
