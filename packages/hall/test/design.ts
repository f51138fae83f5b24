import { exampleConverters } from '@ohmward/adc'
import { remembered } from '../../../test/tools/remembered.js'
import { checkHall, exampleSensors, type HallAssessment, type HallChoice, type HallConditions } from '../src/index.js'

/** A sailmaker's hot knife: one cell, a blade of 0.7 ohm, up to 6 A. */
export const knife = {
  sensor: exampleSensors.wideSupplyOneWay,
  converter: exampleConverters['12-bit controller converter'],
  current: { from: 0, to: '6 A' },
  errors: [
    { at: '1 A', allowed: '0.25 A' },
    { at: '6 A', allowed: '6 %' },
  ],
  pwm: { frequency: '1 kHz', duty: { from: '10 %', to: '90 %' } },
  filter: { resistance: '330 ohm ±1 %', capacitance: '1 nF ±10 %' },
  timing: { edge: '1 us', samples: 1 },
} as const satisfies HallChoice

export const cell = { rail: { from: '3 V', to: '4.2 V' }, ambientCelsius: { from: 0, to: 50 } } satisfies HallConditions

const checkOnce = remembered(checkHall)

/** A check of the knife with some fields changed, without simulation. */
export const checked = (more: Partial<HallChoice> = {}, conditions: HallConditions = cell): HallAssessment =>
  checkOnce({ ...knife, ...more }, conditions, { simulation: false })

/** A margin by its id. */
export function marginNamed({ margins }: HallAssessment, id: string) {
  const margin = margins.find((one) => one.id === id)
  if (!margin) throw new Error(`no margin ${id} among ${margins.map((one) => one.id).join(', ')}`)
  return margin
}

/** One rail and one temperature. */
export const at = (rail: number, celsius = 25): HallConditions => ({
  rail: { from: rail, to: rail },
  ambientCelsius: { from: celsius, to: celsius },
})

/** How far from its middle the reading at the first of the wanted currents can be. */
export const reach = (more: object, conditions: HallConditions) => {
  const { extremes } = checked(more as Partial<HallChoice>, conditions).budgets['I_1']!
  return (extremes.upper - extremes.lower) / 2
}

/** How far one field of the sensor moves the reading at 1 A. */
export const part = (word: string, conditions: HallConditions, more: object = {}, sensor: object = knife.sensor) =>
  reach({ ...more, sensor }, conditions) - reach({ ...more, sensor: { ...sensor, [word]: 0 } }, conditions)

/** A sensor's fields without errors of their own. */
export const still = {
  sensitivityError: 0,
  sensitivityDrift: 0,
  zeroError: 0,
  zeroDrift: 0,
  zeroSupplyError: 0,
  sensitivitySupplyError: 0,
  nonlinearity: 0,
  hysteresis: 0,
  noiseDensity: 0,
  fieldRejectionDb: 120,
} as const
/** A sensor and a converter without errors of their own. */
export const perfect = {
  sensor: { ...knife.sensor, ...still },
  converter: {
    ...knife.converter,
    ...{ offset: 0, gain: 0, nonlinearity: 0, noise: 0, leakage: 0, samplingCapacitance: '1 fF' },
  },
}
