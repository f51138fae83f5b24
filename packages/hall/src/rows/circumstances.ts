import { type AnyFormula, behind, type DecisionRule } from '@ohmward/budget'
import type { Input } from '@ohmward/quantity'
import { nominalOf } from '../chain/inputs.js'
import type { Plan } from '../chain/plan.js'
import { namesInZero } from '../chain/put.js'

/** Circumstances with a current in the on-window. */
export const whileOn = (plan: Plan, I_x: number, rule: DecisionRule) => ({
  inputs: { ...plan.inputs(I_x), D_x: 1, w_x: 0 } as Record<string, Input>,
  row: plan.row,
  conditions: plan.conditions,
  groups: plan.groups,
  ...rule,
})

type Circumstances = ReturnType<typeof whileOn>

/** Only what stands behind these symbols varies: the others make no difference to what is watched. */
export const watching = (formulas: readonly AnyFormula[], symbols: readonly string[], given: Circumstances) =>
  only(behind(formulas, symbols), given)

/** The same of symbols in the reading of the zero: there some inputs have names of their own. */
export const watchingZero = (formulas: readonly AnyFormula[], symbols: readonly string[], given: Circumstances) =>
  only(new Set([...behind(formulas, symbols)].flatMap((name) => [name, namesInZero[name] ?? name])), given)

function only(names: ReadonlySet<string>, { inputs, ...rest }: Circumstances): Circumstances {
  const kept: Record<string, Input> = {}
  for (const [name, input] of Object.entries(inputs)) {
    kept[name] = names.has(name) || rest.conditions.includes(name) ? input : nominalOf(input)
  }
  return { ...rest, inputs: kept }
}
