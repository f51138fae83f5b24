import type { AnyFormula } from '@ohmward/budget'
import { faultsOfAgreement } from './agree.js'
import { faultsOfDerivatives } from './derivative.js'
import { uniform } from './sample.js'
import { faultsOfTree, parsed } from './tree.js'
import { faultsOfUnits } from './units.js'

/** How an expression is typeset; throws where it can't. */
export type Typeset = (expression: string) => string

/**
 * What is wrong with a formula; empty when it is proved: its words, its parsed expression, the agreement of its two
 * forms, its units, its derivatives, its typesetting. Seeded: the same formula gives the same answer.
 */
export function faultsOf(f: AnyFormula, typeset: Typeset, seed = 1): string[] {
  const tree = parsed(f.expression)
  if (typeof tree === 'string') return [tree]
  const faults = faultsOfTree(f, tree)
  if (faults.length > 0) return faults
  const random = uniform(seed)
  return [
    ...faultsOfAgreement(f, tree, random),
    ...faultsOfUnits(f, tree, random),
    ...faultsOfDerivatives(f, tree, random),
    ...faultsOfTypesetting(f, typeset),
  ]
}

/** Every symbol must be set by the project's own handler: none of mathjs' own escapes may be left. */
function faultsOfTypesetting(f: AnyFormula, typeset: Typeset): string[] {
  try {
    const tex = typeset(f.expression)
    if (tex.trim() === '') return ['typesets to nothing']
    return /\\_|undefined|NaN|--/.test(tex) ? [`typesets badly: ${tex}`] : []
  } catch (error) {
    return [`does not typeset: ${(error as Error).message}`]
  }
}

/** Whether a module's export is a formula. */
export function isFormula(value: unknown): value is AnyFormula {
  return typeof value === 'function' && ['symbol', 'unit', 'inputs', 'expression'].every((key) => key in value)
}

/** Formulas among a module's exports, those in exported lists and plain objects included. */
export function formulasOf(module: object): AnyFormula[] {
  return Object.values(module).flatMap((value: unknown) => {
    if (isFormula(value)) return [value]
    if (Array.isArray(value)) return value.filter(isFormula)
    const isPlainObject =
      typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype
    return isPlainObject ? Object.values(value).filter(isFormula) : []
  })
}
