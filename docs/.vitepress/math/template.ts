import { symbolMathML, symbolPower } from './symbol.ts'

/**
 * A typeset formula as MathML with slots `⟦…⟧`: `⟦R:x⟧` for the symbol `R_x`, `⟦R:x!⟧` where it stands before an
 * exponent or behind a minus sign, `⟦*⟧` for a product. One template gives both lines of a derivation step: the
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

/** Fills the slots of a template. */
export function fill(template: Template, times: string, write: (slot: Slot) => string): string {
  return template.replace(/⟦([^⟧]+)⟧/g, (_, word: string) => {
    if (word === '*') return times
    const tight = word.endsWith('!')
    return write({ symbol: word.replace('!', '').replace(':', '_'), tight })
  })
}

/** The formula in symbols. */
export const inSymbols = (template: Template): string =>
  fill(
    template.replace(/<msup>⟦([^⟧!]+)!⟧(<mn>[^<]*<\/mn>)<\/msup>/g, (_, word: string, power: string) =>
      symbolPower(word.replace(':', '_'), power),
    ),
    '<mspace width="0.1667em"></mspace>',
    ({ symbol }) => symbolMathML(symbol),
  )

/**
 * The formula with the numbers put in.
 *
 * @param write - gives a symbol's value as number and unit
 */
export const inNumbers = (
  template: Template,
  write: (symbol: string) => readonly [number: string, unit: string],
): string =>
  fill(template, '<mo>⋅</mo>', ({ symbol, tight }) => {
    const [number, unit] = write(symbol)
    const body = numberMathML(number, unit)
    return number.startsWith('−') || (tight && unit !== '') ? `<mrow><mo>(</mo>${body}<mo>)</mo></mrow>` : body
  })

/** A number with its unit, as MathML. */
export function numberMathML(number: string, unit: string): string {
  const figure = number.startsWith('−') ? `<mo form="prefix">−</mo><mn>${number.slice(1)}</mn>` : `<mn>${number}</mn>`
  return unit === '' ? figure : `<mrow>${figure}<mspace width="0.15em"></mspace><mtext>${unit}</mtext></mrow>`
}

/** A line of displayed mathematics. */
export const display = (body: string): string => `<math display="block"><mrow>${body}</mrow></math>`
