import type { AnyFormula, InputRange } from '@ohmward/budget'
import { all, create } from 'mathjs'
import { describe, expect, it } from 'vitest'
import * as formulas from '../src/formulas/index.js'

const math = create(all!, {})
const list = Object.entries(formulas) as [string, AnyFormula][]

/** Numbers that never change, from 0 to 1 (Park and Miller, 1988). */
function draws(): () => number {
  let state = 20240229
  return () => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
}

describe('each formula', () => {
  it('is here', () => {
    expect(list.length).toBeGreaterThan(70)
  })

  it.each(list)('%s: what runs is what is printed, over its ranges and in its unit', (_, f) => {
    const draw = draws()
    const tree = math.parse(f.expression)
    const code = tree.compile()
    const symbols = Object.entries(f.inputs) as [string, InputRange][]
    expect(symbols.length).toBeGreaterThan(0)
    const used = new Set<string>()
    tree.traverse((node, path) => {
      if (node.type === 'SymbolNode' && path !== 'fn') used.add((node as unknown as { name: string }).name)
    })
    expect([...used].sort()).toEqual(symbols.map(([symbol]) => symbol).sort())
    for (let n = 0; n < 200; n++) {
      const x: Record<string, number> = {}
      for (const [symbol, [, from, to]] of symbols) {
        const share = draw()
        x[symbol] = n % 2 === 0 && from > 0 ? from * (to / from) ** share : from + (to - from) * share
      }
      const value = f(x)
      expect(Number.isFinite(value), JSON.stringify(x)).toBe(true)
      expect(Math.abs((code.evaluate({ ...x }) as number) - value)).toBeLessThanOrEqual(1e-9 * Math.abs(value) + 1e-15)
      if (n > 3) continue
      const units = Object.fromEntries(
        symbols.map(([symbol, [unit]]) => [symbol, unit === '1' ? x[symbol] : math.unit(x[symbol]!, unit)]),
      )
      const out = code.evaluate(units)
      if (f.unit === '1') expect(typeof out === 'number' ? out : out.value).toBeCloseTo(value, 9)
      else if (f.unit === 'K' || f.unit === 'degC') expect(out.toNumber(out.formatUnits()) / value).toBeCloseTo(1, 9)
      else expect(Math.abs(out.toNumber(f.unit) / value - 1)).toBeLessThan(1e-9)
    }
  })

  it.each(list)('%s: says what it is and where it comes from, and where it has a kink', (_, f) => {
    expect(f.quantity).toMatch(/^[a-z].{3,}/)
    expect(f.source).toMatch(/\S{3,}/)
    expect(f.symbol).toMatch(/^[A-Za-z]+(_[A-Za-z0-9]+)?$/)
    expect(f.smooth).toBe(/\b(min|max|sign)\(/.test(f.expression) ? false : undefined)
  })
})

describe('some of them, by hand', () => {
  it('edges: a triangle of power under a resistive load, a rectangle under a clamped one', () => {
    const edge = { V_oc: 12, I_max: 2, f_edge: 20e3, t_edge: 100e-9, n: 1 }
    // Common practice: 12 V, 2 A, 100 ns for both edges at 20 kHz, inductive: 24 mW.
    expect(formulas.inductiveEdgeLoss(edge)).toBeCloseTo(0.024, 12)
    // The integral of V(1 - x) I x over the edge, by the midpoint rule.
    const steps = 10000
    let energy = 0
    for (let i = 0; i < steps; i++) {
      const x = (i + 0.5) / steps
      energy += (12 * (1 - x) * 2 * x * 100e-9) / steps
    }
    expect(formulas.resistiveEdgeLoss(edge) / (energy * 20e3)).toBeCloseTo(1, 7)
    expect(formulas.edgePeakPower({ V_oc: 12, I_max: 2, n: 1, V_tail: 0, V_head: 0, a_pk: 0.5 })).toBe(6)
    expect(formulas.inductiveEdgePeakPower({ V_pk: 12, I_max: 2, n: 2 })).toBe(12)
  })

  it('a coupled edge is the solution of its differential equation', () => {
    // dV/dt = C_gd/C_iss dV_d/dt - V/(R C_iss), by small steps (Heun).
    const [R, C_gd, C_iss, V, t] = [2000, 3e-10, 2e-9, 4.2, 5e-6]
    const steps = 20000
    const h = t / steps
    const slope = (v: number) => ((C_gd / C_iss) * V) / t - v / (R * C_iss)
    let v = 0
    for (let i = 0; i < steps; i++) {
      const ahead = v + h * slope(v)
      v += (h * (slope(v) + slope(ahead))) / 2
    }
    const found = formulas.coupledLevel({ R_goff: R, C_gd, V_step: V, t_step: t, C_iss })
    expect(found).toBeCloseTo(v, 8)
  })

  it('avalanche: the source feeds the inductance until its current is gone', () => {
    // L di/dt = V_oc - V_BR; the transistor takes V_BR i.
    const [L, I, V_BR, V_oc] = [1e-6, 8, 30, 4.2]
    const time = (L * I) / (V_BR - V_oc)
    const energy = (V_BR * I * time) / 2
    const E_w = formulas.wiringEnergy({ L_w: L, I_max: I })
    expect(formulas.avalancheEnergy({ E_w, V_DSmax: V_BR, V_oc })).toBeCloseTo(energy, 15)
    // With a diode of 0.7 V across the load the source seems 4.9 V: 30/25.1 times the energy of the inductance.
    expect(formulas.inductiveAvalancheEnergy({ E_w: 25.1e-6, V_DSmax: 30, V_oc: 4.2, V_F: 0.7 })).toBeCloseTo(30e-6, 15)
  })

  it('a pull resistor carries current until its saturated transistor lets go', () => {
    // 20 kHz, half the period of 50 µs on and 1 µs of storage: 26 of 50 µs either way.
    expect(formulas.onShare({ D: 0.5, f: 20e3, t_sto: 1e-6 })).toBeCloseTo(0.52, 12)
    expect(formulas.offShare({ D: 0.5, f: 20e3, t_sto: 1e-6 })).toBeCloseTo(0.52, 12)
    expect(formulas.onShare({ D: 0.99, f: 20e3, t_sto: 1e-6 })).toBe(1)
    expect(formulas.offShare({ D: 0.01, f: 20e3, t_sto: 1e-6 })).toBe(1)
  })

  it('the gate charge to the plateau is that of a constant capacitance', () => {
    const capacitance = 9e-9 / 3
    expect(formulas.chargeToPlateau({ Q_gs: 9e-9, V_pl: 3, V_th: 1, V_min: 0.05 })).toBeCloseTo(capacitance * 2, 18)
    expect(formulas.chargeToPlateau({ Q_gs: 9e-9, V_pl: 3, V_th: 3.2, V_min: 0.05 })).toBeGreaterThan(0)
  })
})
