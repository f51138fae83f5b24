export * from './convert.js'
export * from './formulas.js'
