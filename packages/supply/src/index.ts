export * from './formulas/index.js'
