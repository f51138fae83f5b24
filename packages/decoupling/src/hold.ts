import { type DecisionRule, type Margin, type MarginText, marginOf } from '@ohmward/budget'
import type { Board } from './inputs.js'
import type { Plan } from './plan.js'

/** Holds a value of a board against its limit, over all parts and conditions. */
export type Hold = (
  text: MarginText,
  value: (board: Board) => number,
  limit: number | ((board: Board) => number),
) => Margin

/** A model of boards as the engines take it: the row of a plan makes boards. */
export const model = (value: (board: Board) => number) =>
  value as unknown as (x: Readonly<Record<string, number>>) => number

/** Prepares a plan for holding margins. */
export const holding =
  ({ inputs, row, conditions }: Plan, rule: DecisionRule): Hold =>
  (text, value, limit) =>
    marginOf(
      { ...text, value: model(value), limit: typeof limit === 'number' ? limit : model(limit) },
      { inputs, row, conditions, ...rule },
    )
