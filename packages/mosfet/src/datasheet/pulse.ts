import { latePulsePower, pulsePowerBetween } from '../formulas/curves.js'

/** One point of the safe operating area: power of a single pulse, case at 25 °C, at the voltage of the application. */
export interface SafePulse {
  readonly seconds: number
  readonly watts: number
}

/**
 * Power allowed for a single pulse of `seconds`, W: straight in both logarithms between the points. A shorter pulse than
 * the first gets no more than it; a longer one than the last gets the last one's energy, no more.
 */
export function safePulsePower(points: readonly SafePulse[], seconds: number): number {
  const first = points[0]!
  const last = points[points.length - 1]!
  if (seconds <= first.seconds) return first.watts
  if (seconds >= last.seconds) {
    return latePulsePower({ P_2: last.watts, t_2: last.seconds, t_p: seconds })
  }
  let i = 1
  while (points[i]!.seconds < seconds) i++
  const a = points[i - 1]!
  const b = points[i]!
  return pulsePowerBetween({ P_1: a.watts, P_2: b.watts, t_1: a.seconds, t_2: b.seconds, t_p: seconds })
}
