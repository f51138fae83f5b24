import {
  at,
  integralOfProduct,
  later,
  lowest,
  negative,
  type Piece,
  type Placed,
  type Signal,
} from '../waveform/inside.js'

/** When a reading takes its sample of a pulse: s after the load's current has risen at the least and at the most, and the time constants before it added up, s. */
export interface Sampling {
  readonly after: number
  /** To the end of the pulse by default. */
  readonly until?: number
  readonly lag: number
  /** When it is asked how far poles show it from where it is, and all of their time constants added up, s; never by default. */
  readonly shown?: Pick<Sampling, 'after' | 'lag'>
  /** When the rail is asked for again, s after the load has gone at the least, and what it is read with; never by default. */
  readonly released?: readonly Pick<Sampling, 'after' | 'lag'>[]
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
  /** How far from it what rings is shown by poles in series, at most. */
  readonly behind: number
  /** Lowest and highest over what the power of the pulse is made of, the root of the mean square of its rail. */
  readonly least: number
  readonly most: number
  /** Mean rail of a pulse over that root, at least. */
  readonly mean: number
  /** The same at each of the times after the load has gone, and later. */
  readonly released: readonly ReleasedRail[]
}

/** How far the rail may stand below and above rest after the load has gone, of that; the former also as a share of what the load takes from it. */
export interface ReleasedRail {
  readonly below: number
  readonly above: number
  readonly share: number
  /** How far from it what rings is shown by poles in series, at most. */
  readonly behind: number
}

/** What a sample finds in one pulse, whose rail would come to `end`, and after it; undefined where that is over before its current has risen. */
export function foundIn(
  placed: readonly Placed[],
  rest: number,
  end: number,
  { after, until = Number.POSITIVE_INFINITY, lag, shown, released = [] }: Sampling,
): SampledRail | undefined {
  const on = stretchOf(placed, 'on')
  const duration = lengthOf(on)
  if (on.length === 0) return undefined
  const last = Math.min(until, duration)
  const from = (t: number) => range(on, Math.min(t, last), last)
  const { lowest, highest: seen } = from(after)
  const before = () => Math.max(rest, at(placed[0]!.piece.voltage, 0), from(0).highest)
  const highest = lag === 0 ? seen : delayed(from, { after, lag }, before())
  const mean = (by: (one: Signal) => Signal) =>
    on.reduce((sum, { voltage, duration }) => sum + integralOfProduct(voltage, by(voltage), duration), 0) / duration
  const root = Math.sqrt(mean((one) => one))
  const above = Math.max(0, highest - end) / rest
  return {
    lowest: lowest / rest,
    highest: highest / rest,
    below: Math.max(0, end - lowest) / rest,
    above,
    share: above / Math.max(1 - end / rest, 1e-9),
    behind: shown === undefined ? 0 : behindIn(on, shown.after, shown.lag) / rest,
    least: lowest / root,
    most: highest / root,
    mean: mean(unity) / root,
    released: releasedIn(stretchOf(placed, 'off'), rest, end, released),
  }
}

/** The rail after the load has gone; of a pulse without a pause nothing. */
function releasedIn(off: Stretch, rest: number, end: number, times: NonNullable<Sampling['released']>): ReleasedRail[] {
  const duration = lengthOf(off)
  return times.map(({ after, lag }) => {
    if (after >= duration) return { below: 0, above: 0, share: 0, behind: 0 }
    const { lowest, highest } = range(off, after, duration)
    const below = Math.max(0, rest - lowest) / rest
    const share = below / Math.max(1 - end / rest, 1e-9)
    return { below, above: Math.max(0, highest - rest) / rest, share, behind: behindIn(off, after, lag) / rest }
  })
}

/**
 * How far poles in series show what rings from where it is, V, at most: as one pole with all of their time constant, and a third more, for two
 * that are alike turn it further (by 1.26 at most); no further than both can swing. What they showed as it began fades.
 */
function behindIn(stretch: Stretch, time: number, lag: number): number {
  let [start, sum] = [0, 0]
  for (const { voltage, duration } of lag === 0 ? [] : stretch) {
    const t = Math.min(time - start, duration)
    const since = time - start - t
    start += duration
    if (t < 0) break
    const { re, im } = voltage.roots
    re.forEach((x, j) => {
      const y = im[j]!
      const size = 2 * Math.hypot(voltage.re[j]!, voltage.im[j]!)
      const turned = (1.34 * lag * Math.hypot(x, y)) / Math.hypot(1 + lag * x, lag * y)
      const shown = delays.map((times) => Math.exp(x * Math.max(0, t - times * lag)) + leftOf(times))
      const swing = Math.min(turned * (Math.exp(x * t) + leftOf(t / lag)), Math.exp(x * t) + Math.min(...shown))
      // What only fades is known without.
      if (y !== 0) sum += size * swing * leftOf(since / lag)
    })
  }
  return sum
}

/** Share of what poles in series show that is older than so many of their time constants, at most (Chernoff's bound, one pole with all of them). */
const leftOf = (times: number): number => (times > 1 ? times * Math.exp(1 - times) : 1)

/** What follows one another while the load is on, or off. */
type Stretch = readonly Piece[]

const stretchOf = (placed: readonly Placed[], which: Placed['phase']): Stretch =>
  placed.flatMap(({ piece, phase }) => (phase === which ? [piece] : []))

const lengthOf = (stretch: Stretch): number => stretch.reduce((sum, { duration }) => sum + duration, 0)

/** Lowest and highest. */
interface Range {
  readonly lowest: number
  readonly highest: number
}

/** The same of a stretch from a time on to another. */
function range(stretch: Stretch, from: number, to: number): Range {
  let [start, lowest, highest] = [0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const { voltage, duration } of stretch) {
    const [first, last] = [Math.max(0, from - start), Math.min(duration, to - start)]
    start += duration
    if (first > last) continue
    const found = rangeOf(voltage, first, last)
    lowest = Math.min(lowest, found.lowest)
    highest = Math.max(highest, found.highest)
  }
  return { lowest, highest }
}

/** The highest that poles in series show: what is older than some time constants counts for little. */
const delayed = (from: (t: number) => Range, { after, lag }: Pick<Sampling, 'after' | 'lag'>, top: number): number =>
  Math.min(
    ...delays.map((times) => {
      const now = from(Math.max(0, after - times * lag)).highest
      return now + leftOf(times) * Math.max(0, top - now)
    }),
  )

/** Time constants by which what is shown may lie behind. */
const delays = [4, 8, 14]

/** 1, as a signal beside another. */
const unity = ({ roots }: Signal): Signal => {
  const none = roots.re.map(() => 0)
  return { constant: 1, slope: 0, curve: 0, roots, re: none, im: none }
}

/** Which modes ring. */
const ringsIn = ({ roots: { re, im } }: Signal): boolean[] => re.map((x, j) => Math.abs(im[j]!) > Math.abs(x))

/** How far what rings may still swing at a time, either way. */
export const swingAt = (s: Signal, t: number): number =>
  ringsIn(s).reduce(
    (sum, rings, j) => sum + (rings ? 2 * Math.hypot(s.re[j]!, s.im[j]!) * Math.exp(s.roots.re[j]! * t) : 0),
    0,
  )

/**
 * Lowest and highest from a time on. What rings counts with its envelope, since on some board its peak meets that time; what is damped
 * so much that it hardly passes its end (each period leaves less than a five-hundredth) by itself.
 */
function rangeOf(s: Signal, t: number, duration: number): Range {
  const here = later(s, t)
  const rings = ringsIn(s)
  const swing = swingAt(s, t)
  const calm: Signal = {
    ...here,
    re: here.re.map((x, j) => (rings[j] ? 0 : x)),
    im: here.im.map((x, j) => (rings[j] ? 0 : x)),
  }
  const left = duration - t
  return { lowest: lowest(calm, left).value - swing, highest: swing - lowest(negative(calm), left).value }
}
