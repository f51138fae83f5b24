export * from './waveform/index.js'
