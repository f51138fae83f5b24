import { expect } from 'vitest'
import { checkDecoupling, type DecouplingChoice, type DecouplingConditions } from '../src/index.js'

export const cell = { resistance: 0.1 }
export const bulk = { name: 'bulk', capacitance: 1e-3, ratedVoltage: 10, seriesResistance: 0.01 }
export const base = {
  source: cell,
  capacitors: [bulk],
  load: { current: 8 },
  limits: { brownOut: 3 },
} satisfies DecouplingChoice
const one: DecouplingConditions = {
  openCircuit: { from: 3.7, to: 3.7 },
  ambientCelsius: { from: 25, to: 25 },
  ageYears: { from: 0, to: 0 },
}
export const check = (choice: DecouplingChoice, conditions = one) =>
  checkDecoupling(choice, conditions, { simulation: false })
type Answer = ReturnType<typeof check>
export const named = ({ margins }: Answer, id: string) => {
  const found = margins.find((margin) => margin.id === id)
  expect(found, `${id} among ${margins.map((margin) => margin.id).join(', ')}`).toBeDefined()
  return found!
}
export const pulsed = (frequency: number, duty: number, more: object) => ({ pwm: { frequency, duty }, ...more })
