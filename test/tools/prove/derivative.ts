import type { AnyFormula } from '@ohmward/budget'
import type { MathNode } from 'mathjs'
import { evaluator, math } from './math.js'
import { point } from './sample.js'
import { hasKink } from './tree.js'

const points = 40
const steps = [1e-2, 1e-3, 1e-4, 1e-5]

type Point = Readonly<Record<string, number>>
type Compute = (x: Point) => number

/** Five-point central difference: error of the fourth order in the step. */
function difference(f: Compute, x: Point, symbol: string, h: number): number {
  const at = (k: number) => f({ ...x, [symbol]: x[symbol]! + k * h })
  return (at(-2) - 8 * at(-1) + 8 * at(1) - at(2)) / (12 * h)
}

/** The symbolic derivative, where mathjs has one for a smooth expression. */
export function derivativeOf(tree: MathNode, symbol: string): Compute | undefined {
  if (hasKink(tree)) return undefined
  try {
    return evaluator(math.derivative(tree, symbol, { simplify: false }))
  } catch {
    return undefined
  }
}

/**
 * Holds each partial derivative that is written symbolically against finite differences of `compute`; where the value
 * has a kink, the finite differences of `expression` against those of `compute`.
 */
export function faultsOfDerivatives(f: AnyFormula, tree: MathNode, random: () => number): string[] {
  const read = evaluator(tree)
  for (const [symbol, [, from, to]] of Object.entries(f.inputs)) {
    if (from === to) continue
    const derivative = derivativeOf(tree, symbol)
    let compared = 0
    for (let i = 0; i < points; i++) {
      const x = point(f.inputs, random)
      const size = Math.abs(x[symbol]!)
      const room = Math.min(x[symbol]! - from, to - x[symbol]!)
      const possible = steps.map((step) => step * size).filter((h) => h > 0 && 2 * h <= room)
      if (possible.length === 0) continue
      compared++
      const floor = (1e-8 * Math.abs(f(x))) / size
      const isNear = (a: number, b: number) => Math.abs(a - b) <= 1e-6 * Math.max(Math.abs(a), Math.abs(b)) + floor
      const agrees = possible.some((h) =>
        isNear(difference(f, x, symbol, h), derivative === undefined ? difference(read, x, symbol, h) : derivative(x)),
      )
      if (!agrees) return [`derivative by ${symbol} differs from finite differences at ${JSON.stringify(x)}`]
    }
    if (compared < points / 4) return [`derivative by ${symbol}: too few points away from the ends of its range`]
  }
  return []
}
