import { demand, InputError } from '@ohmward/quantity'
import type { AnyFormula } from './formula.js'
import { demandFormulas } from './given.js'

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
 * @throws InputError naming what isn't given, or the symbol whose formula gives another value than the chain: a mistake of the
 *   block, never of its user
 */
export function derive(
  formulas: readonly AnyFormula[],
  inputs: Readonly<Record<string, number>>,
  computed: Readonly<Record<string, number>>,
): Derivation {
  demandFormulas(formulas)
  demand(isPlace(inputs), { field: 'inputs', value: inputs, allowed: 'values by symbol' })
  demand(isPlace(computed), { field: 'computed', value: computed, allowed: 'values by symbol' })
  const steps: DerivationStep[] = []
  for (const f of formulas) {
    const value = computed[f.symbol]
    if (value === undefined) continue
    // Only its own inputs: a formula that is shown ever other objects is slow from then on, in the chain as well.
    const used: Record<string, number> = {}
    for (const symbol of Object.keys(f.inputs)) used[symbol] = demandNumber(symbol, computed[symbol] ?? inputs[symbol])
    const again = f(used)
    if (!isSame(again, value)) {
      const hint = Number.isNaN(value) ? 'Is it called where the chain is followed?' : ''
      throw new InputError({ field: `computed.${f.symbol}`, value, allowed: `what its formula gives, ${again}`, hint })
    }
    const { symbol, quantity, unit, expression, source } = f
    steps.push({ symbol, quantity, unit, expression, inputs: used, value, source })
  }
  return steps
}

/** Whether two numbers are one, rounding apart; an endless one is only itself. */
const isSame = (a: number, b: unknown): boolean =>
  Object.is(a, b) || (Number.isFinite(b) && Math.abs(a - (b as number)) <= 1e-12 * Math.abs(b as number))

const isPlace = (values: unknown): boolean => typeof values === 'object' && values !== null && !Array.isArray(values)

/** The value of a symbol, which may be endless where the chain's is. */
function demandNumber(symbol: string, value: unknown): number {
  if (typeof value === 'number' && !Number.isNaN(value)) return value
  throw new InputError({ field: `inputs.${symbol}`, value, allowed: 'a number' })
}
