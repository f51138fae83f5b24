import type { ReadMosfet } from '../choice.js'
import { lawOf, referenceCelsius } from '../junction/law.js'
import { lowestShare } from './inputs.js'

/** Overdrive of the gate, current for it, and frequency below which the model doesn't go: margins of their own watch the first two. */
const floor = { volts: 0.05, amperes: 10e-6, hertz: 1e-6 } as const

/** Symbols of the inputs that are one number for a choice. */
export type SteadySymbol = keyof ReturnType<typeof steadyOf>

/** The inputs that are one number for a choice, SI units, °C, magnitudes; what a topology doesn't read is 0. */
export function steadyOf({ transistor, drive, wiring, parallel, frequency, switchingShare, ambient }: ReadMosfet) {
  const t = transistor.fields
  const law = lawOf(transistor.law)
  const T_lim = t.junctionMaximumCelsius.lower
  const { T_1: T_3, T_2: T_4, rho_1: rho_3, rho_2: rho_4 } = law.segment(T_lim)
  return {
    n: parallel,
    x_low: lowestShare(transistor),
    f: frequency,
    t_ins: wiring.contactTime.lower,
    a_sw: switchingShare ?? 0,
    T_lim,
    T_25: referenceCelsius,
    T_air: ambient.to,
    ...law.constants,
    T_3,
    T_4,
    rho_3,
    rho_4,
    V_min: floor.volts,
    I_min: floor.amperes,
    f_min: floor.hertz,
    h_FE: drive.spreads.h_FE.lower,
    t_sto: drive.spreads.t_sto.upper,
    R_weak: drive.spreads.R_weak.lower,
    V_weak: drive.spreads.V_weak.upper,
    k_th: t.thresholdFall.upper,
    V_DSmax: t.drainSourceMaximum.lower,
    E_AS: transistor.avalancheEnergy ?? 0,
  }
}
