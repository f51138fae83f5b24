import * as f from '../formulas/index.js'
import type { ReadChoice } from '../read-choice.js'

/** Source resistance before the converter, every part at its limit. */
export function sourceAt({ sensor, filter, divider }: ReadChoice, end: 'lower' | 'upper'): number {
  const R_o = sensor.outputResistance[end]
  const R_filt = filter.resistance[end]
  return divider
    ? f.sourceResistance({ R_o, R_t: divider.top[end], R_b: divider.bottom[end], R_filt })
    : f.plainSourceResistance({ R_o, R_filt })
}

/** Largest time constants of filter and sensor, every part at its limit. */
export const slowestOf = (choice: ReadChoice): Readonly<Record<'tau_f' | 'tau_s', number>> => ({
  tau_f: f.filterTime({ R_src: sourceAt(choice, 'upper'), C_f: choice.filter.capacitance.upper }),
  tau_s: f.sensorTime({ BW_s: choice.sensor.bandwidth.lower }),
})

/** How much warmer than its air the largest current makes the sensor's conductor, and the sensor with it. */
export function conductorRise({ current, pwm, sensor }: ReadChoice, end: 'nominal' | 'upper'): number {
  const I_max = Math.max(Math.abs(current.from), Math.abs(current.to))
  const I_rms = f.rmsCurrent({ I_max, D_PWM: pwm?.duty.to ?? 1 })
  const P_c = f.conductorLoss({ I_rms, R_c: sensor.conductorResistance[end] })
  return f.conductorTemperature({ T_d: 0, R_thc: sensor.conductorThermalResistance[end], P_c })
}
