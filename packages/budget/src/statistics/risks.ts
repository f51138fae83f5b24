import { knownOptions } from '../model/options.js'
import { finiteAbove, type Interval, normalBetween, sides } from './conformity.js'
import { normalDensity } from './normal.js'

/** A production and the measurement that accepts or rejects its items. */
export interface Inspection {
  /** Distribution of the true values, taken as normal: mean and standard deviation. */
  readonly process: { readonly mean: number; readonly u: number }
  /** Standard uncertainty of the measurement. */
  readonly u: number
  /** Limits that the true value must keep. */
  readonly tolerance: Interval
  /** Limits that the measured value must keep; the tolerance by default. */
  readonly acceptance?: Interval
}

/** Shares of all items, 0 to 1. */
export interface GlobalRisks {
  /** Out of tolerance, whatever is measured. */
  readonly nonconforming: number
  /** Accepted though out of tolerance (JCGM 106:2012, equation 19). */
  readonly consumer: number
  /** Rejected though in tolerance (JCGM 106:2012, equation 20). */
  readonly producer: number
}

/** Ten-point Gauss-Legendre nodes and weights, the positive half (Abramowitz and Stegun, table 25.4). */
const nodes = [0.14887433898163122, 0.4333953941292472, 0.6794095682990244, 0.8650633666889845, 0.9739065285171717]
const weights = [0.29552422471475287, 0.26926671930999635, 0.21908636251598204, 0.1494513491505806, 0.06667134430868814]

/** Integral over a panel. */
function panel(f: (x: number) => number, from: number, to: number): number {
  const middle = (from + to) / 2
  const half = (to - from) / 2
  let sum = 0
  for (let n = 0; n < nodes.length; n++) {
    sum += weights[n]! * (f(middle - half * nodes[n]!) + f(middle + half * nodes[n]!))
  }
  return sum * half
}

/** Beyond so many standard deviations a normal variable is not followed: 1e-19 of it is there. */
const reach = 9

/**
 * Integral from one end to the other: in panels of half a standard deviation, and of `step` near the
 * edges, where the chance of acceptance changes over about that much.
 */
function integral(f: (x: number) => number, from: number, to: number, edges: readonly number[], step: number): number {
  const near = reach * step
  const cuts = edges.flatMap((edge) => [edge - near, edge + near]).filter((x) => x > from && x < to)
  const ends = [from, ...cuts, to].sort((x, y) => x - y)
  let sum = 0
  for (let n = 1; n < ends.length; n++) {
    const [start, length] = [ends[n - 1]!, ends[n]! - ends[n - 1]!]
    const middle = start + length / 2
    const width = edges.some((edge) => Math.abs(middle - edge) < near) ? Math.min(0.5, step) : 0.5
    const panels = Math.ceil(length / width)
    for (let m = 0; m < panels; m++) sum += panel(f, start + (length * m) / panels, start + (length * (m + 1)) / panels)
  }
  return sum
}

const names = ['process', 'u', 'tolerance', 'acceptance']

/**
 * Global risks of an inspection (JCGM 106:2012, clause 9.5): true values and measuring errors both normal, to about 1e-12.
 *
 * @throws InputError for numbers that aren't finite, standard deviations not above 0, limits in the wrong order
 */
export function globalRisks(inspection: Inspection): GlobalRisks {
  const { process, u, tolerance, acceptance = tolerance } = knownOptions(inspection, names, 'inspection')
  knownOptions(process, ['mean', 'u'], 'process')
  const mean = finiteAbove('process.mean', process.mean)
  const spread = finiteAbove('process.u', process.u, 0)
  finiteAbove('u', u, 0)
  const [lower, upper] = sides(tolerance, 'tolerance').map((limit) => (limit - mean) / spread) as [number, number]
  const [low, high] = sides(acceptance, 'acceptance')
  // Over the true value z in standard deviations of the process: its density times the chance to be accepted there.
  const accepted = (z: number) => {
    const value = mean + spread * z
    return normalDensity(z) * normalBetween((low - value) / u, (high - value) / u)
  }
  const rejected = (z: number) => {
    const value = mean + spread * z
    return (
      normalDensity(z) * (normalBetween(-Infinity, (low - value) / u) + normalBetween((high - value) / u, Infinity))
    )
  }
  const step = u / spread
  const edges = [low, high].map((limit) => (limit - mean) / spread).filter(Number.isFinite)
  const over = (f: (z: number) => number, from: number, to: number) =>
    from < to ? integral(f, from, to, edges, step) : 0
  return {
    nonconforming: normalBetween(-Infinity, lower) + normalBetween(upper, Infinity),
    consumer: over(accepted, -reach, Math.min(lower, reach)) + over(accepted, Math.max(upper, -reach), reach),
    producer: over(rejected, Math.max(lower, -reach), Math.min(upper, reach)),
  }
}
