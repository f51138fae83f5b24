/** Maps values to positions along an axis, in percent of its width. */
export interface Scale {
  readonly from: number
  readonly to: number
  readonly ticks: readonly number[]
  /** Position of a value in percent, kept on the axis. */
  readonly at: (value: number) => number
  /** The same as an attribute of SVG: `12.5%`. */
  readonly x: (value: number) => string
  /** `text-anchor` of a number below the axis: centred, but not cut off at its ends. */
  readonly anchor: (value: number) => 'start' | 'middle' | 'end'
  /** Width of a stretch as an attribute of SVG. */
  readonly wide: (from: number, to: number) => string
}

/** An axis that holds every value given, with some air, and round ticks. */
export function scaleOver(values: readonly number[], { air = 0.04, count = 5, reverse = false } = {}): Scale {
  const finite = values.filter(Number.isFinite)
  const least = Math.min(...finite)
  const most = Math.max(...finite)
  const spread = most - least || Math.abs(most) || 1
  const from = least - air * spread
  const to = most + air * spread
  const at = (value: number) => {
    const share = Math.min(1, Math.max(0, (value - from) / (to - from)))
    return 100 * (reverse ? 1 - share : share)
  }
  const percent = (n: number) => `${Math.round(n * 1000) / 1000}%`
  return {
    from,
    to,
    ticks: enough(from, to, count),
    at,
    x: (value) => percent(at(value)),
    anchor: (value) => (at(value) < 5 ? 'start' : at(value) > 95 ? 'end' : 'middle'),
    wide: (a, b) => percent(Math.max(0.3, Math.abs(at(b) - at(a)))),
  }
}

/** So many ticks, or more: an axis with one number on it has no scale. */
function enough(from: number, to: number, count: number): number[] {
  const found = ticks(from, to, count)
  return found.length < 3 && count < 20 ? enough(from, to, count + 1) : found
}

/** Round values inside a range: steps of 1, 2 or 5 times a power of ten. */
export function ticks(from: number, to: number, count: number): number[] {
  const rough = (to - from) / count
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = [1, 2, 5, 10].map((n) => n * power).find((n) => n >= rough * 0.999)!
  const first = Math.ceil(from / step)
  const last = Math.floor(to / step + 1e-9)
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => Number(((first + i) * step).toPrecision(12)))
}
