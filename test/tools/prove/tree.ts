import type { AnyFormula } from '@ohmward/budget'
import type { MathNode } from 'mathjs'
import { math } from './math.js'

const symbolRule = /^[A-Za-z]+(_[A-Za-z0-9]+)?$/
const reserved = new Set(
  'end not mod to in and or xor true false null undefined NaN Infinity min max log pi'.split(' '),
)
const operators = new Set('add subtract multiply divide pow unaryMinus smaller smallerEq larger largerEq'.split(' '))
const kinked = new Set('abs ceil floor max min round sign'.split(' '))
const functions = new Set([
  ...kinked,
  ...'acos asin atan atan2 cbrt cos cosh erf exp expm1 hypot log log1p sin sinh sqrt tan tanh'.split(' '),
])

/** Whether the expression has a kink or a step, so that a derivative of it is numeric. */
export const hasKink = (tree: MathNode): boolean =>
  tree.filter((node) => node.type === 'ConditionalNode' || (node.type === 'FunctionNode' && kinked.has(nameOf(node))))
    .length > 0

const nameOf = (node: MathNode): string => (node as unknown as { fn: { name?: string } }).fn.name ?? '?'

/** What is wrong with one node, or nothing. */
function faultOfNode(node: MathNode): string | undefined {
  const more = node as unknown as { fn: string; implicit?: boolean; value?: unknown }
  switch (node.type) {
    case 'ParenthesisNode':
    case 'SymbolNode':
    case 'ConditionalNode':
      return undefined
    case 'ConstantNode':
      return typeof more.value === 'number' ? undefined : `constant ${String(more.value)} is no number`
    case 'FunctionNode':
      return functions.has(nameOf(node)) ? undefined : `function ${nameOf(node)} isn't allowed`
    case 'OperatorNode':
      if (more.implicit === true) return `implicit multiplication in ${node.toString()}`
      return operators.has(more.fn) ? undefined : `operator ${more.fn} isn't allowed`
    default:
      return `${node.type} isn't allowed`
  }
}

/** Symbols that the expression reads, function names left out. */
export function symbolsOf(tree: MathNode): Set<string> {
  const found = new Set<string>()
  tree.traverse((node, path) => {
    if (node.type === 'SymbolNode' && path !== 'fn') found.add((node as unknown as { name: string }).name)
  })
  return found
}

/** What is wrong with the formula's words and its parsed expression. */
export function faultsOfTree(f: AnyFormula, tree: MathNode): string[] {
  const faults: string[] = []
  const inputs = Object.keys(f.inputs)
  for (const symbol of [f.symbol, ...inputs]) {
    if (!symbolRule.test(symbol))
      faults.push(`symbol ${symbol} isn't letters, then at most one _ and letters or digits`)
    if (reserved.has(symbol) || functions.has(symbol)) faults.push(`symbol ${symbol} is a word of the language`)
  }
  if (f.quantity.trim() === '') faults.push('quantity is empty')
  if (f.source.trim() === '') faults.push('source is empty')
  if (/[#\n;%]/.test(f.expression)) faults.push('expression has a comment, a newline, a second statement or a %')
  tree.traverse((node) => {
    const fault = faultOfNode(node)
    if (fault !== undefined) faults.push(fault)
  })
  const used = symbolsOf(tree)
  for (const symbol of used) {
    if (!inputs.includes(symbol) && symbol !== 'pi') faults.push(`symbol ${symbol} is no input`)
  }
  for (const symbol of inputs) if (!used.has(symbol)) faults.push(`input ${symbol} isn't in the expression`)
  // A constant of nature has one value: both ends are the same.
  for (const [symbol, [, from, to]] of Object.entries(f.inputs)) {
    if (!(Number.isFinite(from) && Number.isFinite(to) && from <= to)) faults.push(`range of ${symbol} is upside down`)
  }
  if (hasKink(tree) !== (f.smooth === false)) {
    faults.push(hasKink(tree) ? 'has a kink: say smooth: false' : 'has no kink, but says smooth: false')
  }
  return faults
}

/** The parsed expression, or why it doesn't parse. */
export function parsed(expression: string): MathNode | string {
  try {
    return math.parse(expression)
  } catch (error) {
    return `does not parse: ${(error as Error).message}`
  }
}
