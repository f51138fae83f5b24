import type { Evaluate } from './complex.js'
import type { Branch, Feed, Network } from './parts.js'
import { reals } from './reals.js'

/**
 * Sum of all admittances, brought to one denominator, from the constant upwards: every coefficient is a sum of positive terms, so
 * none loses digits. The first is 0 where nothing but capacitors fixes the level.
 */
export function characteristic({ feed, branches, conductance }: Network): number[] {
  if (branches.length === 1) return trimmed(ofOneBranch(feed, branches[0]!, conductance))
  const isHeld = 'current' in feed
  const size = 2 + 2 * branches.length
  const above = reals(size)
  const below = reals(size)
  for (let k = 0; k < size; k++) above[k] = below[k] = 0
  below[0] = isHeld ? 1 : feed.resistance
  below[1] = isHeld ? 0 : feed.inductance
  above[0] = conductance * below[0] + (isHeld ? 0 : 1)
  above[1] = conductance * below[1]
  for (let n = 0; n < branches.length; n++) {
    // N/D + s·C/(1 + s·R·C + s²·L·C), in place from the top downwards.
    const C = branches[n]!.capacitance
    const first = branches[n]!.resistance * C
    const second = branches[n]!.inductance * C
    for (let k = 3 + 2 * n; k > 1; k--) {
      above[k]! += first * above[k - 1]! + second * above[k - 2]! + C * below[k - 1]!
    }
    above[1] += first * above[0] + C * below[0]
    for (let k = 3 + 2 * n; k > 1; k--) below[k]! += first * below[k - 1]! + second * below[k - 2]!
    below[1] += first * below[0]
  }
  return trimmed(above)
}

function trimmed(a: number[]): number[] {
  while (a.length > 1 && a[a.length - 1] === 0) a.pop()
  return a
}

/** The characteristic polynomial from its factors, which keep their digits near their own zeros; over `s` where it floats. */
export function evaluator({ feed, branches, conductance }: Network, isFloating: boolean): Evaluate {
  return (x, y) => {
    const factors: (readonly [number, number])[] = branches.map(({ capacitance: c, resistance, inductance }) => [
      1 + c * (resistance * x + inductance * (x * x - y * y)),
      c * (resistance * y + inductance * 2 * x * y),
    ])
    factors.push('current' in feed ? [1, 0] : [feed.resistance + x * feed.inductance, y * feed.inductance])
    let [re, im] = [0, 0]
    for (let k = 0; k <= factors.length; k++) {
      // Each admittance times the factors of all others; last the conductance, times all.
      const isFeed = k === branches.length
      const c = branches[k]?.capacitance ?? 0
      let a = k < branches.length ? (isFloating ? c : c * x) : isFeed ? Number(!('current' in feed)) : conductance
      let b = isFloating ? 0 : c * y
      for (let i = 0; i < factors.length; i++) {
        if (i === k) continue
        const [p, q] = factors[i]!
        const next = a * p - b * q
        b = a * q + b * p
        a = next
      }
      re += a
      im += b
    }
    return [re, im]
  }
}

/** The same for one kind of capacitor, multiplied out. */
function ofOneBranch(feed: Feed, { capacitance: C, resistance, inductance }: Branch, G: number): number[] {
  const first = resistance * C
  const second = inductance * C
  if ('current' in feed) return [G, C + G * first, G * second]
  const { resistance: R, inductance: L } = feed
  return [1 + R * G, first + C * R + G * (L + R * first), second + C * L + G * (L * first + R * second), G * L * second]
}
