import type { AnyFormula } from './formula.js'

/** One line of a derivation: a formula with its numbers. */
export interface DerivationStep {
  readonly symbol: string
  readonly quantity: string
  readonly unit: string
  readonly expression: string
  readonly inputs: Readonly<Record<string, number>>
  readonly value: number
  readonly source: string
}

/** How a result came about, in the order of calculation. */
export type Derivation = readonly DerivationStep[]

/**
 * The formulas that the computed values name, in the order given, each evaluated again and required to give the value
 * that the chain gave. So a derivation can't drift from the code that computes.
 *
 * @param formulas - the block's formulas, in the order of calculation
 * @param inputs - the chain's inputs by symbol
 * @param computed - what the chain returned, by symbol
 * @throws Error when a formula's own value differs from the chain's: a mistake of the block, never of its user
 */
export function derive(
  formulas: readonly AnyFormula[],
  inputs: Readonly<Record<string, number>>,
  computed: Readonly<Record<string, number>>,
): Derivation {
  const all = { ...inputs, ...computed }
  const steps: DerivationStep[] = []
  for (const f of formulas) {
    const value = computed[f.symbol]
    if (value === undefined) continue
    // Only its own inputs: a formula that is shown ever other objects is slow from then on, in the chain as well.
    const used: Record<string, number> = {}
    for (const symbol of Object.keys(f.inputs)) used[symbol] = all[symbol]!
    const again = f(used)
    if (!(Object.is(again, value) || Math.abs(again - value) <= 1e-12 * Math.abs(value))) {
      const hint = Number.isNaN(value) ? ': is it called where the chain is followed?' : ''
      throw new Error(`derivation of ${f.symbol}: the chain gave ${value}, the formula gives ${again}${hint}`)
    }
    const { symbol, quantity, unit, expression, source } = f
    steps.push({ symbol, quantity, unit, expression, inputs: used, value, source })
  }
  return steps
}
