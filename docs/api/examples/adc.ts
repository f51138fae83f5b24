import {
  averaged,
  currentTarget,
  dutyRange,
  exampleConverters,
  exampleInternalReferences,
  execute,
  highestPwmFrequency,
  largestOf,
  missedCounts,
  nearEdge,
  ofSum,
  prove,
  railTarget,
  readConverter,
  readInternalReference,
  resistanceTarget,
  scaleLinear,
  scaleRational,
  schedule,
  spareTime,
  targetAt,
  toC,
  toCode,
  toTypeScript,
  toVolts,
  transition,
} from '@ohmward/adc'
import { plusMinus } from '@ohmward/quantity'

const scale = { bits: 10, reference: 3.3 }
const windows = schedule([
  { name: 'current', window: 'on', recovery: 5e-6, settling: 120e-6, acquisition: 12e-6, conversion: 92e-6 },
  { name: 'resistance', window: 'off', recovery: 50e-6, settling: 200e-6, acquisition: 12e-6, conversion: 92e-6 },
])
const milliamperes = currentTarget({ amperesPerCount: 0.0161, zeroCode: 512, half: 0.5, unit: 1e-3 })

export const examples = [
  () => toCode(1.234, scale),
  () => [toVolts(382, scale), transition(382, scale)],
  () => averaged(0.7, 16),
  () => readConverter(exampleConverters['10-bit controller converter']).spreads.e_offset,
  () => readInternalReference(exampleInternalReferences['trimmed reference'])['V_bg'],
  () => windows.on,
  () => dutyRange(windows, 500),
  () => highestPwmFrequency(windows, { from: 0.2, to: 0.6 }),
  () => spareTime(windows, { duty: 0.5, frequency: 500 }),
  () => nearEdge(windows.on, 300e-6, 20e-6),
  () =>
    missedCounts({
      R_src: 10e3,
      capacitance: plusMinus(10e-9, 1e-9),
      R_sw: 1e3,
      C_sh: 8e-12,
      bits: 12,
      t_acq: 2e-6,
      T_s: 1e-3,
    }),
  () => targetAt(milliamperes, 600),
  () => {
    const found = scaleLinear(ofSum(milliamperes, 16), { codes: 16 * 1023, word: 32 })
    return found.kind === 'possible' ? found.integers : found.reason
  },
  () => {
    const target = resistanceTarget({ span: 47, lead: 0.05, fullScale: 1024 * 40, half: 0.5, unit: 1e-3 })
    const found = scaleRational(target, { codes: 1023, word: 32, largest: 2000 })
    if (found.kind === 'possible') {
      return [execute(found.integers, 600), prove(found.integers, target).worstError, largestOf(32)]
    }
    return undefined
  },
  () => {
    const found = scaleRational(railTarget({ reference: 1.21, bits: 12, half: 0.5, unit: 1e-3 }), {
      codes: 4095,
      word: 32,
      largest: 6000,
    })
    return found.kind === 'possible' && toC(found.integers, found.proof, { name: 'rail_mv', unit: 'mV' })
  },
  () => {
    const found = scaleLinear(milliamperes, { codes: 1023, word: 32 })
    return found.kind === 'possible' && toTypeScript(found.integers, found.proof, { name: 'milliamperes', unit: 'mA' })
  },
]
