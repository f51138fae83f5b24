import type { Branch, Feed, Network } from './network.js'
import type { Evaluate } from './roots.js'

const times = (a: readonly number[], b: readonly number[]): number[] => {
  const c = new Array<number>(a.length + b.length - 1).fill(0)
  for (let i = 0; i < a.length; i++) for (let j = 0; j < b.length; j++) c[i + j]! += a[i]! * b[j]!
  return c
}

const trimmed = (a: number[]): number[] => {
  while (a.length > 1 && a[a.length - 1] === 0) a.pop()
  return a
}

/** Impedance of the feed as a polynomial; 1 for a current, which has no admittance. */
const feedPolynomial = (feed: Feed): number[] => ('current' in feed ? [1] : trimmed([feed.resistance, feed.inductance]))

/** `1 + s·R·C + s²·L·C`: the branch's admittance is `s·C` over it. */
const branchPolynomial = (b: Branch): number[] =>
  trimmed([1, b.resistance * b.capacitance, b.inductance * b.capacitance])

/** Sum of all admittances, brought to one denominator: every coefficient is a sum of positive terms. */
export function characteristic(network: Network): number[] {
  const { feed, branches, conductance } = network
  if (branches.length === 1) return ofOneBranch(feed, branches[0]!, conductance)
  const denominators = [feedPolynomial(feed), ...branches.map(branchPolynomial)]
  const total = new Array<number>(denominators.reduce((sum, d) => sum + d.length, 3)).fill(0)
  const add = (numerator: readonly number[], except: number): void => {
    let term = [...numerator]
    for (let k = 0; k < denominators.length; k++) if (k !== except) term = times(term, denominators[k]!)
    for (let i = 0; i < term.length; i++) total[i]! += term[i]!
  }
  if (!('current' in feed)) add([1], 0)
  for (let k = 0; k < branches.length; k++) add([0, branches[k]!.capacitance], k + 1)
  if (conductance > 0) add([conductance], -1)
  return trimmed(total)
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
      let b = k < branches.length && !isFloating ? c * y : 0
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
  if ('current' in feed) return trimmed([G, C + G * first, G * second])
  const { resistance: R, inductance: L } = feed
  return trimmed([
    1 + R * G,
    first + C * R + G * (L + R * first),
    second + C * L + G * (L * first + R * second),
    G * L * second,
  ])
}
