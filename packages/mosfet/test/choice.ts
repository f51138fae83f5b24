import {
  exampleChoice,
  exampleConditions,
  exampleDrives,
  exampleTransistors,
  type MosfetChoice,
  type MosfetConditions,
} from '../src/index.js'

export const { pChannelLowVoltage, pChannelLogicLevel, nChannelLowVoltage } = exampleTransistors
export const { inverterFast, inverterSlow, pin, driver } = exampleDrives

/** The hot knife with changes. */
export const knife = (changes: Partial<MosfetChoice> = {}): MosfetChoice => ({ ...exampleChoice, ...changes })

/** Its cell and air with changes. */
export const cell = (changes: Partial<MosfetConditions> = {}): MosfetConditions => ({
  ...exampleConditions,
  ...changes,
})

/** The same knife with an N-channel switch on the low side, straight from a pin. */
export const lowSide = (changes: Partial<MosfetChoice> = {}): MosfetChoice =>
  knife({ transistor: nChannelLowVoltage, drive: pin, thermal: { junctionToAmbient: '70 K/W ±20 %' }, ...changes })
