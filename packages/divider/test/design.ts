import { exampleConverters } from '@ohmward/adc'
import type { Margin } from '@ohmward/budget'
import { remembered } from '../../../test/tools/remembered.js'
import { checkDivider, type DividerChoice, type DividerConditions, exampleAmplifiers } from '../src/index.js'

/** The hot knife's blade of 0.7 ohm, measured between pulses. */
export const knife: DividerChoice = {
  load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
  error: '5 %',
  reference: '47 ohm ±1 %',
  gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %' },
  amplifier: exampleAmplifiers.zeroDrift,
  converter: exampleConverters['12-bit controller converter'],
}

/** The same blade, hanging from the rail. */
export const knifeAtRail: DividerChoice = {
  ...knife,
  topology: 'load at rail',
  error: '50 %',
  gainResistors: { feedback: '22 kohm ±0.1 %', ground: '1 kohm ±0.1 %' },
}

/** One cell over its discharge. */
export const cell: DividerConditions = { rail: { from: 3.0, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }

/** A converter without any error, so that what is looked at stands alone. */
export const idealConverter = {
  bits: 12,
  reference: { kind: 'rail' },
  offset: 0,
  gain: 0,
  nonlinearity: 0,
  noise: 0,
  switchResistance: 0,
  samplingCapacitance: 1e-15,
  acquisitionTime: 1e-3,
  conversionTime: 0,
  leakage: 0,
} as const

/** An amplifier without any error. */
export const idealAmplifier = {
  offsetVoltage: 0,
  offsetDrift: 0,
  biasCurrent: 0,
  offsetCurrent: 0,
  openLoopGainDb: 200,
  commonModeRejectionDb: 200,
  supplyRejectionDb: 200,
  offsetSupply: '3.3 V',
  gainBandwidth: '10 MHz',
  slewRate: '10 V/us',
  highOutputDrop: 0,
  lowOutput: 0,
  sinkCurrent: '10 mA',
  commonModeLow: '-0.3 V',
  commonModeHighDrop: '-0.3 V',
  recovery: 0,
  noiseDensity: 0,
  supplyMinimum: '1.8 V',
  supplyMaximum: '60 V',
} as const

/** Surroundings without any error. */
export const quiet = { thermoelectric: 0, clampLeakage: 0 } as const

/** The knife with ideal parts all around: what a test adds stands alone. */
export const ideal: DividerChoice = {
  ...knife,
  reference: '47 ohm',
  referencePart: { temperatureCoefficient: 0 },
  gainResistors: { feedback: '22 kohm', ground: '1 kohm', ratioDrift: 0 },
  amplifier: idealAmplifier,
  converter: idealConverter,
  surroundings: quiet,
}

const checkOnce = remembered(checkDivider)
export const check = (choice: DividerChoice, conditions: DividerConditions = cell) =>
  checkOnce(choice, conditions, { simulation: false })

/** One margin of a check. */
export function margin(choice: DividerChoice, id: string, conditions: DividerConditions = cell): Margin {
  const { margins } = check(choice, conditions)
  const found = margins.find((one) => one.id === id)
  if (found === undefined) throw new Error(`no margin ${id} among ${margins.map((one) => one.id).join(', ')}`)
  return found
}
