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
  let isSound = true
  const p = characteristic(network)
  const lead = p[p.length - 1]!
  const isFloating = p[0] === 0
  const roots = rootsOf(isFloating ? p.slice(1) : p, evaluator(network, isFloating), isParted)
  const n = roots.re.length
  const feedRe: number[] = []
  const feedIm: number[] = []
  const weightRe: number[] = []
  const weightIm: number[] = []
  const branchRe = new Array<number>(n * branches.length)
  const branchIm = new Array<number>(n * branches.length)
  for (let j = 0; j < n; j++) {
    const x = roots.re[j]!
    const y = roots.im[j]!
    let wr = 1
    let wi = 0
    const multiply = (a: number, b: number): void => {
      const t = wr * a - wi * b
      wi = wr * b + wi * a
      wr = t
    }
    const divide = (a: number, b: number): void => {
      const d = a * a + b * b
      multiply(a / d, -b / d)
    }
    if ('current' in feed) {
      feedRe.push(0)
      feedIm.push(0)
    } else {
      const r = feed.resistance + x * feed.inductance
      const i = y * feed.inductance
      const size = r * r + i * i
      feedRe.push(r / size)
      feedIm.push(-i / size)
      multiply(r, i)
    }
    for (let k = 0; k < branches.length; k++) {
      const { capacitance: c, resistance, inductance } = branches[k]!
      const r = 1 + c * (resistance * x + inductance * (x * x - y * y))
      const i = c * (resistance * y + inductance * 2 * x * y)
      const size = r * r + i * i
      branchRe[k * n + j] = (c * (x * r + y * i)) / size
      branchIm[k * n + j] = (c * (y * r - x * i)) / size
      multiply(r, i)
    }
    let sumRe = conductance + feedRe[j]!
    let sumIm = feedIm[j]!
    let sum = Math.abs(sumRe) + Math.abs(sumIm)
    for (let k = 0; k < branches.length; k++) {
      const re = branchRe[k * n + j]!
      const im = branchIm[k * n + j]!
      sumRe += re
      sumIm += im
      sum += Math.abs(re) + Math.abs(im)
    }
    if (!(Math.abs(sumRe) + Math.abs(sumIm) <= 1e-7 * sum)) isSound = false
    if (isFloating) divide(x, y)
    for (let i = 0; i < n; i++) {
      const other = roots.im[i]!
      if (i !== j) divide(x - roots.re[i]!, y - other)
      if (other !== 0) divide(x - roots.re[i]!, y + other)
    }
    if (!Number.isFinite(wr + wi)) isSound = false
    weightRe.push(wr / lead)
    weightIm.push(wi / lead)
  }
  return { solved: { network, roots, feedRe, feedIm, branchRe, branchIm, weightRe, weightIm }, isSound }
}

/**
 * Branches with equal time constants `R·C` and `L·C` (to 1e-7) carry the same waveform and act as one: the sum of their
 * capacitances with the same time constants. `group[k]` is the place of branch k in the merged list, `share[k]` its part.
 */
export function merged(branches: readonly Branch[]): { list: Branch[]; group: number[]; share: number[] } {
  const list: { capacitance: number; resistance: number; inductance: number }[] = []
  const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-7 * Math.max(a, b)
  const group = branches.map((b) => {
    const place = list.findIndex(
      (m) =>
        near(m.resistance * m.capacitance, b.resistance * b.capacitance) &&
        near(m.inductance * m.capacitance, b.inductance * b.capacitance),
    )
    if (place < 0) return list.push({ ...b }) - 1
    const m = list[place]!
    const total = m.capacitance + b.capacitance
    m.resistance *= m.capacitance / total
    m.inductance *= m.capacitance / total
    m.capacitance = total
    return place
  })
  return { list, group, share: branches.map((b, k) => b.capacitance / list[group[k]!]!.capacitance) }
}
