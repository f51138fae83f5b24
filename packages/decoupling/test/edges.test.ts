import { describe, expect, it } from 'vitest'
import { railCreeping, railRinging } from '../src/formulas/index.js'
import { circuit, plugIn, respondTo, voltageAt } from '../src/waveform/inside.js'
import { Reference, uniform } from './reference.js'

const forever = { rise: 0, duration: Number.POSITIVE_INFINITY, fall: 0 }
const step = { kind: 'current', current: 2 } as const

/** Rail after 2 A of step, 3.7 V, 1 mF: closed forms of the textbook from L, R and ESR. */
function closedForm(R_s: number, ESR: number, L: number, t: number): number {
  const C = 1e-3
  const alpha = (R_s + ESR) / (2 * L)
  const square = alpha * alpha - 1 / (L * C)
  if (square < 0) {
    const omega_d = Math.sqrt(-square)
    const V_sin = (alpha * 2 * R_s - 2 / C) / omega_d
    return railRinging({ V_rest: 3.7, I_step: 2, R_s, ESR, C, alpha, omega_d, V_sin, t })
  }
  const s_fast = alpha + Math.sqrt(square)
  const s_slow = 1 / (L * C) / s_fast
  const V_slow = (s_fast * 2 * R_s - 2 / C) / (s_fast - s_slow)
  return railCreeping({ V_rest: 3.7, I_step: 2, R_s, ESR, C, s_slow, s_fast, V_slow, t })
}

describe('edges of the waveform', () => {
  it('is that of the ringing and the creeping formula on both sides of critical damping', () => {
    for (const factor of [0.2, 0.9, 0.9999, 1.0001, 1.1, 5]) {
      const L = (0.11 ** 2 / 4) * 1e-3 * factor
      const response = respondTo(
        circuit(
          { voltage: 3.7, resistance: 0.1, inductance: L },
          [{ capacitance: 1e-3, resistance: 0.01, inductance: 0 }],
          0,
        ),
        step,
        forever,
      )
      for (const t of [1e-6, 3e-5, 2e-4, 1e-3])
        expect(voltageAt(response, t)).toBeCloseTo(closedForm(0.1, 0.01, L, t), 9)
    }
  })

  it('goes through critical damping without a jump', () => {
    const at = (factor: number) => {
      const L = (0.11 ** 2 / 4) * 1e-3 * factor
      return voltageAt(
        respondTo(
          circuit(
            { voltage: 3.7, resistance: 0.1, inductance: L },
            [{ capacitance: 1e-3, resistance: 0.01, inductance: 0 }],
            0,
          ),
          step,
          forever,
        ),
        5e-5,
      )
    }
    expect(at(1)).toBeCloseTo((at(1 - 1e-5) + at(1 + 1e-5)) / 2, 9)
  })

  it('takes equal parts as one, whether counted or listed', () => {
    const one = { capacitance: 1e-3, resistance: 0.02, inductance: 1e-9 }
    const both = { capacitance: 2e-3, resistance: 0.01, inductance: 0.5e-9 }
    const timing = { rise: 1e-5, duration: 1e-3, fall: 1e-5 }
    const source = { voltage: 3.7, resistance: 0.1, inductance: 1e-7 }
    const listed = respondTo(circuit(source, [one, one], 0), step, timing)
    const counted = respondTo(circuit(source, [both], 0), step, timing)
    for (const t of [5e-6, 3e-5, 5e-4, 2e-3]) expect(voltageAt(listed, t)).toBeCloseTo(voltageAt(counted, t), 12)
  })

  it('takes parts that are nearly equal as what they are', () => {
    const source = { voltage: 3.7, resistance: 0.1, inductance: 0 }
    for (const apart of [1e-2, 1e-3, 1e-4, 1e-5, 1e-6, 1e-7]) {
      const parts = [
        { capacitance: 1e-3, resistance: 0.02, inductance: 0 },
        { capacitance: 1e-3 * (1 + apart), resistance: 0.02, inductance: 0 },
        { capacitance: 1e-3, resistance: 0.02 * (1 - apart), inductance: 0 },
      ]
      const response = respondTo(circuit(source, parts, 0), step, forever)
      const rail = new Reference(source, parts, 0)
      const seen = rail.run(0, 2, 0, 1e-4, 10)
      for (let n = 1; n <= 10; n++) expect(voltageAt(response, n * 1e-5)).toBeCloseTo(seen[n]!, 8)
    }
  })

  it('is right where the loop and a capacitor have equal time constants, or two capacitors share a pole', () => {
    const timing = { rise: 1e-6, duration: 1e-4, fall: 1e-6 }
    const both = [
      { capacitance: 1e-3, resistance: 0.01, inductance: 0 },
      // Its own poles are at -1e5 and -1e6: the first is that of the part above.
      { capacitance: 1e-4, resistance: 0.11, inductance: 1e-7 },
    ]
    for (const [inductance, parts, digits] of [
      [1e-6, both.slice(0, 1), 7],
      [0, both, 7],
      [1e-6, both, 4],
    ] as const) {
      const source = { voltage: 3.7, resistance: 0.1, inductance }
      const response = respondTo(circuit(source, parts, 0), step, timing)
      const rail = new Reference(source, parts, 0)
      rail.run(0, 0, 2e6, 1e-6, 1)
      const seen = rail.run(0, 2, 0, 99e-6, 9)
      for (let n = 1; n < 9; n++) expect(voltageAt(response, 1e-6 + n * 11e-6)).toBeCloseTo(seen[n]!, digits)
    }
  })

  it('is right after an edge that is short against a natural time where every way to the rail has inductance', () => {
    const timing = { rise: 1e-6, duration: 1e-4, fall: 1e-6 }
    const source = { voltage: 3.7, resistance: 0.1, inductance: 1e-6 }
    for (const parts of [
      [{ capacitance: 1e-2, resistance: 0.01, inductance: 1e-8 }],
      [
        { capacitance: 1e-2, resistance: 0.01, inductance: 1e-8 },
        { capacitance: 2e-4, resistance: 0.005, inductance: 3e-8 },
      ],
    ]) {
      const response = respondTo(circuit(source, parts, 0), step, timing)
      const rail = new Reference(source, parts, 0)
      rail.run(0, 0, 2e6, 1e-6, 1)
      const seen = rail.run(0, 2, 0, 99e-6, 9)
      for (let n = 1; n < 9; n++) expect(voltageAt(response, 1e-6 + n * 11e-6)).toBeCloseTo(seen[n]!, 6)
    }
  })

  it('keeps its digits where natural times of loop and capacitors crowd together, through several pieces', () => {
    const random = uniform(11)
    const log = (from: number, to: number): number => from * (to / from) ** random()
    const errors: number[] = []
    for (let n = 0; n < 150; n++) {
      const [C, R, R_s] = [log(1e-4, 2e-3), log(5e-3, 0.1), log(0.03, 0.3)]
      /** A factor of 1 but for 1e-1 to 1e-9, either way. */
      const near = (): number => 1 + (random() < 0.5 ? -1 : 1) * 10 ** (-1 - 8 * random())
      const source = { voltage: 3.7, resistance: R_s, inductance: random() < 0.6 ? R_s * R * C * near() : 0 }
      const parts = Array.from({ length: 1 + Math.floor(3 * random()) }, () => {
        const capacitance = log(1e-4, 2e-3)
        const tau = R * C * near()
        const other = random() < 0.6 ? 0 : log(0.05, 5) * tau
        return { capacitance, resistance: (tau + other) / capacitance, inductance: (tau * other) / capacitance }
      })
      const T = R * C
      const response = respondTo(circuit(source, parts, 0), step, { rise: T, duration: 4 * T, fall: T })
      const rail = new Reference(source, parts, 0)
      let error = 0
      const compare = (start: number, time: number, current: number, slope: number): void => {
        const seen = rail.run(0, current, slope, time, 6)
        for (let i = 1; i < 6; i++)
          error = Math.max(error, Math.abs(voltageAt(response, start + (time * i) / 6) - seen[i]!))
      }
      compare(0, T, 0, 2 / T)
      compare(T, 3 * T, 2, 0)
      compare(4 * T, T, 2, -2 / T)
      compare(5 * T, 4 * T, 0, 0)
      errors.push(error)
    }
    errors.sort((a, b) => a - b)
    expect(errors[75]).toBeLessThan(1e-10)
    expect(errors[135]).toBeLessThan(1e-7)
    expect(errors[149]).toBeLessThan(1e-4)
  }, 300_000)

  it('has a capacitor without series resistance hold the rail at first', () => {
    const c = circuit(
      { voltage: 3.7, resistance: 0.1, inductance: 0 },
      [{ capacitance: 1e-3, resistance: 0, inductance: 0 }],
      0,
    )
    const response = respondTo(c, step, forever)
    expect(voltageAt(response, 0)).toBeCloseTo(3.7, 12)
    expect(voltageAt(response, 1e-4)).toBeCloseTo(3.7 - 0.2 * (1 - Math.exp(-1)), 12)
    expect(plugIn(c)).toMatchObject({ peak: expect.closeTo(3.7, 9), inrush: expect.closeTo(37, 9) })
  })

  it('gives the rest before the step and 0 V after a collapse', () => {
    const c = circuit(
      { voltage: 3.7, resistance: 0.1, inductance: 0 },
      [{ capacitance: 1e-3, resistance: 0.01, inductance: 0 }],
      0.5,
    )
    expect(voltageAt(respondTo(c, step, forever), -1)).toBeCloseTo(3.65, 12)
    const dead = respondTo(c, { kind: 'current', current: 100 }, forever)
    expect(dead.collapse).toBeGreaterThan(0)
    expect(voltageAt(dead, dead.collapse! * 0.99)).toBeGreaterThan(0)
    expect(voltageAt(dead, dead.collapse! * 1.01)).toBe(0)
  })
})
