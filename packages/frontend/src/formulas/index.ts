export * from './load.js'
export * from './power.js'
