import { demandNumber, format } from '@ohmward/quantity'
import {
  dutyForPower,
  largestPower,
  largestResistorPower,
  limitedRail,
  loadedRail,
  meanCurrent,
  meanPower,
  powerCurrent,
  resistorCurrent,
} from '../formulas/load.js'
import { demandCorner, demandLoad } from '../given.js'
import type { SourceCorner } from './at.js'

/** One load in plain numbers. */
export type LoadCorner =
  | { readonly kind: 'resistance'; readonly R_L: number }
  | { readonly kind: 'pwm'; readonly R_L: number; readonly d_on: number }
  | { readonly kind: 'power'; readonly P_L: number }
  | { readonly kind: 'current'; readonly I_set: number }

/** What a load draws: solved, never assumed. */
export interface Solved {
  readonly kind: 'possible'
  /** Current while it is on, A. */
  readonly current: number
  /** Mean current, A: less in PWM. */
  readonly mean: number
  /** Rail while it is on, V. */
  readonly rail: number
  /** Mean power in the load, W. */
  readonly power: number
  /** Whether the source holds its current at its limit. */
  readonly isLimited: boolean
}

/** A load that the source can't feed, and what it can. */
export interface Unsolved {
  readonly kind: 'impossible'
  readonly reason: string
  /** Largest power that it gives, W. */
  readonly largestPower: number
}

/** Current and rail of a load on one source. Pitfalls K01, K02. @throws InputError where the source or the load is none */
export function solveLoad(source: SourceCorner, load: LoadCorner): Solved | Unsolved {
  demandCorner(source)
  demandLoad(load)
  switch (load.kind) {
    case 'resistance':
      return withResistor(source, load.R_L, 1)
    case 'pwm':
      return withResistor(source, load.R_L, load.d_on)
    case 'power':
      return withPower(source, load.P_L)
    case 'current':
      return withCurrent(source, load.I_set)
  }
}

/** Duty that puts a mean power into a resistance, or how much can get there at most. Pitfall K02. @throws InputError where the source is none, or a number isn't allowed */
export function dutyFor(
  source: SourceCorner,
  R_L: number,
  P_L: number,
): { readonly kind: 'possible'; readonly duty: number } | Unsolved {
  demandCorner(source)
  demandNumber(R_L, { field: 'R_L', unit: 'ohm', min: 1e-12, max: 1e9 })
  demandNumber(P_L, { field: 'P_L', unit: 'W', min: 0, max: 1e9 })
  const full = withResistor(source, R_L, 1)
  const duty = dutyForPower({ P_L, P_full: full.power })
  if (duty <= 1) return { kind: 'possible', duty }
  return tooMuch(`${watts(P_L)} in ${format(R_L, 'ohm', { digits: 3 })}`, full.power)
}

/** Largest power of a source into any load, its current limit included, W. Pitfall K02. @throws InputError where the source is none */
export function powerLimit(source: SourceCorner): number {
  demandCorner(source)
  const { V_oc, R_s, I_lim } = source
  const matched = R_s > 0 ? largestPower({ V_oc, R_s }) : Number.MAX_VALUE
  if (I_lim === undefined || 2 * I_lim * R_s >= V_oc) return matched
  return I_lim * loadedRail({ V_oc, I_L: I_lim, R_s })
}

function withResistor(source: SourceCorner, R_L: number, d_on: number): Solved {
  const { V_oc, R_s, I_lim } = source
  const wanted = resistorCurrent({ V_oc, R_s, R_L })
  if (I_lim !== undefined && wanted > I_lim) return solved(I_lim, limitedRail({ I_lim, R_L }), d_on, true)
  if (d_on === 1) {
    const power = largestResistorPower({ V_oc, R_s, R_L })
    return { ...solved(wanted, loadedRail({ V_oc, R_s, I_L: wanted }), 1, false), power }
  }
  return solved(wanted, loadedRail({ V_oc, R_s, I_L: wanted }), d_on, false)
}

function withPower(source: SourceCorner, P_L: number): Solved | Unsolved {
  const most = powerLimit(source)
  // At the very limit rounding would make the root complex.
  if (P_L > most * (1 - 1e-12)) return tooMuch(watts(P_L), most)
  const { V_oc, R_s } = source
  const I_L = powerCurrent({ V_oc, R_s, P_L })
  return solved(I_L, loadedRail({ V_oc, R_s, I_L }), 1, false)
}

function withCurrent(source: SourceCorner, I_set: number): Solved | Unsolved {
  const { V_oc, R_s, I_lim } = source
  const rail = loadedRail({ V_oc, R_s, I_L: I_set })
  if (rail > 0 && !(I_lim !== undefined && I_set > I_lim)) return solved(I_set, rail, 1, false)
  const limit = rail > 0 ? `the source limits at ${amperes(I_lim!)}` : 'nothing is left of the voltage'
  const reason = `The load asks for ${amperes(I_set)}: ${limit}`
  return { kind: 'impossible', reason, largestPower: powerLimit(source) }
}

const solved = (current: number, rail: number, d_on: number, isLimited: boolean): Solved => ({
  kind: 'possible',
  current,
  mean: meanCurrent({ I_L: current, d_on }),
  rail,
  power: meanPower({ I_L: current, V_rail: rail, d_on }),
  isLimited,
})

const tooMuch = (what: string, most: number): Unsolved => ({
  kind: 'impossible',
  reason: `The load asks for ${what}: the source gives at most ${watts(most)}`,
  largestPower: most,
})

const watts = (value: number): string => format(value, 'W', { digits: 3 })
const amperes = (value: number): string => format(value, 'A', { digits: 3 })
