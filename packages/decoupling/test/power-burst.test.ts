import { describe, expect, it } from 'vitest'
import type { DecouplingChoice } from '../src/index.js'
import { flatCell, protection } from './source.js'
import { base, bulk, check, named } from './usual-rail.js'

describe('a burst of constant power', () => {
  /** Rail after a burst of constant power: fourth-order Runge-Kutta of the capacitor's voltage. */
  function railAfter(volts: number, R: number, C: number, ESR: number, power: number, time: number): number {
    const rail = (u: number) => {
      // v = u + ESR·((V - v)/R - P/v), a quadratic in v.
      const a = 1 + ESR / R
      const b = u + (ESR * volts) / R
      return (b + Math.sqrt(b * b - 4 * a * ESR * power)) / (2 * a)
    }
    const rate = (u: number) => (rail(u) - u) / (ESR * C)
    const steps = 20_000
    const h = time / steps
    let u = volts
    for (let n = 0; n < steps; n++) {
      const k_1 = rate(u)
      const k_2 = rate(u + (h / 2) * k_1)
      const k_3 = rate(u + (h / 2) * k_2)
      const k_4 = rate(u + h * k_3)
      u += (h / 6) * (k_1 + 2 * k_2 + 2 * k_3 + k_4)
    }
    return rail(u)
  }
  const burst = (capacitance: string | number, more: Partial<DecouplingChoice> = {}) =>
    check({
      ...base,
      capacitors: [{ ...bulk, capacitance }],
      load: { power: 40, duration: '100 us' },
      ...more,
    })

  it('does not collapse by what rounding leaves of its last step', () => {
    for (let C = 3.8e-3; C < 5.6e-3; C += 0.9e-4) {
      const { lower } = burst(C).budgets.V_min.extremes
      expect(Math.abs(lower - railAfter(3.7, 0.1, C, 0.01, 40, 100e-6)), `${C} F`).toBeLessThan(2e-5)
    }
  })

  it('may take more than could stay, and the protection sees what the source gives', () => {
    // 40 W stay nowhere: V²/4R is 34.2 W. For 100 µs the capacitor carries them.
    const answer = burst(4.7e-3, {
      source: flatCell(0.08, [protection(0.02, '0.15 V')]),
    })
    expect(answer.verdict).toBe('holds')
    expect(answer.margins.some(({ id }) => id === 'power-exists')).toBe(false)
    const lowest = railAfter(3.7, 0.1, 4.7e-3, 0.01, 40, 100e-6)
    expect(named(answer, 'protection-trip').worst).toBeCloseTo((3.7 - lowest) / 0.1, 3)
    expect(check({ ...base, load: { power: 40 } }).margins.some(({ id }) => id === 'power-exists')).toBe(true)
  })
})
