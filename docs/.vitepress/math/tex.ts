import type { MathNode } from 'mathjs'
import { parse } from 'mathjs'

/** How a typesetter writes the two things that differ between a formula in symbols and one with numbers. */
export interface TexStyle {
  /** `tight`: before an exponent, or behind a minus sign. */
  readonly symbol: (name: string, tight: boolean) => string
  readonly times: string
  /** A sum whose terms can be left out where they are zero: what makes each zero stands beside it. */
  readonly sum?: (terms: readonly Term[]) => string
}

/** A term of a sum. */
export interface Term {
  readonly tex: string
  readonly sign: '+' | '-'
  /** Symbols that make the term zero where they are zero, and `x=1` for a factor of `1 - x`. */
  readonly zeros: readonly string[]
}

/** How strongly a piece of TeX holds together: a piece is put in parentheses where something stronger is needed. */
enum Hold {
  relation,
  sum,
  /** A product that begins with a sign: fine on the left, in parentheses on the right. */
  signed,
  product,
  fraction,
  power,
  atom,
}

interface Piece {
  readonly tex: string
  readonly hold: Hold
}

interface Place {
  readonly style: TexStyle
  /** In an exponent a quotient is written with a slash. */
  readonly small: boolean
  readonly tight: boolean
}

const atom = (tex: string): Piece => ({ tex, hold: Hold.atom })
const parentheses = (tex: string): string => `\\left(${tex}\\right)`
const named = (name: string) => (args: string[]) => ({
  tex: `${name}${parentheses(args.join(', '))}`,
  hold: Hold.power,
})

const functions: Readonly<Record<string, (args: string[]) => Piece>> = {
  sqrt: ([x]) => ({ tex: `\\sqrt{${x}}`, hold: Hold.power }),
  abs: ([x]) => atom(`\\left|${x}\\right|`),
  // Words, as min and max: the brackets of a floor are in few fonts, and without them it reads as another formula.
  floor: named('\\operatorname{floor}'),
  ceil: named('\\operatorname{ceil}'),
  round: named('\\operatorname{round}'),
  exp: ([x]) => ({ tex: `\\mathrm{e}^{${x}}`, hold: Hold.power }),
  log: named('\\ln'),
  log10: named('\\lg'),
  log2: named('\\log_2'),
  min: named('\\min'),
  max: named('\\max'),
  sign: named('\\operatorname{sgn}'),
  sin: named('\\sin'),
  cos: named('\\cos'),
  tan: named('\\tan'),
  atan: named('\\arctan'),
  sinh: named('\\sinh'),
  cosh: named('\\cosh'),
  tanh: named('\\tanh'),
}

const relations: Readonly<Record<string, string>> = {
  smaller: '<',
  larger: '>',
  smallerEq: '\\le',
  largerEq: '\\ge',
  equal: '=',
  unequal: '\\ne',
}

/** An expression as mathjs reads it, typeset as TeX. Throws on anything outside the language of formulas. */
export function texOf(expression: string, style: TexStyle): string {
  return piece(parse(expression), { style, small: false, tight: false }).tex
}

function piece(node: any, place: Place): Piece {
  switch (node.type as string) {
    case 'ConstantNode':
      return constant(node.value)
    case 'SymbolNode':
      return atom(node.name === 'pi' ? '\\pi' : place.style.symbol(node.name, place.tight))
    case 'ParenthesisNode':
      return piece(node.content, { ...place, tight: false })
    case 'OperatorNode':
      return operator(node, place)
    case 'FunctionNode':
      return call(node, place)
    case 'ConditionalNode':
      return cases(node, { ...place, tight: false })
    default:
      throw refused(node)
  }
}

function constant(value: unknown): Piece {
  if (typeof value !== 'number') throw new Error(`an expression holds ${String(value)}, which is no number`)
  const power = /^(\d+(?:\.\d+)?)e([+-]?\d+)$/.exec(String(value))
  if (!power) return atom(String(value))
  const ten = `10^{${Number(power[2])}}`
  return {
    tex: power[1] === '1' ? ten : `${power[1]}\\cdot ${ten}`,
    hold: power[1] === '1' ? Hold.power : Hold.product,
  }
}

function operator(node: any, place: Place): Piece {
  const inner = (child: MathNode, need: Hold, more: Partial<Place> = {}) =>
    wrapped(piece(child, { ...place, tight: false, ...more }), need)
  const [a, b] = node.args
  const { fn } = node
  if (fn in relations)
    return { tex: `${inner(a, Hold.sum)} ${relations[fn]} ${inner(b, Hold.sum)}`, hold: Hold.relation }
  switch (fn) {
    case 'unaryMinus':
      return { tex: `-${inner(a, Hold.product)}`, hold: Hold.signed }
    case 'add':
    case 'subtract': {
      const terms = termsOf(node).map(({ of, sign }, i) => ({
        tex: inner(of, i === 0 ? Hold.sum : Hold.product),
        sign,
        zeros: zerosOf(of),
      }))
      const plain = terms.map(({ tex, sign }, i) => (i === 0 ? tex : sign + tex)).join('')
      return { tex: place.style.sum?.(terms) ?? plain, hold: Hold.sum }
    }
    case 'multiply': {
      if (node.implicit) throw new Error(`implicit multiplication in ${node}`)
      const left = inner(a, Hold.signed)
      const right = inner(b, Hold.product)
      return { tex: times(left, right, place), hold: product(left) }
    }
    case 'divide': {
      const log = logarithm(node, place)
      if (log) return log
      if (place.small)
        return { tex: `${inner(a, Hold.signed)}/${inner(b, Hold.power)}`, hold: product(inner(a, Hold.signed)) }
      // What is divided twice has one line, and both below it.
      const above = bare(a)
      const isTwice = above.fn === 'divide' && !logarithm(above, place)
      const over = isTwice ? above.args[0] : a
      const under = isTwice
        ? times(inner(above.args[1], Hold.product), inner(b, Hold.product), place)
        : inner(b, Hold.relation)
      return { tex: `\\frac{${inner(over, Hold.relation)}}{${under}}`, hold: Hold.fraction }
    }
    case 'pow':
      return {
        tex: `${inner(a, Hold.atom, { tight: true })}^{${inner(b, Hold.relation, { small: true })}}`,
        hold: Hold.power,
      }
    default:
      throw refused(node)
  }
}

const times = (left: string, right: string, { style }: Place): string =>
  `${left}${/^\d/.test(right) ? '\\cdot ' : style.times}${right}`

/** A node without the parentheses around it. */
const bare = (node: any): any => (node.type === 'ParenthesisNode' ? bare(node.content) : node)

/** The terms of a sum that is written without parentheses, from left to right. */
function termsOf(node: any): { of: any; sign: Term['sign'] }[] {
  if (node.fn !== 'add' && node.fn !== 'subtract') return [{ of: node, sign: '+' }]
  const [a, b] = node.args
  return [...termsOf(a), { of: b, sign: node.fn === 'add' ? '+' : '-' }]
}

/** What makes a product zero. */
function zerosOf(node: any): string[] {
  const args = node.args ?? []
  if (node.type === 'SymbolNode') return node.name === 'pi' ? [] : [node.name]
  if (node.type === 'ParenthesisNode') return zerosOf(node.content)
  if (node.fn === 'multiply') return args.flatMap(zerosOf)
  if (node.fn === 'divide' || node.fn === 'unaryMinus') return zerosOf(args[0])
  if (node.fn === 'pow') return args[1].type === 'ConstantNode' ? zerosOf(args[0]) : []
  const isFromOne = node.fn === 'subtract' && args[0].value === 1 && args[1].type === 'SymbolNode'
  return isFromOne ? [`${args[1].name}=1`] : []
}

/** The logarithm to another base, where one natural logarithm is divided by that of a number: `20 ln x / ln 10` is `20 lg x`. */
function logarithm({ args: [a, b] }: any, place: Place): Piece | undefined {
  const isLog = (node: any) => node.type === 'FunctionNode' && node.fn.name === 'log'
  if (!isLog(b) || b.args[0].type !== 'ConstantNode') return undefined
  const name = b.args[0].value === 10 ? '\\lg' : `\\log_{${b.args[0].value}}`
  const set = ({ args }: any) => named(name)(args.map((x: MathNode) => piece(x, { ...place, tight: false }).tex))
  if (isLog(a)) return set(a)
  if (a.fn !== 'multiply' || !isLog(a.args[1])) return undefined
  const factor = wrapped(piece(a.args[0], { ...place, tight: false }), Hold.signed)
  return { tex: `${factor}${place.style.times}${set(a.args[1]).tex}`, hold: product(factor) }
}

function call(node: any, place: Place): Piece {
  const write = Object.hasOwn(functions, node.fn.name) ? functions[node.fn.name] : undefined
  if (!write) throw refused(node)
  const small = place.small || node.fn.name === 'exp'
  return write(node.args.map((x: MathNode) => piece(x, { ...place, small, tight: false }).tex))
}

/** Nested conditions become the lines of one list of cases. */
function cases(node: any, place: Place): Piece {
  const lines: string[] = []
  let rest = node
  for (; rest.type === 'ConditionalNode' || rest.type === 'ParenthesisNode'; ) {
    if (rest.type === 'ParenthesisNode') {
      rest = rest.content
      continue
    }
    lines.push(`${piece(rest.trueExpr, place).tex} & \\text{if } ${piece(rest.condition, place).tex}`)
    rest = rest.falseExpr
  }
  lines.push(`${piece(rest, place).tex} & \\text{otherwise}`)
  return atom(`\\begin{cases}${lines.join('\\\\')}\\end{cases}`)
}

const product = (left: string): Hold => (left.startsWith('-') ? Hold.signed : Hold.product)

const wrapped = ({ tex, hold }: Piece, need: Hold): string => (hold < need ? parentheses(tex) : tex)

const refused = (node: any): Error => new Error(`an expression may not hold ${node.type}: ${String(node)}`)
