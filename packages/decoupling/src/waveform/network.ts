import { characteristic, evaluator } from './characteristic.js'
import { type Roots, rootsOf } from './roots.js'

/** One kind of capacitor as a branch from the rail to ground, all of its parts in parallel taken together. SI units. */
export interface Branch {
  readonly capacitance: number
  /** Equivalent series resistance. */
  readonly resistance: number
  /** Equivalent series inductance. */
  readonly inductance: number
}

/** A source with an open-circuit voltage, a resistance and a loop inductance; or one that is held at its current limit. */
export type Feed =
  | { readonly voltage: number; readonly resistance: number; readonly inductance: number }
  | { readonly current: number }

/** The rail: one node with its feed, its capacitors and, while a resistor is switched on, its conductance to ground. */
export interface Network {
  readonly feed: Feed
  readonly branches: readonly Branch[]
  readonly conductance: number
}

/** A network with its natural modes: the zeros of the sum of all admittances at the rail. */
export interface Solved {
  readonly network: Network
  readonly roots: Roots
  /** Admittance of the feed at root j: `feedRe[j] + i·feedIm[j]`. */
  readonly feedRe: readonly number[]
  readonly feedIm: readonly number[]
  /** Admittance of branch k at root j, at `k * roots + j`. */
  readonly branchRe: readonly number[]
  readonly branchIm: readonly number[]
  /** What of the rail's voltage is across branch k's capacitance at root j, at `k * roots + j`. */
  readonly shareRe: readonly number[]
  readonly shareIm: readonly number[]
  /** 1 / Y'(s) at each root, Y the sum of all admittances: by which a source's image becomes the mode's amplitude. */
  readonly weightRe: readonly number[]
  readonly weightIm: readonly number[]
}

/**
 * Natural modes of a network and what a piece of its waveform needs at each of them.
 *
 * @param network - no two branches with equal time constants (`merged` sees to that), no feed of zero impedance
 */
export function solve(network: Network): Solved {
  let found = solveOnce(network, true)
  if (!found.isSound) found = solveOnce(network, false)
  for (let attempt = 0; attempt < 6 && !found.isSound; attempt++) {
    found = solveOnce(nudged(network, 3e-8 * 8 ** attempt), true)
  }
  return found.solved
}

/**
 * Moves every branch a little, each differently. Where the zero of a branch's impedance coincides with that of the feed or of
 * another branch, a mode stays inside the two and the admittance there has no value: the smallest move that parts them
 * changes the rail by about as much, of its droop.
 */
function nudged(network: Network, share: number): Network {
  const branches = network.branches.map((b, k) => ({ ...b, capacitance: b.capacitance * (1 + (k + 1) * share) }))
  return { ...network, branches }
}

/** The modes, and whether the admittances at each have values and add up to 0. */
function solveOnce(network: Network, isParted: boolean): { readonly solved: Solved; readonly isSound: boolean } {
  const { feed, branches, conductance } = network
  const isHeld = 'current' in feed
  const p = characteristic(network)
  const lead = p[p.length - 1]!
  const isFloating = p[0] === 0
  const roots = rootsOf(isFloating ? p.slice(1) : p, evaluator(network, isFloating), isParted)
  const n = roots.re.length
  const size = n * branches.length
  const solved = {
    network,
    roots,
    feedRe: new Array<number>(n),
    feedIm: new Array<number>(n),
    branchRe: new Array<number>(size),
    branchIm: new Array<number>(size),
    shareRe: new Array<number>(size),
    shareIm: new Array<number>(size),
    weightRe: new Array<number>(n),
    weightIm: new Array<number>(n),
  }
  let isSound = true
  for (let j = 0; j < n; j++) {
    const x = roots.re[j]!
    const y = roots.im[j]!
    // Product of the impedances' polynomials, over that of the distances from all other roots.
    let aboveRe = 1
    let aboveIm = 0
    let belowRe = isFloating ? lead * x : lead
    let belowIm = isFloating ? lead * y : 0
    let sumRe = conductance
    let sumIm = 0
    let sum = conductance
    if (isHeld) {
      solved.feedRe[j] = 0
      solved.feedIm[j] = 0
    } else {
      aboveRe = feed.resistance + x * feed.inductance
      aboveIm = y * feed.inductance
      const square = aboveRe * aboveRe + aboveIm * aboveIm
      sumRe += solved.feedRe[j] = aboveRe / square
      sumIm = solved.feedIm[j] = -aboveIm / square
      sum += Math.abs(sumRe) + Math.abs(sumIm)
    }
    for (let k = 0; k < branches.length; k++) {
      const { capacitance: c, resistance, inductance } = branches[k]!
      const r = 1 + c * (resistance * x + inductance * (x * x - y * y))
      const i = c * (resistance * y + inductance * 2 * x * y)
      const square = r * r + i * i
      const place = k * n + j
      const u = r / square
      const v = -i / square
      const a = c * (x * u - y * v)
      const b = c * (y * u + x * v)
      solved.shareRe[place] = u
      solved.shareIm[place] = v
      solved.branchRe[place] = a
      solved.branchIm[place] = b
      sumRe += a
      sumIm += b
      sum += Math.abs(a) + Math.abs(b)
      const t = aboveRe * r - aboveIm * i
      aboveIm = aboveRe * i + aboveIm * r
      aboveRe = t
    }
    if (!(Math.abs(sumRe) + Math.abs(sumIm) <= 1e-7 * sum)) isSound = false
    for (let k = 0; k < n; k++) {
      const a = x - roots.re[k]!
      const other = roots.im[k]!
      if (k !== j) {
        const t = belowRe * a - belowIm * (y - other)
        belowIm = belowRe * (y - other) + belowIm * a
        belowRe = t
      }
      if (other !== 0) {
        const t = belowRe * a - belowIm * (y + other)
        belowIm = belowRe * (y + other) + belowIm * a
        belowRe = t
      }
    }
    const square = belowRe * belowRe + belowIm * belowIm
    const wr = (aboveRe * belowRe + aboveIm * belowIm) / square
    const wi = (aboveIm * belowRe - aboveRe * belowIm) / square
    if (!Number.isFinite(wr + wi)) isSound = false
    solved.weightRe[j] = wr
    solved.weightIm[j] = wi
  }
  return { solved, isSound }
}

/**
 * Branches with equal time constants `R·C` and `L·C` (to 1e-7) carry the same waveform and act as one: the sum of their
 * capacitances with the same time constants. `group[k]` is the place of branch k in the merged list, `share[k]` its part.
 */
export function merged(branches: readonly Branch[]): { list: Branch[]; group: number[]; share: number[] } {
  const list: { capacitance: number; resistance: number; inductance: number }[] = []
  const group: number[] = []
  for (const { capacitance, resistance, inductance } of branches) {
    let place = 0
    while (place < list.length) {
      const m = list[place]!
      const isSame =
        isNear(m.resistance * m.capacitance, resistance * capacitance) &&
        isNear(m.inductance * m.capacitance, inductance * capacitance)
      if (isSame) break
      place++
    }
    group.push(place)
    const m = list[place]
    if (m === undefined) {
      list.push({ capacitance, resistance, inductance })
      continue
    }
    const total = m.capacitance + capacitance
    m.resistance *= m.capacitance / total
    m.inductance *= m.capacitance / total
    m.capacitance = total
  }
  const share: number[] = []
  for (let k = 0; k < group.length; k++) share.push(branches[k]!.capacitance / list[group[k]!]!.capacitance)
  return { list, group, share }
}

const isNear = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-7 * Math.max(a, b)
