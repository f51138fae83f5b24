import type { AnyFormula } from '@ohmward/budget'
import type { MathNode } from 'mathjs'
import { evaluator, preciseEvaluator } from './math.js'
import { corner, point } from './sample.js'

type Point = Readonly<Record<string, number>>

const samples = 1000
const corners = 32
const relative = 1e-9

/**
 * How much of a value is rounding of its inputs: the change that a few units of the last place of each input make,
 * extrapolated from a larger step so that it can be seen. Large only where terms cancel.
 */
function roundingOf(f: AnyFormula, x: Point, value: number): number {
  let sum = 0
  for (const symbol of Object.keys(f.inputs)) {
    const moved = f({ ...x, [symbol]: x[symbol]! * (1 + 2 ** -40) })
    if (Number.isFinite(moved)) sum += Math.abs(moved - value)
  }
  return sum * 2 ** -10
}

/** Where `compute` and `expression` differ over a thousand random inputs and some corners of the ranges. */
export function faultsOfAgreement(f: AnyFormula, tree: MathNode, random: () => number): string[] {
  const read = evaluator(tree)
  const precise = preciseEvaluator(f.expression)
  let well = 0
  const values = new Set<number>()
  for (let i = 0; i < samples; i++) {
    const x = point(f.inputs, random)
    const computed = f(x)
    if (!Number.isFinite(computed)) return [`compute gives ${computed} at ${JSON.stringify(x)}, inside the ranges`]
    const rounding = roundingOf(f, x, computed)
    const tolerance = relative * Math.abs(computed) + 4 * rounding
    const near = (value: number) => Math.abs(value - computed) <= tolerance
    if (!near(read(x)) && !near(precise(x))) {
      return [`compute gives ${computed}, expression ${read(x)} at ${JSON.stringify(x)}`]
    }
    if (rounding <= relative * Math.abs(computed)) well++
    values.add(computed)
  }
  if (well < samples / 2) return [`only ${well} of ${samples} inputs were far from cancelling: choose better ranges`]
  if (values.size < 2) return ['has one value over its whole ranges']
  for (let i = 0; i < corners; i++) {
    const x = corner(f.inputs, random)
    const computed = f(x)
    const expected = read(x)
    const tolerance = relative * Math.abs(computed) + 4 * roundingOf(f, x, computed)
    const isBothUndefined = !Number.isFinite(computed) && !Number.isFinite(expected)
    if (isBothUndefined || Math.abs(computed - expected) <= tolerance) continue
    if (!(Math.abs(computed - precise(x)) <= tolerance)) {
      return [`compute gives ${computed}, expression ${expected} at the corner ${JSON.stringify(x)}`]
    }
  }
  return []
}
