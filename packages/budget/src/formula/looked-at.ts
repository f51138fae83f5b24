import { demand, demandShape } from '@ohmward/quantity'
import { at as bareAt, formula as bareFormula, type Formula, type FormulaText, type Values } from './formula.js'
import { demandFormula } from './given.js'

/** What a formula is told in, and what of it may be told anew where it gets other symbols. */
const told = {
  symbol: 'a text',
  quantity: 'a text',
  unit: 'a text',
  inputs: 'an object',
  expression: 'a text',
  source: 'a text',
  smooth: '?anything',
  compute: 'a function',
} as const
const toldAnew = { quantity: '?a text', source: '?a text' } as const

/** Letters, then at most one `_` and letters or digits: `V_x`. */
const isSymbol = (value: unknown): boolean => typeof value === 'string' && /^[A-Za-z]+(_[A-Za-z0-9]+)?$/.test(value)

function demandSymbol(value: unknown, field: string): void {
  demand(isSymbol(value), {
    field,
    value,
    allowed: 'a symbol such as V_x: letters, then at most one _ and letters or digits',
  })
}

/**
 * Attaches its description to `compute` and returns that very function, so that a chain calls formulas at the
 * speed of bare arithmetic. Mark each call with a pure annotation, or a bundler keeps the unused ones.
 *
 * A formula is bare arithmetic: inside its declared ranges it is proved, outside it gives what IEEE 754 gives.
 *
 * @throws InputError naming what of the description is missing, unknown or of another kind
 */
/*#__NO_SIDE_EFFECTS__*/
export function formula<const K extends string, const S extends string>(
  text: FormulaText<K, S> & { readonly compute: (x: Values<NoInfer<K>>) => number },
): Formula<K, S> {
  demandShape(text, 'formula', told)
  demandSymbol(text.symbol, 'formula.symbol')
  for (const symbol of Object.keys(text.inputs)) demandSymbol(symbol, 'formula.inputs')
  const { smooth } = text
  demand(smooth === undefined || smooth === false, {
    field: 'formula.smooth',
    value: smooth,
    allowed: 'false, or left out',
  })
  // The function itself carries the description: what is wrong in it is found on a stand-in, so that a refused one leaves no trace.
  demandFormula(bareFormula({ ...text, compute: () => 0 }), 'formula')
  return bareFormula(text)
}

/**
 * The same formula with other symbols: `at(dissipation, 'P_ref', (x: Values<'I_t' | 'R_ref'>) => ({ I: x.I_t, R: x.R_ref }))`.
 * `rename` may only pick properties; it is run on an object that answers with property names, which gives the
 * symbols of the new expression.
 *
 * @param more - replaces `quantity` or `source` of the new formula
 * @throws InputError where it is no formula, no symbol, or where `rename` leaves an input of the formula without a symbol or
 *   gives one that the formula doesn't have
 */
/*#__NO_SIDE_EFFECTS__*/
export function at<K extends string, L extends string, const S extends string>(
  original: Formula<K>,
  symbol: S,
  rename: (x: Values<L>) => Values<K>,
  more: Partial<Pick<FormulaText<K>, 'quantity' | 'source'>> = {},
): Formula<L, S> {
  demandFormula(original, 'original')
  demandSymbol(symbol, 'symbol')
  demand(typeof rename === 'function', { field: 'rename', value: rename, allowed: 'a function' })
  demandShape(more, 'more', toldAnew)
  demandNames(original.inputs, rename)
  return bareAt(original, symbol, rename, more)
}

/** Throws unless each input of the formula gets a symbol, and nothing else. */
function demandNames<K extends string, L extends string>(
  inputs: Formula<K>['inputs'],
  rename: (x: Values<L>) => Values<K>,
): void {
  const wanted = Object.keys(inputs)
  const allowed = `a symbol for each of ${wanted.join(', ')}`
  let names: unknown
  try {
    names = rename(new Proxy({}, { get: (_, name) => name }) as Values<L>)
  } catch {
    demand(false, { field: 'rename', value: rename, allowed: 'a function that only picks properties' })
  }
  demand(typeof names === 'object' && names !== null, { field: 'rename', value: names, allowed })
  const given = names as Readonly<Record<string, unknown>>
  for (const key of wanted) demand(isSymbol(given[key]), { field: `rename.${key}`, value: given[key], allowed })
  for (const key of Object.keys(given)) demand(key in inputs, { field: `rename.${key}`, value: given[key], allowed })
}
