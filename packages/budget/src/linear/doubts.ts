import { format } from '@ohmward/quantity'
import { apart } from '../model/apart.js'
import type { Probes } from './probes.js'
import type { Slope } from './slopes.js'

/** Share of u from which a departure is told: beside u it then changes the second digit, or nearly. */
const worthTelling = 0.1

/** How a size is told: in the output's unit, a difference of temperatures in kelvin, or as a bare number where none is known. */
const telling = (unit: string | undefined) => (x: number) =>
  unit === undefined ? String(Number(x.toPrecision(3))) : format(x, apart(unit), { digits: 3 })

/** What the doubts are judged from. */
export interface Evidence {
  readonly slopes: readonly Slope[]
  readonly probes: Probes
  readonly u: number
  readonly secondOrder: number
  readonly nominal: number
  readonly estimate: number
  /** Size of what rounding may do to one evaluation. */
  readonly noise: number
  /** Unit of the output, if it is known. */
  readonly unit?: string | undefined
}

/** Why a linear answer should not be trusted, in sentences. */
export function doubtsOf(
  names: readonly string[],
  { slopes, probes, u, secondOrder, nominal, estimate, noise, unit }: Evidence,
): string[] {
  const short = telling(unit)
  const doubts: string[] = []
  const threshold = worthTelling * u + noise
  slopes.forEach(({ first, second, third, rough, broken }, k) => {
    const name = names[k]!
    const bend = Math.abs(second) / 2
    if (broken !== undefined)
      doubts.push(
        `${name}: no finite result at ${String(Number(broken.toPrecision(3)))}, inside its standard uncertainty`,
      )
    else if (bend > threshold && Math.abs(first) <= 1e-3 * bend) {
      doubts.push(`${name}: no first-order effect at the estimate, yet ±u changes the result by ${short(second / 2)}`)
    } else if (bend > threshold && rough) {
      doubts.push(`${name}: the slope changes abruptly within its standard uncertainty (a kink, a clip or a step)`)
    } else if (Math.abs(third) > threshold) {
      doubts.push(`${name}: the slope over ±u and the slope at the estimate differ, by ${short(third)} in the result`)
    }
    const together = probes.hidden.get(k) ?? 0
    if (together > threshold) {
      doubts.push(`${name}: no effect alone, but up to ${short(together)} together with other inputs`)
    }
  })
  if (probes.broken)
    doubts.push('no finite result where several inputs leave the estimate by their standard uncertainty')
  if (secondOrder > 0.3 * u + noise) {
    doubts.push(`curvature: second-order terms alone give ${short(secondOrder)} beside u = ${short(u)}`)
  }
  const shift = slopes.reduce((sum, { second }) => sum + second / 2, 0)
  if (Math.abs(shift) > threshold) doubts.push(`curvature moves the mean by about ${short(shift)} from the estimate`)
  const odd = Math.sqrt(probes.odd)
  if (odd > threshold) doubts.push(`away from the estimate the result leaves the straight line by ${short(odd)}`)
  if (Math.abs(estimate - nominal) > 0.5 * u + noise) {
    doubts.push(
      `the estimate is ${short(estimate - nominal)} from the result at nominal values: some limits are not symmetric`,
    )
  }
  return doubts
}
