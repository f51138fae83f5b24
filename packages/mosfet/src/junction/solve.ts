import type { Law } from './law.js'

/** Heat balance of one junction. `n` devices share: each carries the nth part of the current. */
export interface Balance {
  /** Ambient, °C. */
  readonly T_a: number
  /** Thermal resistance of one device, junction to ambient, K/W; or the effective impedance of a burst. */
  readonly R_th: number
  /** Loss that doesn't change with temperature, of one device, W. */
  readonly P_0: number
  /** Share of the time in which it conducts. */
  readonly D: number
  /** Cold on-resistance of one device, ohm. */
  readonly R_on: number
  /** Current of one device is `V / (r + k R)`: source voltage, resistance of the circuit seen by one device, and `k` = 1. */
  readonly V: number
  readonly r: number
  /** 1 for a resistive load, 0 where the current is held: then it is `V / r`. */
  readonly k: 0 | 1
}

/** What a junction does. */
export type Junction =
  | {
      readonly kind: 'balance'
      /** Junction temperature, °C: the lowest that balances, the one that a cold start comes to. */
      readonly T_j: number
      /** How many kelvin of heating one kelvin of junction causes; 1 is the edge of runaway. */
      readonly loopGain: number
    }
  | { readonly kind: 'runaway'; readonly reason: string }

/** Above this no silicon transistor is one: a balance found there would be a number without meaning. °C. */
export const siliconEnd = 500

/** Loss of one device with its junction at `celsius`, W. */
export function lossAt({ P_0, D, R_on, V, r, k }: Balance, law: Law, celsius: number): number {
  const R = R_on * law.factor(celsius)
  const I = V / (r + k * R)
  return P_0 + D * I * I * R
}

/**
 * Junction temperature in balance, `T = T_a + R_th P(T)`: the lowest root, or runaway with its reason.
 *
 * It climbs from the ambient by steps that no root can hide in. Over a step the heating grows at least by the smallest
 * slope there; the straight line of that slope can't meet `T` later than the heating does. So the first root met is the
 * lowest. With a held current it also knows that there is none: once a kelvin heats by more than a kelvin, with no
 * corner of the law ahead, it always will. Ends with a residual below 1e-12 relative.
 */
export function solveJunction(x: Balance, law: Law): Junction {
  const { T_a, R_th, P_0, D, R_on, V, r, k } = x
  const scale = R_th * D * V * V * R_on
  const base = T_a + R_th * P_0
  const corners = law.corners
  let corner = 0
  let T = T_a
  for (let step = 0; step < 500; step++) {
    const rho = law.factor(T)
    const R = R_on * rho
    const s = r + k * R
    const gap = base + (scale * rho) / (s * s) - T
    // Per kelvin of slope of the factor, how much the heating changes.
    const gainHere = (scale * (r - k * R)) / (s * s * s)
    const slopeHere = law.slope(T, rho)
    const gain = gainHere * slopeHere
    if (gap <= 1e-13 * (Math.abs(T) + 1)) return found(T, gain)
    while (corner < corners.length && corners[corner]! <= T) corner++
    const isLast = corner === corners.length
    // From here on the heating of a held current only steepens, so it never meets the temperature again.
    if (k === 0 && isLast && gain >= 1) return { kind: 'runaway', reason: endless }
    if (k === 1 && T > siliconEnd) return { kind: 'runaway', reason: tooHot() }
    // A first proposal, no further than the next corner of the law.
    const proposal = gain < 1 ? T + gap / (1 - gain) : T + 2 * gap + 10
    const far = k === 1 ? Math.min(proposal, siliconEnd + 1) : proposal
    const end = isLast ? far : Math.min(far, corners[corner]!)
    const rhoEnd = law.factor(end)
    const slopeEnd = end === far ? law.slope(end, rhoEnd) : slopeHere
    const least = smallestGain(scale, r, k, R, R_on * rhoEnd, gainHere)
    const slope = least < 0 ? Math.max(slopeHere, slopeEnd) : Math.min(slopeHere, slopeEnd)
    const m = least * slope
    const next = m < 1 ? Math.min(end, T + gap / (1 - m)) : end
    // Where rounding stops the climb, this is the root.
    if (next <= T) return found(T, gain)
    T = next
  }
  return { kind: 'runaway', reason: tooHot() }
}

const endless = 'no balance at any temperature: every kelvin adds more heat than the board carries off'
const tooHot = () => `the balance would lie above ${siliconEnd} °C, where no silicon transistor works`

const found = (T_j: number, loopGain: number): Junction =>
  T_j > siliconEnd ? { kind: 'runaway', reason: tooHot() } : { kind: 'balance', T_j, loopGain }

/** Smallest change of heating per unit of the factor between two resistances. */
function smallestGain(scale: number, r: number, k: 0 | 1, R: number, R_end: number, here: number): number {
  if (k === 0) return here
  const s = r + R_end
  const there = (scale * (r - R_end)) / (s * s * s)
  const least = Math.min(here, there)
  // The steepest fall lies at R = 2 r.
  return R < 2 * r && R_end > 2 * r ? Math.min(least, -scale / (27 * r * r)) : least
}
