import { symbolMathML, symbolPower } from './symbol.ts'

/**
 * A typeset formula as MathML with slots `⟦…⟧`: `⟦R:x⟧` for the symbol `R_x`, `⟦R:x!⟧` where it stands before an
 * exponent or behind a minus sign, `⟦*⟧` for a product, `⟦[⟧⟦+a⟧…⟦-b,c⟧…⟦]⟧` for a sum. One template gives both lines of a derivation step: the
 * formula, and the formula with the numbers put in. Filling it needs no parser, so the browser gets none.
 */
export type Template = string

/** What a slot asks for. */
export interface Slot {
  readonly symbol: string
  /** Whether a number with a unit or a sign needs parentheses here. */
  readonly tight: boolean
}

export const slotOf = (symbol: string, tight: boolean): string => `⟦${symbol.replace('_', ':')}${tight ? '!' : ''}⟧`

/** Around the terms of a sum. */
export const sumOf = { start: '⟦[⟧', end: '⟦]⟧' } as const
/** Before each term of a sum: its sign, and what makes it zero. */
export const termOf = (sign: '+' | '-', zeros: readonly string[]): string =>
  `⟦${sign}${zeros.map((name) => name.replace('_', ':')).join(',')}⟧`

/** A symbol's value where it is known. */
export type Known = (symbol: string) => number | undefined

const one = '<mn>1</mn>'
const inParentheses = /(<msup>)?(⟦\*⟧)?<mrow><mo[^>]*>\(<\/mo>⟦1⟧(.*?)⟦\/1⟧<mo[^>]*>\)<\/mo><\/mrow>(⟦\*⟧)?/s
const overOne = /<mfrac>((?:(?!<\/?mfrac>).)*?)(?:<mrow>)?⟦1⟧<mn>1<\/mn>⟦\/1⟧(?:<\/mrow>)?<\/mfrac>/s

/**
 * A template with its sums written out: without the terms that are zero, and without parentheses around a term that is
 * left alone by that. A sum of zeros is 0.
 *
 * @param known - gives values; by default none, and every term stays
 */
export function writtenOut(template: Template, known: Known = () => undefined): Template {
  const isZero = (mark: string) => {
    const [name = '', zero = '0'] = mark.replace(':', '_').split('=')
    return known(name) === Number(zero)
  }
  const innermost = /⟦\[⟧((?:(?!⟦\[⟧).)*?)⟦\]⟧/s
  let text = template
  for (let match = innermost.exec(text); match; match = innermost.exec(text)) {
    const pieces = match[1]!.split(/⟦([+-][^⟧]*)⟧/).slice(1)
    const terms = pieces.flatMap((mark, i) => (i % 2 === 0 ? [{ mark, body: pieces[i + 1]! }] : []))
    const left = terms.filter(({ mark }) => !mark.slice(1).split(',').some(isZero))
    const sum = left
      .map(({ mark, body }, i) => (mark.startsWith('-') ? '<mo>−</mo>' : i > 0 ? '<mo>+</mo>' : '') + body)
      .join('')
    const isAlone = left.length === 1 && left[0]!.mark.startsWith('+')
    text = text.replace(match[0], () => (sum === '' ? '<mn>0</mn>' : isAlone ? `⟦1⟧${sum}⟦/1⟧` : sum))
    text = text
      .replace(inParentheses, (whole, power, before = '', body, behind = '') => {
        if (power) return whole
        if (body !== one || before + behind === '') return before + body + behind
        return before && behind ? before : ''
      })
      .replace(overOne, '$1')
      .replace(/⟦\/?1⟧/g, '')
  }
  return text
}

/** Fills the slots of a template. */
export function fill(template: Template, times: string, write: (slot: Slot) => string): string {
  return template.replace(/⟦([^⟧]+)⟧/g, (_, word: string) => {
    if (word === '*') return times
    const tight = word.endsWith('!')
    return write({ symbol: word.replace('!', '').replace(':', '_'), tight })
  })
}

/** The formula in symbols, without the terms that are known to be zero. */
export const inSymbols = (template: Template, known?: Known): string =>
  fill(
    writtenOut(template, known).replace(
      /<msup>⟦([^⟧!]+)!⟧(<mn>[^<]*<\/mn>)<\/msup>/g,
      (_, word: string, power: string) => symbolPower(word.replace(':', '_'), power),
    ),
    '<mspace width="0.1667em"></mspace>',
    ({ symbol }) => symbolMathML(symbol),
  )

/**
 * The formula with the numbers put in.
 *
 * @param write - gives a symbol's value as number and unit
 * @param known - leaves out the terms that are zero
 */
export const inNumbers = (
  template: Template,
  write: (symbol: string) => readonly [number: string, unit: string],
  known?: Known,
): string =>
  fill(writtenOut(template, known), '<mo>·</mo>', ({ symbol, tight }) => {
    const [number, unit] = write(symbol)
    const body = numberMathML(number, unit)
    return number.startsWith('−') || (tight && unit !== '') ? `<mrow><mo>(</mo>${body}<mo>)</mo></mrow>` : body
  })

/** A number with its unit, as MathML. */
export function numberMathML(number: string, unit: string): string {
  const [size, power] = number.replace(/^−/, '').split('e')
  const ten = `<msup><mn>10</mn>${power?.startsWith('−') ? `<mrow><mo form="prefix">−</mo><mn>${power.slice(1)}</mn></mrow>` : `<mn>${power}</mn>`}</msup>`
  const digits = power === undefined ? `<mn>${size}</mn>` : size === '1' ? ten : `<mn>${size}</mn><mo>·</mo>${ten}`
  const figure = number.startsWith('−') ? `<mo form="prefix">−</mo>${digits}` : digits
  return unit === '' ? figure : `<mrow>${figure}<mspace width="0.15em"></mspace><mtext>${unit}</mtext></mrow>`
}

/** A line of displayed mathematics. */
export const display = (body: string): string => `<math display="block"><mrow>${body}</mrow></math>`
