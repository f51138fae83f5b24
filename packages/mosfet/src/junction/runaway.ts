import { absoluteZero, type Law } from './law.js'
import type { Balance } from './solve.js'

/** How far a board is from runaway and from the rated junction limit, the current held. */
export interface RunawayDistance {
  /** Current of one device at which no temperature balances any more, A; `null` where the law has no such current. */
  readonly current: number | null
  /** Thermal resistance at which no temperature balances any more, K/W; `null` likewise. */
  readonly thermalResistance: number | null
  /** Junction temperature at which that happens, °C; `null` for an asymptote, where it grows without bound. */
  readonly celsius: number | null
}

/** Loss of one device with the current held at `I`: `P = P_0 + s I + D I² R`. */
export interface HeldLoss extends Pick<Balance, 'T_a' | 'R_th' | 'D' | 'R_on'> {
  /** Loss that goes with neither current nor temperature, W. */
  readonly P_0: number
  /** Loss in proportion to the current, V: the edges. */
  readonly s: number
}

/**
 * Current of one device that brings its junction to `celsius`, A: the inverse of the curve of junction against current.
 * 0 where the constant loss alone heats more, `Infinity` where the current doesn't heat (`D` and `s` 0).
 */
export function currentAt({ T_a, R_th, D, R_on, P_0, s }: HeldLoss, law: Law, celsius: number): number {
  const a = D * R_on * law.factor(celsius)
  const c = (celsius - T_a) / R_th - P_0
  if (c <= 0) return 0
  // The root that doesn't cancel.
  return (2 * c) / (s + Math.sqrt(s * s + 4 * a * c))
}

/** Thermal resistance that brings the junction to `celsius` at a held current of one device, K/W. */
export function resistanceAt({ T_a, D, R_on, P_0, s }: HeldLoss, law: Law, I: number, celsius: number): number {
  return (celsius - T_a) / (P_0 + s * I + D * I * I * R_on * law.factor(celsius))
}

/**
 * Where the law has no balance any more: the largest current and the largest thermal resistance over all junction
 * temperatures. A linear law and the end of a curve of points give an asymptote; a power law ends at a finite
 * temperature, earlier.
 *
 * @param I - current of one device at which the thermal resistance is asked for, A
 */
export function runawayDistance(x: HeldLoss, law: Law, I: number): RunawayDistance {
  const { R_th, D, R_on } = x
  const steep = law.lastSlope
  const asymptote = steep > 0 && steep < Number.POSITIVE_INFINITY
  const byCurrent = peak((T) => currentAt(x, law, T), x.T_a, law)
  const byResistance = peak((T) => resistanceAt(x, law, I, T), x.T_a, law)
  const lastCurrent = asymptote ? 1 / Math.sqrt(R_th * D * R_on * steep) : 0
  const lastResistance = asymptote ? 1 / (D * I * I * R_on * steep) : 0
  const current = Math.max(byCurrent.value, lastCurrent)
  const resistance = Math.max(byResistance.value, lastResistance)
  // A factor that never rises has no runaway.
  const endless = steep <= 0 || D === 0
  return {
    current: endless ? null : current,
    thermalResistance: endless || !Number.isFinite(resistance) ? null : resistance,
    celsius: endless || lastCurrent >= byCurrent.value ? null : byCurrent.celsius,
  }
}

/** Largest value over the temperatures above ambient: at a corner of the law, or inside where the law is a power. */
function peak(f: (celsius: number) => number, T_a: number, law: Law): { value: number; celsius: number } {
  let best = { value: 0, celsius: T_a }
  for (const celsius of law.corners) {
    if (celsius > T_a && f(celsius) > best.value) best = { value: f(celsius), celsius }
  }
  if (law.text.kind !== 'power' || law.lastSlope !== Number.POSITIVE_INFINITY) return best
  return goldenSection(f, T_a, (T_a - absoluteZero) * 200 + 1e4)
}

/** Largest value of a function with one hill, by golden section of the logarithm of the rise. */
function goldenSection(f: (celsius: number) => number, from: number, span: number): { value: number; celsius: number } {
  const ratio = (Math.sqrt(5) - 1) / 2
  const at = (u: number) => from + Math.exp(u)
  let [a, b] = [Math.log(1e-3), Math.log(span)]
  let [c, d] = [b - ratio * (b - a), a + ratio * (b - a)]
  let [y, z] = [f(at(c)), f(at(d))]
  for (let i = 0; i < 80; i++) {
    if (y > z) {
      ;[b, d, z] = [d, c, y]
      c = b - ratio * (b - a)
      y = f(at(c))
    } else {
      ;[a, c, y] = [c, d, z]
      d = a + ratio * (b - a)
      z = f(at(d))
    }
  }
  return { value: Math.max(y, z), celsius: at((a + b) / 2) }
}
