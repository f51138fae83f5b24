import type { Roots } from './complex.js'
import type { Network } from './parts.js'

/** What a piece of a waveform needs at each root; `branch` and `share` of branch k at root j stand at `k * roots + j`. */
export interface Modes {
  /** Admittance of the feed. */
  readonly feedRe: number[]
  readonly feedIm: number[]
  /** Admittance of each branch. */
  readonly branchRe: number[]
  readonly branchIm: number[]
  /** What of the rail's voltage is across each branch's capacitance. */
  readonly shareRe: number[]
  readonly shareIm: number[]
  /** 1 / Y'(s), Y the sum of all admittances: by which a source's image becomes the mode's amplitude. */
  readonly weightRe: number[]
  readonly weightIm: number[]
}

/** Admittances that must add up to 0 do so to this part of their sizes. */
const closes = 1e-7

/**
 * The modes of a network at its roots.
 *
 * @param lead - first coefficient of the characteristic polynomial
 * @param isFloating - whether a root at 0 was divided out of it
 * @param into - lists of the right lengths
 * @returns whether the admittances at each root have values and add up to 0
 */
export function fillModes(network: Network, roots: Roots, lead: number, isFloating: boolean, into: Modes): boolean {
  let isSound = true
  for (let j = 0; j < roots.re.length; j++) {
    const fill = roots.im[j] === 0 ? fillReal : fillComplex
    if (!fill(network, roots, j, lead, isFloating, into)) isSound = false
  }
  return isSound
}

/** Fills in one mode, at root `j`; whether its admittances have values and add up to 0. */
type Fill = (network: Network, roots: Roots, j: number, lead: number, isFloating: boolean, into: Modes) => boolean

/** One real mode. The weight is the product of all impedances' polynomials over that of the distances from the other roots. */
const fillReal: Fill = ({ feed, branches, conductance }, { re, im }, j, lead, isFloating, into) => {
  const x = re[j]!
  let above = 1
  let sum = conductance
  let size = conductance
  let own = 0
  if (!('current' in feed)) {
    above = feed.resistance + x * feed.inductance
    own = 1 / above
    sum += own
    size += Math.abs(own)
  }
  into.feedRe[j] = own
  into.feedIm[j] = 0
  for (let k = 0; k < branches.length; k++) {
    const { capacitance, resistance, inductance } = branches[k]!
    const r = 1 + capacitance * x * (resistance + inductance * x)
    const share = 1 / r
    const admittance = capacitance * x * share
    const place = k * re.length + j
    into.shareRe[place] = share
    into.shareIm[place] = 0
    into.branchRe[place] = admittance
    into.branchIm[place] = 0
    sum += admittance
    size += Math.abs(admittance)
    above *= r
  }
  let below = isFloating ? lead * x : lead
  for (let k = 0; k < re.length; k++) {
    const a = x - re[k]!
    const b = im[k]!
    if (b !== 0) below *= a * a + b * b
    else if (k !== j) below *= a
  }
  const weight = above / below
  into.weightRe[j] = weight
  into.weightIm[j] = 0
  return Math.abs(sum) <= closes * size && Number.isFinite(size + weight)
}

/** One of a conjugate pair, the same in complex numbers. */
const fillComplex: Fill = ({ feed, branches, conductance }, { re, im }, j, lead, isFloating, into) => {
  const x = re[j]!
  const y = im[j]!
  let aboveRe = 1
  let aboveIm = 0
  let sumRe = conductance
  let sumIm = 0
  let size = conductance
  into.feedRe[j] = 0
  into.feedIm[j] = 0
  if (!('current' in feed)) {
    aboveRe = feed.resistance + x * feed.inductance
    aboveIm = y * feed.inductance
    const square = aboveRe * aboveRe + aboveIm * aboveIm
    into.feedRe[j] = aboveRe / square
    into.feedIm[j] = -aboveIm / square
    sumRe += aboveRe / square
    sumIm = -aboveIm / square
    size += (Math.abs(aboveRe) + Math.abs(aboveIm)) / square
  }
  for (let k = 0; k < branches.length; k++) {
    const { capacitance: c, resistance, inductance } = branches[k]!
    const r = 1 + c * (resistance * x + inductance * (x * x - y * y))
    const i = c * (resistance * y + inductance * 2 * x * y)
    const square = r * r + i * i
    const place = k * re.length + j
    const u = r / square
    const v = -i / square
    const a = c * (x * u - y * v)
    const b = c * (y * u + x * v)
    into.shareRe[place] = u
    into.shareIm[place] = v
    into.branchRe[place] = a
    into.branchIm[place] = b
    sumRe += a
    sumIm += b
    size += Math.abs(a) + Math.abs(b)
    const t = aboveRe * r - aboveIm * i
    aboveIm = aboveRe * i + aboveIm * r
    aboveRe = t
  }
  let belowRe = isFloating ? lead * x : lead
  let belowIm = isFloating ? lead * y : 0
  const divide = (a: number, b: number): void => {
    const t = belowRe * a - belowIm * b
    belowIm = belowRe * b + belowIm * a
    belowRe = t
  }
  for (let k = 0; k < re.length; k++) {
    if (k !== j) divide(x - re[k]!, y - im[k]!)
    if (im[k] !== 0) divide(x - re[k]!, y + im[k]!)
  }
  const square = belowRe * belowRe + belowIm * belowIm
  const weightRe = (aboveRe * belowRe + aboveIm * belowIm) / square
  const weightIm = (aboveIm * belowRe - aboveRe * belowIm) / square
  into.weightRe[j] = weightRe
  into.weightIm[j] = weightIm
  return Math.abs(sumRe) + Math.abs(sumIm) <= closes * size && Number.isFinite(size + weightRe + weightIm)
}
