export * from './formulas/index.js'
export * from './waveform/index.js'
