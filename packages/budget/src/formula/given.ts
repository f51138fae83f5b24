import { demand } from '@ohmward/quantity'
import type { AnyFormula } from './formula.js'

/** Formulas that were found to be some, and lists of them. */
const known = /*#__PURE__*/ new WeakSet<object>()
const lists = /*#__PURE__*/ new WeakSet<object>()

/** Throws unless it is a list of formulas; what was looked at once is known. @throws InputError naming the first that is none, and why */
export function demandFormulas(formulas: readonly AnyFormula[], field = 'formulas'): void {
  if (lists.has(formulas)) return
  if (!Array.isArray(formulas)) demand(false, { field, value: formulas, allowed: 'a list of formulas' })
  for (let i = 0; i < formulas.length; i++) {
    if (!known.has(formulas[i]!)) demandFormula(formulas[i]!, `${field}[${i}]`)
  }
  lists.add(formulas)
}

/** Throws unless it is a function with the description of a formula. @throws InputError */
export function demandFormula(formula: AnyFormula, field: string): void {
  if (known.has(formula)) return
  demand(typeof formula === 'function', { field, value: formula, allowed: 'a formula' })
  for (const name of ['symbol', 'quantity', 'unit', 'expression', 'source'] as const) {
    const value: unknown = formula[name]
    if (typeof value !== 'string') demand(false, { field: `${field}.${name}`, value, allowed: 'a text' })
  }
  const inputs: unknown = formula.inputs
  demand(typeof inputs === 'object' && inputs !== null, {
    field: `${field}.inputs`,
    value: inputs,
    allowed: 'inputs by symbol',
  })
  for (const [symbol, range] of Object.entries(formula.inputs as Record<string, unknown>)) {
    const [unit, from, to] = Array.isArray(range) ? range : []
    const isRange = typeof unit === 'string' && typeof from === 'number' && from <= to
    if (isRange) continue
    demand(false, {
      field: `${field}.inputs.${symbol}`,
      value: range,
      allowed: 'a unit and the range: [unit, from, to]',
    })
  }
  known.add(formula)
}
