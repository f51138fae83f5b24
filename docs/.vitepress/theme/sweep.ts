import type { Margin } from '@ohmward/budget'
import type { Sweep, SweptMargin } from './block.ts'

/**
 * Every margin along one condition, and where its worst case crosses zero: found by halving, so that the place is that
 * of the check itself and not of a line between two points. Margins that don't change are left out.
 */
export function sweepOver(text: Omit<Sweep, 'curves'>, at: (value: number) => readonly Margin[]): Sweep {
  const { points } = text
  const found = points.map(at)
  const first = found[0] ?? []
  const curves = first.flatMap(({ id, name, unit }): SweptMargin[] => {
    const along = found.map((margins) => margins.find((margin) => margin.id === id))
    if (along.some((margin) => margin === undefined)) return []
    const worst = along.map((margin) => margin!.slack)
    const nominal = along.map((margin) => margin!.nominalSlack)
    const scale = Math.max(...worst.map(Math.abs))
    if (Math.max(...worst) - Math.min(...worst) <= 1e-9 * scale) return []
    const step = worst.findIndex((slack, i) => i > 0 && slack >= 0 !== worst[i - 1]! >= 0)
    const slackAt = (value: number) => at(value).find((margin) => margin.id === id)!.slack
    return [
      {
        id,
        name,
        unit,
        worst,
        nominal,
        ...(step > 0 && { crossing: zeroOf(slackAt, points[step - 1]!, points[step]!) }),
      },
    ]
  })
  return { ...text, curves }
}

/** A zero of a function between two places where its sign differs. */
function zeroOf(f: (x: number) => number, from: number, to: number): number {
  let [a, b] = [from, to]
  const start = f(a) >= 0
  for (let i = 0; i < 12; i++) {
    const middle = (a + b) / 2
    if (f(middle) >= 0 === start) a = middle
    else b = middle
  }
  return (a + b) / 2
}

/** Evenly spaced values, both ends included. */
export const evenly = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => Number((from + ((to - from) * i) / (count - 1)).toPrecision(12)))
