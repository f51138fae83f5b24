import { demand, demandFinite, demandSpread, type Spread } from '@ohmward/quantity'
import { chargeAt } from '../cell/charge.js'
import type { ReadCell } from '../cell/fields.js'
import { cutOffAboveReset, hysteresisSlack, rebound, restAtCutOff } from '../formulas/cut-off.js'
import { demandNames } from '../names.js'
import { spreadOf } from '../spread-of.js'
import { demandCell } from '../taken.js'

/** A cut-off as the firmware has it, the source and the load around it. */
export interface CutOffSpec {
  /** Threshold with all the error of its reading, V, of all cells in series. */
  readonly threshold: Spread
  /**
   * What is held against it: the rail at rest, the rail under load, or the rail under load to which `current` times
   * `resistance`, as the firmware takes them, were added.
   */
  readonly reads: 'at rest' | 'under load' | { readonly current: number; readonly resistance: number }
  /** Load current, A, and source resistance, ohm, as they are. */
  readonly current: Spread
  readonly resistance: Spread
  /** How far above the threshold it switches on again, V. */
  readonly hysteresis: Spread
  /** Noise of the reading, V; none by default. */
  readonly noise?: number
  /** Brown-out threshold of the controller on this rail, V. */
  readonly brownOut: Spread
}

/** Where a cut-off stops the discharge, at rest, and what it has left on every side; worst cases, V. */
export interface CutOff {
  /** Open-circuit voltage at which it acts, V. */
  readonly rest: Spread
  /** State of charge then. */
  readonly charge: Spread
  /** How far the rail comes back when the load is off, V. */
  readonly rebound: Spread
  /** What the hysteresis has left above rebound and noise; below 0 it switches on and off again and again. Pitfall K04. */
  readonly hysteresisSlack: number
  /** Loaded rail at the cut-off above the highest brown-out; below 0 the controller resets first. Pitfall K06. */
  readonly aboveReset: number
  /** Voltage at rest above the cells' damage voltage. Pitfall K05. */
  readonly aboveDamage: number
  /**
   * By how much the resistance that the firmware makes up for is below the least real one, ohm; below 0 the sag is
   * over-corrected and the cells go too low. `null` where it makes up for nothing. Pitfall K05.
   */
  readonly compensationSlack: number | null
}

/** Where a cut-off stops the discharge, at rest, and what it has left on every side. Pitfalls K04, K05, K06. @throws InputError where the cell is none, or a value of the cut-off isn't what it must be */
export function cutOffAt(cell: ReadCell, spec: CutOffSpec): CutOff {
  demandCell(cell)
  demandSpec(spec)
  const { threshold: V_thr, reads, current: I_L, resistance: R_s, hysteresis: V_hys, brownOut: V_bod } = spec
  const used = typeof reads === 'object' ? reads : { current: 0, resistance: 0 }
  const acting = reads === 'at rest' ? { I_L: 0, R_s: 0 } : { I_L, R_s }
  const rest = spreadOf(restAtCutOff, { V_thr, I_use: used.current, R_use: used.resistance, ...acting })
  const V_reb = spreadOf(rebound, { I_L, R_s })
  const one = (volts: number) => chargeAt(cell, Math.min(10, Math.max(0, volts / cell.inSeries)))
  const [low, high] = [one(rest.lower).lower, one(rest.upper).upper]
  const nominal = one(rest.nominal).nominal
  return {
    rest,
    charge: { nominal, lower: low, upper: high, distribution: { kind: low === high ? 'exact' : 'rectangular' } },
    rebound: V_reb,
    hysteresisSlack: spreadOf(hysteresisSlack, { V_hys, V_reb, V_noise: spec.noise ?? 0 }).lower,
    aboveReset: aboveReset(spec, used, V_bod),
    aboveDamage: rest.lower - cell.damageVoltage * cell.inSeries,
    compensationSlack: typeof reads === 'object' ? R_s.lower - used.resistance : null,
  }
}

function demandSpec(spec: CutOffSpec): void {
  demandNames(spec, 'spec', ['threshold', 'reads', 'current', 'resistance', 'hysteresis', 'brownOut'], ['noise'])
  for (const name of ['threshold', 'current', 'resistance', 'hysteresis', 'brownOut'] as const)
    demandSpread(spec[name], name)
  const { reads, noise = 0 } = spec
  demandFinite('noise', noise)
  if (reads === 'at rest' || reads === 'under load') return
  const ways = '"at rest", "under load", or current and resistance'
  demand(typeof reads === 'object' && reads !== null, { field: 'reads', value: reads, allowed: ways })
  demandNames(reads, 'reads', ['current', 'resistance'])
  demandFinite('reads.current', reads.current)
  demandFinite('reads.resistance', reads.resistance)
}

/** Under load the reading is the rail itself: source and load cancel. */
function aboveReset(
  { threshold: V_thr, reads, current: I_L, resistance: R_s }: CutOffSpec,
  used: { readonly current: number; readonly resistance: number },
  V_bod: Spread,
): number {
  if (reads === 'at rest') return spreadOf(cutOffAboveReset, { V_stop: V_thr, I_L, R_s, V_bod }).lower
  const { current, resistance } = used
  return spreadOf(cutOffAboveReset, { V_stop: V_thr, I_L: current, R_s: resistance, V_bod }).lower
}
