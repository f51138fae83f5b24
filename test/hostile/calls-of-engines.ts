import * as adc from '@ohmward/adc'
import * as budget from '@ohmward/budget'
import * as statistics from '@ohmward/budget/statistics'
import * as quantity from '@ohmward/quantity'
import type { Call } from './call.js'

const { plusMinus } = quantity
const inputs = { a: plusMinus(2, 0.1), b: { ...plusMinus(3, 0.2, { kind: 'normal', coverage: 2 }) }, c: 1 }
const model = ({ a, b, c }: { a: number; b: number; c: number }) => (a * b) / c
const text = { id: 'x', name: 'product', unit: 'V', sense: 'at most', catches: ['A01'] }
const field = { field: 'value', unit: 'V', min: 0, max: 10, symbol: 'V' } as const
const task = { name: 'a', window: 'on', recovery: 0, settling: 1e-4, acquisition: 1e-5, conversion: 1e-5, samples: 2 }
const windows = adc.schedule([task as never, { ...task, name: 'b', window: 'off' } as never])
const target = adc.currentTarget({ amperesPerCount: 0.01, zeroCode: 2048, half: 0.5, unit: 0.001 })
const rational = adc.railTarget({ reference: 1.2, bits: 12, half: 0.5, unit: 0.001 })
const scaling = adc.scaleLinear(target, { codes: 4095, word: 32 })
if (scaling.kind !== 'possible') throw new Error('no integers')
const { integers, proof } = scaling
const scale = { bits: 12, reference: 3.3, transitions: 'truncating' } as const
const tolerance = { lower: -1, upper: 1 }
const converter = adc.exampleConverters['12-bit controller converter']

/** Calls of numbers, engines and the converter, each with arguments that are taken. */
export const callsOfEngines: readonly Call[] = [
  ['quantity.readNumber', quantity.readNumber, ['3.3 V', field]],
  ['quantity.readSpread', quantity.readSpread, ['3.3 V ±2 %', field]],
  ['quantity.readSpread of an object', quantity.readSpread, [plusMinus(3, 0.1), field]],
  ['quantity.readRange', quantity.readRange, [{ from: 1, to: '2 V' }, field]],
  ['quantity.format', quantity.format, [0.0047, 'ohm', { digits: 3 }]],
  ['quantity.formatParts', quantity.formatParts, [0.0047, 'V', { digits: 3 }]],
  ['quantity.typographic', quantity.typographic, ['uV/Hz^0.5']],
  ['quantity.exact', quantity.exact, [3]],
  ['quantity.plusMinus', quantity.plusMinus, [3, 0.1, { kind: 'rectangular' }]],
  ['quantity.relative', quantity.relative, [3, 0.1, { kind: 'normal', coverage: 2 }]],
  ['quantity.between', quantity.between, [1, 3, 2]],
  ['quantity.scaled', quantity.scaled, [plusMinus(3, 0.1), 2]],
  ['quantity.nominalOf', quantity.nominalOf, [plusMinus(3, 0.1)]],
  ['quantity.percent', quantity.percent, [3]],
  ['quantity.ppm', quantity.ppm, [3]],
  ['quantity.nearest', quantity.nearest, [47, 'E24']],
  ['quantity.nextUp', quantity.nextUp, [47, 'E24']],
  ['quantity.nextDown', quantity.nextDown, [47, 'E24']],
  ['quantity.preferredAtLeast', quantity.preferredAtLeast, [47, 'E24']],
  ['quantity.preferredAtMost', quantity.preferredAtMost, [47, 'E24']],
  ['quantity.preferredIn', quantity.preferredIn, [{ from: 10, to: 100 }, 'E24']],
  ['quantity.preferredValues', quantity.preferredValues, ['E24']],
  ['quantity.resistorCode', quantity.resistorCode, [4700, 0.01]],
  ['quantity.readResistorCode', quantity.readResistorCode, ['4K7F']],
  ['quantity.capacitorCode', quantity.capacitorCode, [1e-7, 0.1]],
  ['quantity.readCapacitorCode', quantity.readCapacitorCode, ['100nK']],
  ['quantity.nearestName', quantity.nearestName, ['volatge', ['voltage', 'current']]],
  ['budget.propagate', budget.propagate, [inputs, model, { level: 0.95 }]],
  ['budget.propagateAll', budget.propagateAll, [inputs, { one: model, two: model }, { level: 0.9 }]],
  ['budget.extremes', budget.extremes, [inputs, model, {}]],
  ['budget.simulate', budget.simulate, [inputs, model, { seed: 1, trials: 1000 }]],
  [
    'budget.compare',
    budget.compare,
    [
      { interval: [0, 1], u: 0.2, level: 0.95 },
      { interval: [0, 1.01], level: 0.95, endError: 0.001 },
      { digits: 2, unit: 'V' },
    ],
  ],
  [
    'budget.marginOf',
    budget.marginOf,
    [
      { ...text, value: model, limit: 8 },
      { inputs, conditions: ['a'] },
    ],
  ],
  [
    'budget.worstCaseOf',
    budget.worstCaseOf,
    [
      { sense: 'at most', value: model, limit: 8 },
      { inputs, conditions: ['a'] },
    ],
  ],
  ['budget.plainMargin', budget.plainMargin, [text, 1, 2, 0.5]],
  ['budget.readings', budget.readings, [[1, 2, 3, 4]]],
  ['budget.simultaneous', budget.simultaneous, [{ U: [1, 2, 3, 4], I: [2, 3, 3, 5] }]],
  ['budget.readCheckOptions', budget.readCheckOptions, [{ simulation: { seed: 1 }, accept: 0.99 }]],
  ['budget.grid', budget.grid, [{ rail: [3, 4], celsius: [0, 50] }]],
  [
    'statistics.conformity',
    statistics.conformity,
    [
      { estimate: 1, u: 0.1 },
      { lower: 0, upper: 2 },
    ],
  ],
  ['statistics.guardBand', statistics.guardBand, [0.1, { multiple: 2 }]],
  ['statistics.acceptanceLimits', statistics.acceptanceLimits, [tolerance, 0.1, { probability: 0.95 }]],
  ['statistics.globalRisks', statistics.globalRisks, [{ process: { mean: 0, u: 1 }, u: 0.1, tolerance }]],
  ['statistics.moments', statistics.moments, [plusMinus(1, 0.1)], /degreesOfFreedom$/],
  ['statistics.normalDensity', statistics.normalDensity, [1]],
  ['statistics.normalProbability', statistics.normalProbability, [1]],
  ['statistics.normalQuantile', statistics.normalQuantile, [0.9]],
  ['statistics.studentProbability', statistics.studentProbability, [1, 4]],
  ['statistics.studentQuantile', statistics.studentQuantile, [0.9, 4]],
  ['adc.readConverter', adc.readConverter, [converter]],
  ['adc.readInternalReference', adc.readInternalReference, [Object.values(adc.exampleInternalReferences)[0]]],
  ['adc.toCode', adc.toCode, [1.2, scale]],
  ['adc.toVolts', adc.toVolts, [100, scale]],
  ['adc.transition', adc.transition, [100, scale]],
  ['adc.averaged', adc.averaged, [0.4, 16]],
  ['adc.schedule', adc.schedule, [[task, { ...task, name: 'b', window: 'off' }], 1e-6]],
  ['adc.dutyRange', adc.dutyRange, [windows, 1000]],
  ['adc.highestPwmFrequency', adc.highestPwmFrequency, [windows, { from: 0.1, to: 0.9 }], /^$/],
  ['adc.spareTime', adc.spareTime, [windows, { frequency: 1000, duty: 0.5 }]],
  ['adc.scaleLinear', adc.scaleLinear, [target, { codes: 4095, word: 32 }]],
  ['adc.scaleRational', adc.scaleRational, [rational, { codes: 1023, word: 32, largest: 10000 }]],
  ['adc.prove', adc.prove, [integers, target]],
  ['adc.execute', adc.execute, [integers, 2048]],
  ['adc.toC', adc.toC, [integers, proof, { name: 'milliamperes', unit: 'mA' }]],
  ['adc.toTypeScript', adc.toTypeScript, [integers, proof, { name: 'milliamperes', unit: 'mA' }]],
]
