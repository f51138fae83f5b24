import type { AnyFormula } from '@ohmward/budget'
import type { MathNode, Unit } from 'mathjs'
import { isPlain, math, type Quantity, quantity } from './math.js'
import { point } from './sample.js'

const samples = 8

/** A temperature comes out as `degC` when sums and differences of `degC` made it: its number is then the compute's. */
function numberOf(result: Unit, unit: string): number {
  if (math.unit(1, 'K').equalBase(result)) return result.toNumber(result.formatUnits() === 'degC' ? 'degC' : 'K')
  return result.toNumber(unit)
}

/** Evaluates the expression with units: it must come out in `unit`, and with the number that `compute` gives. */
export function faultsOfUnits(f: AnyFormula, tree: MathNode, random: () => number): string[] {
  const code = tree.compile()
  try {
    if (!isPlain(f.unit)) math.unit(1, f.unit)
    for (let i = 0; i < samples; i++) {
      const x = point(f.inputs, random)
      const scope: Record<string, Quantity> = {}
      for (const [symbol, [unit]] of Object.entries(f.inputs)) scope[symbol] = quantity(x[symbol]!, unit)
      const result: unknown = code.evaluate(scope)
      const fault = faultOfResult(f, result, f(x))
      if (fault !== undefined) return [fault]
    }
  } catch (error) {
    return [`units: ${(error as Error).message}`]
  }
  return []
}

function faultOfResult(f: AnyFormula, result: unknown, computed: number): string | undefined {
  let value: number
  if (typeof result === 'number') {
    if (!isPlain(f.unit)) return `units: comes out as a plain number, declared ${f.unit}`
    value = result
  } else if (math.isUnit(result)) {
    const dimensionless = result.dimensions.every((power) => Math.abs(power) < 1e-9)
    if (isPlain(f.unit) ? !dimensionless : !math.unit(1, f.unit).equalBase(result)) {
      return `units: comes out in ${result.simplify().formatUnits()}, declared ${f.unit}`
    }
    value = isPlain(f.unit) ? (result.value as number) : numberOf(result, f.unit)
  } else {
    return `units: comes out as ${String(result)}`
  }
  // Looser than the agreement in plain numbers: a conversion of units rounds, and terms may cancel.
  const isNear = Math.abs(value - computed) <= 1e-6 * Math.max(Math.abs(value), Math.abs(computed)) + 1e-12
  return isNear ? undefined : `units: gives ${value} ${f.unit} with units, ${computed} without: not coherent`
}
