export { InputError, type InputProblem } from './error.js'
export type { Distribution, Input, Range, Spread } from './spread.js'
