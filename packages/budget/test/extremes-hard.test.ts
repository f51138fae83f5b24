import { between } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { extremes } from '../src/index.js'

type Point = readonly number[]
type Hard = readonly [
  name: string,
  box: readonly (readonly [from: number, to: number, nominal?: number])[],
  (x: Point) => number,
]

/** Numbers from 0 to 1 that are the same each time (a linear congruential generator). */
function numbers(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 1103515245 + 12345) % 2147483648
    return state / 2147483648
  }
}

/** Points of a grid along one input, by the number of inputs. */
const fineness = [0, 4000, 120, 30, 14]

/** Both extremes by brute force: a grid, its best places refined by smaller and smaller grids about them. */
function byForce(box: Hard[1], model: (x: Point) => number): [lower: number, upper: number] {
  const n = box.length
  const best = (sign: 1 | -1) => {
    let value = -Infinity
    let place: number[] = []
    const scan = (from: readonly number[], to: readonly number[], parts: number) => {
      const x = from.slice()
      const walk = (k: number) => {
        if (k === n) {
          const there = sign * model(x)
          if (there > value) {
            value = there
            place = x.slice()
          }
          return
        }
        for (let i = 0; i <= parts; i++) {
          x[k] = i === parts ? to[k]! : from[k]! + ((to[k]! - from[k]!) * i) / parts
          walk(k + 1)
        }
      }
      walk(0)
    }
    scan(
      box.map(([from]) => from),
      box.map(([, to]) => to),
      fineness[n]!,
    )
    let width = 2 / fineness[n]!
    for (let round = 0; round < 10; round++, width /= 4) {
      const about = place.slice()
      const side = (k: number, way: number) =>
        Math.min(Math.max(about[k]! + way * width * (box[k]![1] - box[k]![0]), box[k]![0]), box[k]![1])
      scan(
        about.map((_, k) => side(k, -1)),
        about.map((_, k) => side(k, 1)),
        n > 2 ? 4 : 8,
      )
    }
    return sign * value
  }
  return [best(-1), best(1)]
}

const unit = [0, 1] as const
const about = [-1, 1] as const
const clip = (x: number, from: number, to: number) => Math.min(Math.max(x, from), to)
const at = (x: Point, k: number) => x[k]!

const written: Hard[] = [
  ['d (1 - d) V about no voltage', [[0, 1, 0.3], about], ([d, V]) => d! * (1 - d!) * V!],
  ['d (1 - d) V, d in the middle', [[0, 1, 0.5], about], ([d, V]) => d! * (1 - d!) * V!],
  ['the larger of two products', [about, about, about], ([a, b, c]) => Math.max(a! * b!, b! * c!)],
  ['the smaller of two products', [about, about, about], ([a, b, c]) => Math.min(a! * b!, b! * c!)],
  ['largest of three products', [about, about, about], ([a, b, c]) => Math.max(a! * b!, b! * c!, c! * a!)],
  ['larger of two differences', [unit, unit, unit], ([a, b, c]) => Math.max(a! - b!, b! - c!)],
  ['smaller of a and 1 - a', [[0, 1, 0.2]], ([a]) => Math.min(a!, 1 - a!)],
  ['a roof that leans', [[0, 1, 0.2], unit], ([a, b]) => Math.min(2 * a!, 1.8 - a!) + b!],
  ['a hill inside', [unit, unit], ([a, b]) => Math.exp(-20 * ((a! - 0.37) ** 2 + (b! - 0.61) ** 2))],
  ['a hill on a slope', [unit, unit], ([a, b]) => a! + b! + 2 * Math.exp(-20 * ((a! - 0.3) ** 2 + (b! - 0.4) ** 2))],
  [
    'a small hill on a slope',
    [unit, unit],
    ([a, b]) => 2 * a! + b! + 0.8 * Math.exp(-30 * ((a! - 0.6) ** 2 + (b! - 0.8) ** 2)),
  ],
  [
    'a hollow inside',
    [unit, unit, unit],
    ([a, b, c]) => a! - Math.exp(-9 * ((a! - 0.5) ** 2 + (b! - 0.4) ** 2 + (c! - 0.7) ** 2)),
  ],
  ['a ridge', [unit, unit], ([a, b]) => -Math.abs(a! - b!) + 0.1 * a!],
  ['a ridge that bends', [unit, unit], ([a, b]) => 1 - (b! - a! * a!) ** 2],
  [
    'a curved valley',
    [
      [-1.5, 1.5, 0.2],
      [-0.5, 2],
    ],
    ([a, b]) => (1 - a!) ** 2 + 20 * (b! - a! * a!) ** 2,
  ],
  ['a saddle', [[-1, 2], about], ([a, b]) => a! * b! + 1],
  ['a product of three', [about, about, about], ([a, b, c]) => a! * b! * c!],
  ['a product of four', [about, about, about, about], (x) => x.reduce((all, one) => all * one, 1)],
  ['a clipped product', [about, about], ([a, b]) => clip(3 * a! * b!, -0.5, 2)],
  ['a product behind a clip', [about, about, unit], ([a, b, c]) => clip(a!, 0, 1) * b! + 0.1 * c!],
  ['asleep until both are high', [unit, unit], ([a, b]) => Math.max(0, a! + b! - 1.5) * (a! - 0.9)],
  ['a step inside', [unit, unit], ([a, b]) => (a! > 0.3 && a! < 0.6 ? 1 : 0) + b!],
  ['a floor over a slope', [unit, unit], ([a, b]) => Math.floor(4 * a!) - 3 * a! + b!],
  ['a sine', [[0, 3, 1], unit], ([a, b]) => Math.sin(a!) + b!],
  ['a fast sine', [unit, unit], ([a, b]) => Math.sin(20 * a!) * (1 + b!)],
  [
    'a sine of a product',
    [
      [0, 2],
      [0, 2],
    ],
    ([a, b]) => Math.sin(2 * a! * b!),
  ],
  ['one part in a hundred the other way', [unit, unit], ([a, b]) => a! - 0.01 * a! * b! * 40 * (a! - 0.5)],
  ['a cubic that hardly turns', [unit], ([a]) => (a! - 0.5) ** 3 - 0.02 * (a! - 0.5)],
  ['a cubic that turns at its end', [[0, 1, 0.4]], ([a]) => a! - 0.55 * a! * a!],
  ['a turn between the quarters', [unit], ([a]) => a! + 0.08 * Math.sin(16 * Math.PI * a!)],
  [
    'loss of a divider',
    [
      [0, 1, 0.3],
      [1, 2],
    ],
    ([a, b]) => (a! * b!) / (a! + b! / 3) ** 2,
  ],
  [
    'power into a load',
    [
      [0.1, 4, 0.5],
      [0.8, 1.2],
      [3, 4],
    ],
    ([R, r, V]) => (V! / (R! + r!)) ** 2 * R!,
  ],
  [
    'ripple of a duty',
    [
      [0, 1, 0.1],
      [0.9, 1.1],
      [1, 2],
    ],
    ([d, f, V]) => (V! * d! * (1 - d!)) / f!,
  ],
  [
    'a resonance',
    [
      [0.5, 1.5, 0.7],
      [0.05, 0.2],
    ],
    ([w, z]) => 1 / Math.hypot(1 - w! * w!, 2 * z! * w!),
  ],
  ['a distance', [unit, unit], ([a, b]) => Math.hypot(a! - 0.4, b! - 0.6)],
  ['a square of a difference', [unit, [0, 3]], ([a, b]) => (a! - b!) ** 2],
  ['a difference of squares', [about, about], ([a, b]) => a! * a! - b! * b!],
  [
    'a quotient about one',
    [
      [0.5, 2],
      [0.5, 2],
    ],
    ([a, b]) => Math.abs(Math.log(a! / b!)),
  ],
  ['the middle of three', [unit, unit, unit], (x) => [...x].sort((p, q) => p - q)[1]! * (at(x, 0) - 0.5)],
  ['a switch that changes the sign', [unit, unit], ([a, b]) => (a! < 0.35 ? b! : -b!)],
  ['two switches', [unit, unit, unit], ([a, b, c]) => (a! < 0.2 ? b! : c!) - (b! > 0.8 ? c! : 0)],
  ['equal at all corners', [unit, unit], ([a, b]) => a! * (1 - a!) - b! * (1 - b!)],
  [
    'equal at all corners and the middle',
    [unit, unit],
    ([a, b]) => Math.sin(2 * Math.PI * a!) * Math.sin(2 * Math.PI * b!),
  ],
  ['equal along the axes', [about, about, about], ([a, b, c]) => a! * b! * (1 - c! * c!)],
]

/** Polynomials of degree four at most with random terms, some with a strong slope beneath them. */
function polynomials(count: number): Hard[] {
  const random = numbers(11)
  return Array.from({ length: count }, (_, trial): Hard => {
    const n = 1 + (trial % 3)
    const terms = Array.from({ length: 3 * n }, () => ({
      factor: 2 * random() - 1,
      powers: Array.from({ length: n }, () => Math.floor(3 * random())),
    }))
    const slopes = Array.from({ length: n }, () => (2 * random() - 1) * (trial % 4) * 1.5)
    const box = Array.from({ length: n }, () => [-random(), 0.2 + random(), 0.1] as const)
    const model = (x: Point) => {
      let sum = 0
      for (const { factor, powers } of terms) sum += powers.reduce((all, power, k) => all * x[k]! ** power, factor)
      return slopes.reduce((all, slope, k) => all + slope * x[k]!, sum)
    }
    return [`polynomial ${trial + 1}`, box, model]
  })
}

/** The largest or the smallest of two random products, clipped or not. */
function products(count: number): Hard[] {
  const random = numbers(12)
  return Array.from({ length: count }, (_, trial): Hard => {
    const n = 2 + (trial % 2)
    const pick = () => Math.floor(n * random())
    const pairs = Array.from(
      { length: 2 + (trial % 3) },
      () => [pick(), pick(), 2 * random() - 1, random() - 0.5] as const,
    )
    const of = trial % 2 ? Math.max : Math.min
    const top = random()
    const model = (x: Point) => {
      const value = of(...pairs.map(([i, j, factor, more]) => factor * x[i]! * x[j]! + more))
      return trial % 5 === 0 ? clip(value, -0.3, top) : value
    }
    return [`products ${trial + 1}`, Array.from({ length: n }, () => [-random(), random(), 0] as const), model]
  })
}

const all = [...written, ...polynomials(60), ...products(60)]

describe(`extremes of ${all.length} hard functions, held against brute force`, () => {
  let hits = 0
  it.each(all)('%s', (_, box, model) => {
    const inputs = Object.fromEntries(box.map(([from, to, nominal], k) => [`x_${k}`, between(from, to, nominal)]))
    const found = extremes(inputs, (x) => model(box.map((_, k) => x[`x_${k}`]!)))
    const [lower, upper] = byForce(box, model)
    const small = 1e-6 * Math.max(Math.abs(lower), Math.abs(upper))
    // Sure and wrong is the worst fault; not sure must say how far it may be off.
    const reach = found.verdict === 'sure' ? small : found.doubt! + small
    if (found.verdict === 'sure') expect(found.doubt).toBe(0)
    expect(found.lower - reach).toBeLessThanOrEqual(lower)
    expect(found.upper + reach).toBeGreaterThanOrEqual(upper)
    expect(found.reasons.length > 0).toBe(found.verdict === 'not sure')
    if (found.lower - lower <= small && upper - found.upper <= small) hits++
  })

  it('are found by the search, nearly all', () => {
    expect(hits / all.length).toBeGreaterThan(0.97)
  })
})
