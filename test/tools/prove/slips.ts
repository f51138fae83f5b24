import type { MathNode } from 'mathjs'
import { evaluator, math } from './math.js'

/** A formula with one thing wrong in it: what stands for what, and how it then evaluates. */
export interface Slip {
  readonly slip: string
  readonly evaluate: (x: Readonly<Record<string, number>>) => number
}

const otherSign = { '+': ['-', 'subtract'], '-': ['+', 'add'], '*': ['/', 'divide'], '/': ['*', 'multiply'] } as const
const dropped = new Set(['sqrt', 'abs', 'log', 'exp', 'floor', 'round'])
const ends = new Set(['min', 'max'])

/** What may be written in the place of one node by mistake. */
function mistaken(node: MathNode): MathNode[] {
  if (math.isConstantNode(node)) {
    const value = Number(node.value)
    return [value + 1, 2 * value].filter((one) => one !== value).map((one) => new math.ConstantNode(one))
  }
  if (math.isFunctionNode(node)) {
    return dropped.has(node.fn.name) || ends.has(node.fn.name) ? node.args : []
  }
  if (!math.isOperatorNode(node)) return []
  if (node.args.length === 1 || node.op === '^') return node.args.slice(0, 1)
  const [op, name] = otherSign[node.op as keyof typeof otherSign] ?? []
  if (op === undefined || name === undefined) return []
  const isSum = node.op === '+' || node.op === '-'
  return [new math.OperatorNode(op, name, node.args), ...(isSum ? node.args : [])]
}

/** An evaluator that gives NaN where an expression can't be worked out at all. */
function attempt(node: MathNode): Slip['evaluate'] {
  const evaluate = evaluator(node)
  return (x) => {
    try {
      return evaluate(x)
    } catch {
      return Number.NaN
    }
  }
}

/**
 * Each way in which an expression can be wrong in one place: the other sign, multiplied in the place of divided, a term,
 * a power, a root or an end left out, a number that is one more or twice as much.
 */
export function slipsOf(expression: string): Slip[] {
  const tree = math.parse(expression)
  const nodes: MathNode[] = []
  tree.traverse((node) => nodes.push(node))
  return nodes.flatMap((node) =>
    mistaken(node).map((other) => ({
      slip: `${node.toString()} as ${other.toString()}`,
      evaluate: attempt(tree.transform((one) => (one === node ? other : one))),
    })),
  )
}
