import { InputError, type InputProblem } from './error.js'

/**
 * Throws the error of bad input unless a condition is met: for what a type alone can't state.
 *
 * @throws InputError; of `problem.field` itself where that names none
 */
export function demand(isSo: boolean, problem: InputProblem): asserts isSo {
  if (isSo) return
  const field: unknown = problem?.field
  const isNamed = typeof field === 'string' && field !== ''
  throw new InputError(isNamed ? problem : { field: 'problem.field', value: field, allowed: 'the name of a field' })
}

/** A finite number, or the error of its field. @throws InputError */
export function demandFinite(field: string, value: unknown): number {
  demand(typeof value === 'number' && Number.isFinite(value), { field, value, allowed: 'a finite number' })
  return value as number
}
