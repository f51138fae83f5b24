export * from './load.js'
export * from './monitor.js'
export * from './power.js'
export * from './pulse.js'
