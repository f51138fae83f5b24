import type { DerivationStep } from '@ohmward/budget'
import { numbered } from '../chain/board.js'
import { type CapacitorPlace, capacitorChain } from '../chain/capacitor.js'
import type { ReadDecoupling } from '../choice/choice.js'
import * as f from '../formulas/index.js'
import { inParallel, together } from '../rail/parallel.js'

type CapacitorFormula = (typeof capacitorChain.formulas)[number]

/** What acts at insertion; all else acts at the rail. */
const insertion = /*#__PURE__*/ new Set<CapacitorFormula>([f.emptyCapacitance, f.mostAtInsertion, f.leastAtInsertion])

/** The formulas of a kind that do something to it: nothing ages where nothing is stated that ages. */
export function formulasOfKind({ a_dec, k_worn, k_dry, ESL }: CapacitorPlace, where: 'rail' | 'insertion') {
  const silent = new Set<CapacitorFormula>()
  if (a_dec === 0) silent.add(f.hoursOfAge).add(f.ageing)
  if (a_dec === 0 && k_worn === 1) silent.add(f.agedCapacitance)
  if (k_dry === 1) silent.add(f.grownResistance)
  if (ESL === 0) silent.add(f.effectiveSeriesInductance)
  const isThere = (one: CapacitorFormula): boolean => insertion.has(one) === (where === 'insertion')
  return capacitorChain.formulas.filter((one) => isThere(one) && !silent.has(one))
}

/** What is left of each of several kinds, and of all together: symbols with the number of the kind. */
export function kindSteps(
  { capacitors }: ReadDecoupling,
  kinds: readonly CapacitorPlace[],
  where: 'rail' | 'insertion',
): DerivationStep[] {
  const steps = kinds.flatMap((y, k) =>
    formulasOfKind(y, where).map((formula): DerivationStep => {
      const { symbol, quantity, unit, expression, source } = formula
      const values: Readonly<Record<string, number>> = y
      const inputs = Object.fromEntries(Object.keys(formula.inputs).map((name) => [name, values[name]!]))
      const whose = `${quantity} of ${capacitors[k]!.name}`
      return { symbol: numbered(k)(symbol), quantity: whose, unit, expression, inputs, value: values[symbol]!, source }
    }),
  )
  return [...steps, ...(where === 'rail' ? sumsAtRail(kinds) : sumsAtInsertion(kinds))]
}

function sumsAtRail(kinds: readonly CapacitorPlace[]): DerivationStep[] {
  const [C, ESR] = [kinds.map((y) => y.C), kinds.map((y) => y.ESR)]
  return [sumOf(f.capacitanceOfTwo, C), parallelOf(f.seriesResistanceOfTwo, ESR)]
}

function sumsAtInsertion(kinds: readonly CapacitorPlace[]): DerivationStep[] {
  const [C_e, ESR_e] = [kinds.map((y) => y.C_e), kinds.map((y) => y.ESR_e)]
  return [sumOf(f.emptyOfTwo, C_e), parallelOf(f.leastOfTwo, ESR_e)]
}

type OfTwo = typeof f.capacitanceOfTwo | typeof f.emptyOfTwo | typeof f.seriesResistanceOfTwo | typeof f.leastOfTwo

function sumOf(formula: OfTwo, values: readonly number[]): DerivationStep {
  const step = stepOf(formula, values)
  const value = together(values.map((capacitance) => ({ capacitance })))
  return { ...step, expression: Object.keys(step.inputs).join(' + '), value }
}

function parallelOf(formula: OfTwo, values: readonly number[]): DerivationStep {
  const step = stepOf(formula, values)
  const parts = Object.keys(step.inputs).map((name) => `1 / ${name}`)
  const value = inParallel(values.map((resistance) => ({ resistance })))
  return { ...step, expression: `1 / (${parts.join(' + ')})`, value }
}

function stepOf({ symbol, quantity, unit, source }: OfTwo, values: readonly number[]) {
  const inputs = Object.fromEntries(values.map((value, k) => [numbered(k)(symbol), value]))
  return { symbol, quantity: quantity.replace('both', 'all'), unit, inputs, source }
}
