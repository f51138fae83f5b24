import { plusMinus } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { worstStation } from '../src/index.js'
import { screen } from '../src/margin/screen.js'
import { briefEvaluator, compileInputs } from '../src/model/evaluate.js'

const part = plusMinus(0, 1)
const inputs = { V: plusMinus(0, 1), T: plusMinus(1, 1), a: part, b: part, c: part }
type Place = Record<keyof typeof inputs, number>
type Weights = readonly [fixed: number, withV: number, withT: number]

/** Three parts whose weights may move with both conditions, behind a clip. */
const clipped =
  (clip: number, own: boolean, [a, b, c]: readonly [Weights, Weights, Weights]) =>
  (x: Place): number => {
    const weigh = ([fixed, withV, withT]: Weights) => fixed + (own ? withV * x.V : 0) + withT * x.T
    return Math.min(clip, weigh(a) * x.a + weigh(b) * x.b + weigh(c) * x.c + a[0] * x.V + b[1] * x.T)
  }

/** The smallest output over all corners of parts and conditions: the model is monotonic in each, so it is at one of them. */
function smallest(model: (x: Place) => number): number {
  let least = Infinity
  for (let corner = 0; corner < 32; corner++) {
    const bit = (n: number) => ((corner >> n) & 1) * 2 - 1
    least = Math.min(least, model({ a: bit(0), b: bit(1), c: bit(2), V: bit(3), T: 1 + bit(4) }))
  }
  return least
}

describe('the worst of the conditions', () => {
  it.each([
    [
      9,
      false,
      [
        [-0.27, 0.06, 0.78],
        [0.63, 0.93, -0.67],
        [0.15, -0.16, -0.62],
      ],
    ],
    [
      -0.393,
      false,
      [
        [-0.27, 0.06, 0.78],
        [0.63, 0.93, -0.67],
        [0.15, -0.16, -0.62],
      ],
    ],
    [
      -0.449,
      true,
      [
        [0.64, -0.56, -0.89],
        [0.4, 0.86, 0.8],
        [-0.47, 0.9, 0.7],
      ],
    ],
    [
      -0.456,
      true,
      [
        [0.42, 0.09, 0.05],
        [0.87, 0.25, 0.75],
        [-0.08, -0.43, -0.02],
      ],
    ],
    [
      -0.225,
      true,
      [
        [0.26, 0.85, -0.43],
        [0.57, 0.93, -0.57],
        [-0.12, -0.02, -0.67],
      ],
    ],
  ] as const)('is where all corners say, the output being clipped at %f', (clip, own, weights) => {
    const model = clipped(clip, own, weights)
    const station = worstStation({ inputs, conditions: ['V', 'T'] }, model, (lower) => -lower)
    expect(station.extremes.lower).toBeCloseTo(smallest(model), 12)
  })

  it.each([0, 3, 4, 5, 8, 9])(
    'is found where two parts of opposite sense sleep behind a clip, beside %d others',
    (more) => {
      // x alone comes out of the clip, by 0.4 V; a and b add half a volt each there, and cancel where both go one way.
      const half = plusMinus(0, 0.5)
      const others = Array.from({ length: more }, (_, k) => `d${k}`)
      const small = Object.fromEntries(others.map((name) => [name, plusMinus(0, 0.1)]))
      const places: Readonly<Record<string, typeof part>>[] = [
        { V: part, x: part, a: half, ...small, b: half },
        { V: part, x: part, ...small, a: half, b: half },
      ]
      for (const given of places) {
        const model = (y: Readonly<Record<string, number>>) =>
          Math.max(0, y['x']! + y['a']! - y['b']! - 0.6) + others.reduce((sum, name) => sum + 1e-3 * y[name]!, 0)
        const { extremes } = worstStation<string>({ inputs: given, conditions: ['V'] }, model, (_, upper) => upper)
        expect(extremes.upper).toBeCloseTo(1 + 0.5 + 0.5 - 0.6 + more * 1e-4, 9)
      }
    },
  )

  it('is found where nothing moves the output alone at any of them', () => {
    // 0 unless all parts are near their upper limits; then the more, the higher the first condition.
    const model = (x: Place) => (x.a + x.b + x.c > 1.5 ? (2 + x.V) * x.T : 0)
    const station = worstStation({ inputs, conditions: ['V', 'T'] }, model, (_, upper) => upper)
    expect(station.extremes.upper).toBe(6)
  })

  it('is no better than at any corner, where parts that turn about behind a clip act together', () => {
    // Near nominal a and b do nothing alone and the others pull one way; once both open the clip, each of the others pulls the other way.
    const four = ['c', 'd', 'e', 'f'] as const
    const unit = { nominal: 0.5, lower: 0, upper: 1, distribution: { kind: 'rectangular' } } as const
    const given = { V: part, a: unit, b: unit, g: part, ...Object.fromEntries(four.map((name) => [name, part])) }
    const model = (y: Readonly<Record<string, number>>) => {
      const open = Math.max(0, y['a']! + y['b']! - 1.2)
      // In the middle of its range the condition takes g away.
      return 0.5 * y['V']! + 0.1 * y['V']! * y['g']! + four.reduce((sum, name) => sum + y[name]! * (3 * open - 0.1), 0)
    }
    const { extremes, at } = worstStation<string>({ inputs: given, conditions: ['V'] }, model, (_, upper) => upper)
    expect(at).toEqual({ V: 1 })
    // 0.5 + 0.1 + 4 (3 · 0.8 - 0.1)
    expect(extremes.upper).toBeCloseTo(9.8, 9)
  })

  it('leaves no other conditions at which the same parts do worse', () => {
    const names = ['V', 'T', 'c', 'd', 'e', 'f', 'g']
    let seed = 1
    // Numerical recipes' generator, from memory: any will do.
    const next = () => {
      seed = (1664525 * seed + 1013904223) % 2 ** 32
      return seed / 2 ** 31 - 1
    }
    for (let n = 0; n < 300; n++) {
      const weights = Array.from({ length: 3 }, () => names.map(() => Math.max(0, next())))
      const model = (x: Readonly<Record<string, number>>): number => {
        const [a, b, c] = weights.map((all) => all.reduce((sum, w, k) => sum + w * x[names[k]!]!, 0)) as [
          number,
          number,
          number,
        ]
        return n % 2 === 0 ? Math.abs(a - 0.3) * Math.max(0, b) + 0.4 * c : a * Math.max(0, b - 0.5) + 0.3 * c
      }
      const given = Object.fromEntries(names.map((name) => [name, part]))
      const { extremes } = worstStation<string>({ inputs: given, conditions: ['V', 'T'] }, model, (_, upper) => upper)
      for (const [V, T] of [
        [-1, -1],
        [-1, 1],
        [1, -1],
        [1, 1],
        [0, 0],
      ] as const)
        expect(model({ ...extremes.atUpper, V, T }), `model ${n}`).toBeLessThanOrEqual(extremes.upper + 1e-9)
    }
  })
})

describe('conditions that are screened', () => {
  it('stand with the worst first, each reaching as far as its parts add up to (arithmetic)', () => {
    const compiled = compileInputs({ V: plusMinus(0, 1), T: plusMinus(1, 1), a: part, b: part })
    const model = (x: Readonly<Record<string, number>>) =>
      (1 + x['T']!) * x['a']! + (2 + x['V']!) * x['b']! + 0.5 * x['V']! - 0.25 * x['T']!
    const { candidates } = screen(compiled, briefEvaluator(compiled, model), ['V', 'T'], (lower) => -lower)
    // At a corner of the conditions the smallest is what these leave less what both parts take off.
    const reach = ({ V, T }: Readonly<Record<string, number>>) => 1 + T! + (2 + V!) - 0.5 * V! + 0.25 * T!
    expect(candidates).toHaveLength(5)
    for (const one of candidates) expect(one.reach).toBeCloseTo(reach(one.at), 9)
    const reached = candidates.map((one) => one.reach)
    expect(reached).toEqual([...reached].sort((one, other) => other - one))
    expect(candidates[0]!.at).toEqual({ V: 1, T: 2 })
  })
})
