import { at, integralOfProduct, later, lowest, negative, type Placed, type Signal } from '../waveform/inside.js'

/** When a reading takes its sample of a pulse: s after the load's current has risen at the least and at the most, and the time constants before it added up, s. */
export interface Sampling {
  readonly after: number
  /** To the end of the pulse by default. */
  readonly until?: number
  readonly lag: number
}

/** What a sample of the rail may find while the load is on, of the rail at rest. */
export interface SampledRail {
  readonly lowest: number
  readonly highest: number
  /** How far that is below, and above, where the rail of the same board comes to in the end, at most. */
  readonly below: number
  readonly above: number
  /** The latter as a share of what the load takes from that rail in the end. */
  readonly share: number
  /** Lowest and highest over what the power of the pulse is made of, the root of the mean square of its rail. */
  readonly least: number
  readonly most: number
  /** Mean rail of a pulse over that root, at least. */
  readonly mean: number
}

/** What a sample finds in one pulse; undefined where that is over before its current has risen. */
export function foundIn(pieces: readonly Placed[], rest: number, sampling: Sampling): SampledRail | undefined {
  const on = pieces.findLast(({ phase }) => phase === 'on')?.piece
  if (on === undefined) return undefined
  const { voltage, duration } = on
  const { after, until = duration, lag } = sampling
  const last = Math.min(until, duration)
  const from = (t: number) => range(voltage, Math.min(t, last), last)
  const { lowest, highest: seen } = from(after)
  const before = () => Math.max(rest, at(pieces[0]!.piece.voltage, 0), from(0).highest)
  const highest = lag === 0 ? seen : delayed(from, sampling, before())
  const end = voltage.constant
  const mean = (other: Signal) => integralOfProduct(voltage, other, duration) / duration
  const root = Math.sqrt(mean(voltage))
  const above = Math.max(0, highest - end) / rest
  return {
    lowest: lowest / rest,
    highest: highest / rest,
    below: Math.max(0, end - lowest) / rest,
    above,
    share: above / Math.max(1 - end / rest, 1e-9),
    least: lowest / root,
    most: highest / root,
    mean: mean(unity(voltage)) / root,
  }
}

/** The highest that poles in series show: what is older than some time constants counts for little (Chernoff's bound, one pole with all of them). */
const delayed = (from: (t: number) => { readonly highest: number }, { after, lag }: Sampling, top: number): number =>
  Math.min(
    ...delays.map((times) => {
      const now = from(Math.max(0, after - times * lag)).highest
      return now + times * Math.exp(1 - times) * Math.max(0, top - now)
    }),
  )

/** Time constants by which what is shown may lie behind. */
const delays = [4, 8, 14]

/** 1, as a signal beside another. */
const unity = ({ roots }: Signal): Signal => {
  const none = roots.re.map(() => 0)
  return { constant: 1, slope: 0, curve: 0, roots, re: none, im: none }
}

/**
 * Lowest and highest from a time on. What rings counts with its envelope, since on some board its peak meets that time; what is damped
 * so much that it hardly passes its end (each period leaves less than a five-hundredth) by itself.
 */
function range(s: Signal, t: number, duration: number): { readonly lowest: number; readonly highest: number } {
  const here = later(s, t)
  const { re, im } = here.roots
  const rings = re.map((x, j) => Math.abs(im[j]!) > Math.abs(x))
  const swing = rings.reduce((sum, one, j) => sum + (one ? 2 * Math.hypot(here.re[j]!, here.im[j]!) : 0), 0)
  const calm: Signal = {
    ...here,
    re: here.re.map((x, j) => (rings[j] ? 0 : x)),
    im: here.im.map((x, j) => (rings[j] ? 0 : x)),
  }
  const left = duration - t
  return { lowest: lowest(calm, left).value - swing, highest: swing - lowest(negative(calm), left).value }
}
