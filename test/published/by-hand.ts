import type { AnyFormula } from '@ohmward/budget'

/** A formula at one stated case, its value come to by arithmetic that knows nothing of the packages. */
export interface ByHand {
  readonly formula: AnyFormula
  readonly at: Readonly<Record<string, number>>
  /** `half of 4 V: 4 / 2 = 2`: words if wanted, plain numbers in the formula's units, the value as rounded. */
  readonly arithmetic: string
}

/** A case by hand; the symbols of `at` are those of the formula. */
export const byHand = <F extends AnyFormula>(formula: F, at: Parameters<F>[0], arithmetic: string): ByHand => ({
  formula,
  at,
  arithmetic,
})
