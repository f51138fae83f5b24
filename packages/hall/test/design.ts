import { exampleConverters } from '@ohmward/adc'
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

/** A check of the knife with some fields changed, without simulation. */
export const checked = (more: Partial<HallChoice> = {}, conditions: HallConditions = cell): HallAssessment =>
  checkHall({ ...knife, ...more }, conditions, { simulation: false })

/** A margin by its id. */
export function marginNamed({ margins }: HallAssessment, id: string) {
  const margin = margins.find((one) => one.id === id)
  if (!margin) throw new Error(`no margin ${id} among ${margins.map((one) => one.id).join(', ')}`)
  return margin
}
