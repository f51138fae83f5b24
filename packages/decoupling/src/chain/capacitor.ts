import { chain, type PlaceOf } from '@ohmward/budget'
import type { ReadCapacitor } from '../choice/choice.js'
import {
  agedCapacitance,
  ageing,
  effectiveCapacitance,
  effectiveSeriesInductance,
  effectiveSeriesResistance,
  emptyCapacitance,
  grownResistance,
  hoursOfAge,
  leastAtInsertion,
  mostAtInsertion,
} from '../formulas/index.js'
import { factorAt } from '../waveform/inside.js'

/** What is left of one kind of capacitor: at the rail at rest, and while it charges from 0 V. */
export const capacitorChain = /*#__PURE__*/ chain([
  hoursOfAge,
  ageing,
  agedCapacitance,
  grownResistance,
  effectiveCapacitance,
  effectiveSeriesResistance,
  effectiveSeriesInductance,
  emptyCapacitance,
  mostAtInsertion,
  leastAtInsertion,
])

/** Values of one kind of capacitor by symbol. */
export type CapacitorPlace = PlaceOf<typeof capacitorChain.formulas>

/**
 * What of a series resistance that is stated by its largest value alone damps the plug-in at least. Common practice, no source:
 * typical values are a third to two thirds of the largest.
 */
export const leastOfLargest = 0.3

/** Hours in a year. */
export const hoursPerYear = 8766

/** A place for one kind, with what doesn't change from board to board. */
export function capacitorPlace({ count, fields }: ReadCapacitor): CapacitorPlace {
  const { ageing: a_dec, wornCapacitance, wornResistance, seriesResistance: given } = fields
  return Object.assign(capacitorChain.place(), {
    t_year: hoursPerYear,
    t_ref: 1,
    n_C: count,
    a_dec: a_dec.upper,
    k_worn: wornCapacitance.lower,
    k_dry: wornResistance.upper,
    k_least: given.lower === given.upper ? leastOfLargest : 1,
  })
}

/** Computes what age and temperature leave, in place. */
export function followAge(y: CapacitorPlace, part: ReadCapacitor, celsius: number): void {
  y.k_temp = factorAt(part.temperature, celsius)
  y.k_new = factorAt(part.cold, celsius)
  y.t_age = hoursOfAge(y)
  y.k_dec = ageing(y)
  y.k_life = agedCapacitance(y)
  y.k_cold = grownResistance(y)
}

/** Computes what acts at a voltage of the rail at rest, in place, after {@link followAge}. */
export function followParts(y: CapacitorPlace, part: ReadCapacitor, volts: number): void {
  y.k_bias = factorAt(part.bias, volts)
  y.C = effectiveCapacitance(y)
  y.ESR = effectiveSeriesResistance(y)
  y.L_C = effectiveSeriesInductance(y)
  y.C_e = emptyCapacitance(y)
  y.ESR_new = mostAtInsertion(y)
  y.ESR_e = leastAtInsertion(y)
}
