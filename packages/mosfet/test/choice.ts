import {
  exampleChoice,
  exampleDrives,
  exampleTransistors,
  type MosfetChoice,
  type MosfetConditions,
} from '../src/index.js'

export const pChannelLowVoltage = exampleTransistors['P-channel, driven from 1.8 V']
export const pChannelLogicLevel = exampleTransistors['P-channel, driven from 4.5 V']
export const nChannelLowVoltage = exampleTransistors['N-channel, driven from 1.8 V']
export const inverterFast = exampleDrives['NPN and pull-up of 1 kohm']
export const inverterSlow = exampleDrives['NPN and pull-up of 10 kohm']
export const pin = exampleDrives['controller pin']
export const driver = exampleDrives['driver circuit']

/** The hot knife with changes, nearly always on. */
export const knife = (changes: Partial<MosfetChoice> = {}): MosfetChoice => ({
  ...exampleChoice,
  pwm: { frequency: '100 Hz', duty: { from: 0.05, to: 0.95 } },
  ...changes,
})

/** A cell from full to empty on round numbers, and air, with changes. */
export const cell = (changes: Partial<MosfetConditions> = {}): MosfetConditions => ({
  openCircuit: { from: 3, to: 4.2 },
  sourceResistance: '90 mohm ±30 mohm',
  ambientCelsius: { from: 0, to: 50 },
  ...changes,
})

/** The same knife with an N-channel switch on the low side, straight from a pin. */
export const lowSide = (changes: Partial<MosfetChoice> = {}): MosfetChoice =>
  knife({ transistor: nChannelLowVoltage, drive: pin, thermal: { junctionToAmbient: '70 K/W ±20 %' }, ...changes })
