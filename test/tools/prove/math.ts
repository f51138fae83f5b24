import { all, create, type MathNode, type Unit } from 'mathjs'

/** A mathjs of its own: `count` defined, and `decade` a ratio's logarithm, not ten years. */
export const math = create(all!, {})
math.createUnit('count')
math.createUnit({ decade: '' }, { override: true })

/** The same in 40 decimal digits, where the doubles of an expression cancel. */
const decimal = create(all!, { number: 'BigNumber', precision: 40 })

/** Units of plain numbers: ratios, and decibels, which an expression turns into ratios itself. */
const plain = new Set(['1', 'dB'])

export type Quantity = number | Unit

/** A number with its unit, as mathjs takes it. */
export function quantity(value: number, unit: string): Quantity {
  return plain.has(unit) ? value : math.unit(value, unit)
}

export const isPlain = (unit: string): boolean => plain.has(unit)

/** An evaluator in doubles; anything but a number (a complex one, a unit) comes out as NaN. */
export function evaluator(node: MathNode): (x: Readonly<Record<string, number>>) => number {
  const code = node.compile()
  return (x) => {
    const value: unknown = code.evaluate({ ...x })
    return typeof value === 'number' ? value : Number.NaN
  }
}

/** An evaluator in 40 digits, rounded to a double at the end. */
export function preciseEvaluator(expression: string): (x: Readonly<Record<string, number>>) => number {
  const code = decimal.compile(expression)
  return (x) => {
    const scope: Record<string, unknown> = {}
    for (const [symbol, value] of Object.entries(x)) scope[symbol] = decimal.bignumber(value)
    const value: unknown = code.evaluate(scope)
    return decimal.isBigNumber(value) || typeof value === 'number' ? Number(value) : Number.NaN
  }
}
