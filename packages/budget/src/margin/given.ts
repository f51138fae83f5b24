import { demand, demandFinite, demandShape, demandText, readNumber, type Shape } from '@ohmward/quantity'
import type { Budget } from '../budget/budget.js'
import { demandList, knownOptions } from '../model/options.js'
import type { Margin } from './assessment.js'

/*
 * What functions about margins are given, looked at where they are called.
 */

/** Throws unless a margin says of itself what it must. @throws InputError */
export function demandMarginText(text: Pick<Margin, 'id' | 'name' | 'unit' | 'sense' | 'catches'>): void {
  demandObject('margin', text)
  const { id, name, unit, sense, catches } = text
  demandText('id', id)
  demandText('name', name)
  demandText('unit', unit)
  demandSense(sense)
  demandList('catches', catches)
  for (const value of catches) demand(typeof value === 'string', { field: 'catches', value, allowed: 'texts' })
}

/** Throws unless it says on which side of its limit a value must stay. @throws InputError */
export function demandSense(sense: unknown, field = 'sense'): void {
  const isSense = sense === 'at least' || sense === 'at most'
  demand(isSense, { field, value: sense, allowed: "'at least' or 'at most'" })
}

function demandObject(field: string, value: unknown): void {
  demand(typeof value === 'object' && value !== null, { field, value, allowed: 'an object' })
}

const numbers = ['slack', 'limit', 'worst'] as const

/** Throws unless it has the numbers of a margin. @throws InputError */
export function demandSlack(margin: Pick<Margin, (typeof numbers)[number]>, field = 'margin'): void {
  demandObject(field, margin)
  for (const name of numbers) if (!Number.isFinite(margin[name])) demandFinite(`${field}.${name}`, margin[name])
}

/** Throws unless it is a margin that was decided. @throws InputError */
export function demandMargin(margin: Margin, field = 'margin'): void {
  demandSlack(margin, field)
  const { name, unit, sense, verdict, reason = '', probability = 0 } = margin
  demandText(`${field}.name`, name)
  demandText(`${field}.unit`, unit)
  demandText(`${field}.reason`, reason)
  demandFinite(`${field}.probability`, probability)
  demandVerdict(verdict, field)
  demandSense(sense, `${field}.sense`)
}

/** Throws unless it is a verdict. @throws InputError */
export function demandVerdict(verdict: unknown, field: string): void {
  const isVerdict = verdict === 'holds' || verdict === 'fails' || verdict === 'not sure'
  demand(isVerdict, { field: `${field}.verdict`, value: verdict, allowed: "'holds', 'fails' or 'not sure'" })
}

const names = ['inputs', 'row', 'conditions', 'groups', 'accept']

/** Throws unless it is told over which inputs and conditions a worst case is sought. @throws InputError */
export function demandCircumstances(circumstances: object): void {
  const { inputs, row, conditions, groups, accept } = knownOptions(circumstances, names, 'circumstances') as Readonly<
    Record<string, unknown>
  >
  if (accept !== undefined) readNumber(accept, { field: 'accept', unit: '1', above: 0, max: 1 })
  const isRow = row === undefined || typeof row === 'function'
  demand(isRow, { field: 'row', value: row, allowed: 'a function of columns and an index' })
  if (groups !== undefined) demandList('groups', groups)
  demandList('conditions', conditions)
  const isSet = typeof inputs === 'object' && inputs !== null && !Array.isArray(inputs)
  demand(isSet, { field: 'inputs', value: inputs, allowed: 'an object of numbers and spreads, by name' })
  for (const name of conditions as readonly unknown[]) {
    const isInput = typeof name === 'string' && Object.hasOwn(inputs as object, name)
    demand(isInput, { field: 'conditions', value: name, allowed: 'names of inputs' })
  }
}

const simulated: Shape = {
  interval: 'a list',
  trials: 'a finite number',
  endError: 'a finite number',
  converged: 'true or false',
}

/** Throws unless it is a budget, as far as its words need one. @throws InputError naming the field */
export function demandBudget(budget: Budget, field = 'budget'): void {
  demandObject(field, budget)
  const { quantity, unit, linear, extremes, simulation } = budget
  demandText(`${field}.quantity`, quantity)
  demandText(`${field}.unit`, unit)
  demandObject(`${field}.linear`, linear)
  demandEnds(`${field}.linear.interval`, linear.interval)
  demandFinite(`${field}.linear.level`, linear.level)
  demandObject(`${field}.extremes`, extremes)
  demandEnds(`${field}.extremes`, [extremes.lower, extremes.upper])
  if (simulation === undefined) return
  demandObject(`${field}.simulation`, simulation)
  const { interval, trials, endError, converged } = simulation
  demandShape({ interval, trials, endError, converged }, `${field}.simulation`, simulated)
  demandEnds(`${field}.simulation.interval`, interval)
}

function demandEnds(field: string, ends: readonly number[]): void {
  demandList(field, ends)
  demandFinite(field, ends[0])
  demandFinite(field, ends[1])
}
