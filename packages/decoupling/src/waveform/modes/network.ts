import { characteristic, evaluator } from './characteristic.js'
import type { Roots } from './complex.js'
import { fillModes, type Modes } from './modes.js'
import type { Branch, Network } from './parts.js'
import { reals } from './reals.js'
import { rootsOf } from './roots.js'

/** A network with its natural modes: the zeros of the sum of all admittances at the rail. */
export interface Solved extends Readonly<Modes> {
  readonly network: Network
  readonly roots: Roots
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
  const p = characteristic(network)
  const isFloating = p[0] === 0
  const roots = rootsOf(isFloating ? p.slice(1) : p, evaluator(network, isFloating), isParted)
  const n = roots.re.length
  const size = n * network.branches.length
  const solved = {
    network,
    roots,
    feedRe: reals(n),
    feedIm: reals(n),
    branchRe: reals(size),
    branchIm: reals(size),
    shareRe: reals(size),
    shareIm: reals(size),
    weightRe: reals(n),
    weightIm: reals(n),
  }
  return { solved, isSound: fillModes(network, roots, p[p.length - 1]!, isFloating, solved) }
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
