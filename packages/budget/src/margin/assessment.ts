import type { Budget } from '../budget/budget.js'
import type { Derivation } from '../formula/derivation.js'

/** `holds`: true at the worst case. `fails`: false there. `not sure`: the worst case could not be established, and the reason says why. */
export type Verdict = 'holds' | 'fails' | 'not sure'

/**
 * A limit and how far the choice stays from it. Every number is in `unit`; slack is positive when the margin passes.
 */
export interface Margin {
  /** Stable word for code and links: `output-headroom`. */
  readonly id: string
  /** What is watched, in words: `output headroom`. */
  readonly name: string
  readonly unit: string
  /** On which side of the limit the value must stay. */
  readonly sense: 'at least' | 'at most'
  readonly limit: number
  /** The value with every part at its nominal value, at the worst of the conditions. */
  readonly nominal: number
  /** The value at the worst case over all limits and conditions. */
  readonly worst: number
  /** Distance from the limit at the worst case; positive passes. */
  readonly slack: number
  /** Distance from the limit at nominal parts, at the worst of the conditions; positive passes. */
  readonly nominalSlack: number
  /** Probability that a board meets the limit, at the worst of the conditions; absent where nothing varies or none can be given. */
  readonly probability?: number
  readonly verdict: Verdict
  /** Why the worst case isn't sure; absent when it is. */
  readonly reason?: string
  /** Nothing is known of the value: `worst` is put at the limit, and is no number of the board's. */
  readonly isUnknown?: true
  /** Inputs at the worst case that differ from nominal, by symbol. */
  readonly at: Readonly<Record<string, number>>
  /** Numbers of the pitfalls that this margin catches: `A01`. */
  readonly catches: readonly string[]
}

/** Something that no calculation covers, or that can hurt. */
export interface Caution {
  readonly id: string
  readonly text: string
  /** Someone can be hurt: said before all others. */
  readonly danger?: true
  readonly catches?: readonly string[]
}

/** The answer of every `check…`: one shape for all blocks, plain data that survives JSON. */
export interface Assessment<B = Readonly<Record<string, Budget>>> {
  readonly block: string
  readonly verdict: Verdict
  /** One sentence: the verdict, the smallest margin, the error to expect. */
  readonly summary: string
  /** Nominal values by symbol, inputs included. */
  readonly values: Readonly<Record<string, number>>
  readonly derivation: Derivation
  /** Error budgets by the output's symbol or name. */
  readonly budgets: B
  /** Ordered by relative slack, least first. */
  readonly margins: readonly Margin[]
  readonly cautions: readonly Caution[]
  /** Assumptions, in sentences. */
  readonly assumptions: readonly string[]
}
