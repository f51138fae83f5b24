export * from './power.js'
