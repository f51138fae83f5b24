import { exampleConverters } from '@ohmward/adc'
import { exampleChoice as rail, exampleConditions as railConditions, sweepDecoupling } from '@ohmward/decoupling'
import { exampleChoice as blade, exampleConditions as bladeConditions, sweepDivider } from '@ohmward/divider'
import { exampleSensors, sweepHall } from '@ohmward/hall'
import { sweepMosfet, exampleChoice as transistor, exampleConditions as transistorConditions } from '@ohmward/mosfet'
import { InputError } from '@ohmward/quantity'
import { expect, it } from 'vitest'

const current = {
  sensor: exampleSensors.wideSupplyOneWay,
  converter: exampleConverters['12-bit controller converter'],
  current: { from: 0, to: '6 A' },
  errors: [{ at: '6 A', allowed: '6 %' }],
}
const cell = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }
const wrong = [{ ambientCelsuis: 50 }] as never

/* A misspelled condition would leave the whole range in place: its answer is that of another question. */
it.each([
  ['divider', () => sweepDivider(blade, bladeConditions, wrong)],
  ['hall', () => sweepHall(current, cell, wrong)],
  ['mosfet', () => sweepMosfet(transistor, transistorConditions, wrong)],
  ['decoupling', () => sweepDecoupling(rail, railConditions, wrong)],
])('a sweep of %s refuses a point with a name that is no condition', (_, call) => {
  let message = ''
  try {
    call()
  } catch (error) {
    if (error instanceof InputError) message = error.message
  }
  expect(message).toMatch(/^points\[0\].*ambientCelsuis/)
})
