import { demandSpread, exact, type Spread } from '@ohmward/quantity'
import { emissionCoefficient, forwardVoltage, thermalVoltage } from '../formulas/diode.js'
import { demandCelsius, demandThrough } from '../given.js'
import { spreadOf } from '../spread-of.js'
import type { Diode } from './fields.js'

/** Boltzmann constant, J/K, exact in the SI since 2019. */
const k_B = 1.380649e-23

/** Elementary charge, C, exact in the SI since 2019. */
const q_e = 1.602176634e-19

/** Below this current a forward voltage is that of this current: a diode never drops less than nothing. */
const leastCurrent = 1e-9

const thermal = (celsius: number): number => thermalVoltage({ k_B, T_abs: celsius + 273.15, q_e })

/** Forward voltage of a diode at a current and its temperature, V; at least 0. Pitfalls J05, J06. */
export function forwardOf(diode: Diode, current: Spread, celsius: number): Spread {
  demandThrough(diode, 'diode')
  demandSpread(current, 'current')
  demandCelsius(celsius)
  const { forwardVoltage: V_f0, forwardAt: I_f0, drift: k_f } = diode
  const found = spreadOf(forwardVoltage, {
    V_f0,
    n_f: emissionOf(diode),
    V_T: thermal(celsius),
    I_f: atLeast(current, leastCurrent),
    I_f0,
    k_f,
    dT_f: celsius - 25,
  })
  return atLeast(found, 0)
}

function emissionOf({ emission, forwardVoltage: V_f0, forwardAt: I_f0, secondVoltage, secondAt }: Diode): Spread {
  if (secondVoltage === undefined || secondAt === undefined) return emission
  const at = { V_f0: V_f0.nominal, V_f1: secondVoltage, V_T: thermal(25), I_f0, I_f1: secondAt }
  return exact(emissionCoefficient(at))
}

/** A spread whose values stay at or above a floor. */
export function atLeast(spread: Spread, floor: number): Spread {
  if (spread.lower >= floor) return spread
  const [lower, nominal, upper] = [spread.lower, spread.nominal, spread.upper].map((value) => Math.max(value, floor))
  if (lower === upper) return exact(floor)
  return { nominal: nominal!, lower: lower!, upper: upper!, distribution: { kind: 'rectangular' } }
}
