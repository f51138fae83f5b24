import { demand, demandSpread, exact, type Spread } from '@ohmward/quantity'
import { clampCurrent, pinOverdrive } from '../formulas/hold-up.js'
import { spreadOf } from '../spread-of.js'
import { atLeast } from './diode.js'

/** A pin on one rail that is driven from another. */
export interface PinAt {
  /** How far it is driven beyond its own rail and the clamp's threshold, V; not above 0 where it is not. */
  readonly overdrive: Spread
  /** Current into the clamp, A. */
  readonly current: Spread
}

/**
 * A pin that is driven from a higher rail than its own: a raw rail against one behind a diode, or a divider whose lower end
 * is switched off. Pitfalls J06, K08.
 *
 * @param driven - voltage that drives it, V
 * @param own - rail of the pin, V
 * @param series - resistance between the two, more than 0 ohm
 * @param clamp - from where on its clamp conducts, V; 0.3 V by default
 * @throws InputError where one is no spread, or nothing stands in series
 */
export function pinAt(driven: Spread, own: Spread, series: Spread, clamp = exact(0.3)): PinAt {
  demandSpread(driven, 'driven')
  demandSpread(own, 'own')
  demandSpread(series, 'series')
  demandSpread(clamp, 'clamp')
  const { lower } = series
  demand(lower > 0, { field: 'series', value: lower, unit: 'ohm', allowed: 'more than 0 ohm' })
  const overdrive = spreadOf(pinOverdrive, { V_pin: driven, V_log: own, V_clamp: clamp })
  return { overdrive, current: spreadOf(clampCurrent, { V_over: atLeast(overdrive, 0), R_ser: series }) }
}
