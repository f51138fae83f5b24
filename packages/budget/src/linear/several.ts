import { InputError } from '@ohmward/quantity'
import type { LinearBudget } from '../budget/budget.js'
import { correlationFactor } from '../model/correlation.js'
import type { Correlation, Inputs, LinearOptions, Model } from '../model/model.js'
import { checkCall, demandFunction } from '../model/options.js'
import { linearNames, propagate } from './linear.js'

/** Several outputs of the same inputs. */
export interface LinearBudgets<M extends string> {
  readonly budgets: Readonly<Record<M, LinearBudget>>
  /** Names of the outputs, in the order of the rows and columns. */
  readonly outputs: readonly M[]
  /** Covariances of the outputs; standard uncertainties squared on the diagonal. */
  readonly covariance: readonly (readonly number[])[]
  /** Correlation coefficients of the outputs; 0 beside an output that doesn't vary. */
  readonly correlation: readonly (readonly number[])[]
}

/**
 * Linear propagation to several outputs at once, with what they have in common: the covariance matrix C Uₓ Cᵀ of the
 * outputs (JCGM 102:2011, 6.2.1; JCGM 100:2008, H.2.3). Who computes on from two outputs of the same inputs, and leaves
 * their correlation out, gets too wide or too narrow an answer.
 *
 * @param models - by the output's name
 * @param options - those of {@link propagate}, but for groups: members that add by size have no covariance
 * @throws InputError like {@link propagate}, and for groups
 */
export function propagateAll<const K extends string, const M extends string>(
  inputs: Inputs<K>,
  models: Readonly<Record<M, Model<NoInfer<K>>>>,
  options: Omit<LinearOptions<NoInfer<K>>, 'groups' | 'fill' | 'unit'> = {},
): LinearBudgets<M> {
  checkCall(
    inputs,
    () => 0,
    options,
    linearNames.filter((name) => !['groups', 'fill', 'unit'].includes(name)),
  )
  const outputs = Object.keys(Object(models)) as M[]
  if (typeof models !== 'object' || outputs.length === 0) {
    throw new InputError({ field: 'models', value: models, allowed: 'an object of functions of the inputs, by name' })
  }
  for (const name of outputs) demandFunction(`models.${name}`, models[name], 'a function of the inputs')
  const budgets = outputs.map((name) => propagate(inputs, models[name], options))
  const names = Object.keys(inputs)
  const rows = budgets.map(({ contributions }) => {
    const row = names.map(() => 0)
    for (const { input, contribution } of contributions) row[names.indexOf(input)] = contribution
    return row
  })
  const { pairs } = correlationFactor(names, (options.correlations ?? []) as readonly Correlation<string>[])
  const covariance = rows.map((a) =>
    rows.map((b) => {
      let sum = 0
      for (let i = 0; i < names.length; i++) sum += a[i]! * b[i]!
      for (const [i, j, r] of pairs) sum += r * (a[i]! * b[j]! + a[j]! * b[i]!)
      return sum
    }),
  )
  const us = budgets.map(({ u }) => u)
  const correlation = covariance.map((row, i) =>
    row.map((value, j) => {
      if (us[i] === 0 || us[j] === 0) return i === j ? 1 : 0
      return i === j ? 1 : Math.min(1, Math.max(-1, value / us[i]! / us[j]!))
    }),
  )
  return {
    budgets: Object.fromEntries(outputs.map((name, n) => [name, budgets[n]])) as Record<M, LinearBudget>,
    outputs,
    covariance,
    correlation,
  }
}
