import { describe, expect, it } from 'vitest'
import { type Law, type LawText, lawOf } from '../src/junction/law.js'
import { currentAt, type HeldLoss, resistanceAt, runawayDistance } from '../src/junction/runaway.js'
import { type Balance, solveJunction } from '../src/junction/solve.js'

const linear = lawOf({ kind: 'linear', perKelvin: 0.004 })
const power = lawOf({ kind: 'power', exponent: 2.3 })
const concave: LawText = {
  kind: 'points',
  points: [
    { celsius: 25, factor: 1 },
    { celsius: 100, factor: 1.6 },
    { celsius: 200, factor: 1.9 },
  ],
}
const steep: LawText = {
  kind: 'points',
  points: [
    { celsius: 25, factor: 1 },
    { celsius: 125, factor: 1.4 },
    { celsius: 200, factor: 3.2 },
  ],
}

const H05: HeldLoss = { T_a: 40, R_th: 250, D: 1, R_on: 0.03, P_0: 0, s: 0 }

/** Whether a temperature of the scan balances at a held current: independent of how the distance is found. */
function balances({ T_a, R_th, D, R_on, P_0, s }: HeldLoss, law: Law, I: number, to: number): boolean {
  for (let T = T_a + 0.01; T < to; T *= 1.0005) {
    if (T_a + R_th * (P_0 + s * I + D * I * I * R_on * law.factor(T)) <= T) return true
  }
  return false
}

describe('the distance to runaway', () => {
  it('H05: linear law, 5.77 A and an asymptote; power law of exponent 2.3, 2.78 A at a finite temperature', () => {
    const straight = runawayDistance(H05, linear, 3)
    expect(straight.current).toBeCloseTo(Math.sqrt(1 / (250 * 0.03 * 0.004)), 12)
    expect(straight.celsius).toBeNull()
    const curved = runawayDistance(H05, power, 2)
    // Where d/dT of (T - T_a)/rho is 0: T = m T_a/(m - 1), absolute.
    const kelvin = (2.3 * 313.15) / 1.3
    expect(curved.celsius).toBeCloseTo(kelvin - 273.15, 3)
    const current = Math.sqrt((kelvin - 313.15) / (250 * 0.03 * (kelvin / 298.15) ** 2.3))
    expect(curved.current).toBeCloseTo(current, 10)
    expect(curved.current).toBeCloseTo(2.78, 2)
  })

  it('is where the solver changes its mind, switching loss included', () => {
    for (const law of [linear, power, lawOf(concave), lawOf(steep)]) {
      for (const more of [
        { P_0: 0, s: 0 },
        { P_0: 0.03, s: 0.02 },
      ]) {
        const x = { ...H05, ...more }
        const { current } = runawayDistance(x, law, 2)
        const at = (I: number): Balance => ({ ...x, P_0: x.P_0 + x.s * I, V: I, r: 1, k: 0 })
        expect(balances(x, law, current! * 1.001, 1e6)).toBe(false)
        expect(balances(x, law, current! * 0.98, 1e6)).toBe(true)
        const beyond = solveJunction(at(current! * 1.0001), law)
        expect(beyond).toEqual({ kind: 'runaway', reason: expect.stringMatching(/no balance at any/) })
      }
    }
  })

  it('in K/W is where the solver changes its mind', () => {
    for (const law of [linear, power, lawOf(steep)]) {
      const x = { ...H05, P_0: 0.03, s: 0.02 }
      const I = 2
      const { thermalResistance } = runawayDistance(x, law, I)
      expect(balances({ ...x, R_th: thermalResistance! * 1.001 }, law, I, 1e6)).toBe(false)
      expect(balances({ ...x, R_th: thermalResistance! * 0.98 }, law, I, 1e6)).toBe(true)
    }
  })

  it('has none where the resistance never rises, or nothing conducts', () => {
    const flat = lawOf({ kind: 'linear', perKelvin: 0 })
    expect(runawayDistance(H05, flat, 3)).toEqual({ current: null, thermalResistance: null, celsius: null })
    expect(runawayDistance({ ...H05, D: 0 }, linear, 3).current).toBeNull()
    expect(runawayDistance(H05, linear, 0).thermalResistance).toBeNull()
  })

  it('an exponent of 1 is a line through absolute zero: an asymptote', () => {
    const { current, celsius } = runawayDistance(H05, lawOf({ kind: 'power', exponent: 1 }), 1)
    expect(current).toBeCloseTo(Math.sqrt(298.15 / (250 * 0.03)), 10)
    expect(celsius).toBeNull()
  })
})

describe('the curve of junction against current', () => {
  it('H05: 150 °C at 3.13 A, and back', () => {
    expect(currentAt(H05, linear, 150)).toBeCloseTo(3.13, 2)
    const x = { ...H05, P_0: 0.03, s: 0.02 }
    const I = currentAt(x, power, 120)
    expect(40 + 250 * (0.03 + 0.02 * I + I * I * 0.03 * power.factor(120))).toBeCloseTo(120, 9)
    expect(resistanceAt(x, power, I, 120)).toBeCloseTo(250, 9)
  })

  it('is 0 where the constant loss alone heats more', () => {
    expect(currentAt({ ...H05, P_0: 1 }, linear, 100)).toBe(0)
  })
})
