import { expect } from 'vitest'
import { type Capacitor, checkDecoupling, type DecouplingChoice } from '../src/index.js'

export const bulk: Capacitor = { name: 'bulk', capacitance: 1e-3, ratedVoltage: 10, seriesResistance: 0.01 }
export const cell = (resistance: number, more: object = {}) => ({ resistance, ...more })
export const base: DecouplingChoice = {
  source: cell(0.1),
  capacitors: [bulk],
  load: { current: 8 },
  limits: { brownOut: 3.2 },
}
export const at = (volts: number) => ({
  openCircuit: { from: volts, to: volts },
  ambientCelsius: { from: 25, to: 25 },
  ageYears: { from: 0, to: 0 },
})
export const check = (more: Partial<DecouplingChoice>, volts = 3.7) =>
  checkDecoupling({ ...base, ...more }, at(volts), { simulation: false })

/** Everything that hangs on the sag is kept, and what hangs on it most is just kept. */
export function justHolds(more: Partial<DecouplingChoice>, volts = 3.7, tolerance = 1e-8) {
  const { margins } = check(more, volts)
  const sag = margins.filter(({ id }) =>
    /^(rail-(?!maximum)|logic-|steady-sag|pwm-start|power-exists|protection|port-current)/.test(id),
  )
  const least = Math.min(...sag.map(({ slack, limit }) => slack / limit))
  expect(least, JSON.stringify(sag.map(({ id, slack }) => [id, slack]))).toBeGreaterThan(-1e-9)
  expect(least).toBeLessThan(tolerance)
}
