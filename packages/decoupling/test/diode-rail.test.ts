import { describe, expect, it } from 'vitest'
import type { DecouplingAssessment } from '../src/index.js'
import { bulk, cell, check } from './exact-rail.js'
import { flatCell, protection } from './source.js'

/**
 * Bulk with series resistance, a diode with 1 mohm, its capacitor, the load a pulse: state equations from Kirchhoff's laws, by
 * Runge and Kutta's fourth order.
 */
function byHand(x: {
  V: number
  R: number
  C: number
  ESR: number
  V_f: number
  C_h: number
  I: number
  load: (t: number) => number
  end: number
  step: number
}): number {
  const R_d = 1e-3
  const slopes = (t: number, c: number, h: number): [number, number] => {
    const G = 1 / x.R + 1 / x.ESR
    const open = (x.V / x.R + c / x.ESR - x.load(t)) / G
    const shut = (x.V / x.R + c / x.ESR + (h + x.V_f) / R_d - x.load(t)) / (G + 1 / R_d)
    const v = open - x.V_f > h ? shut : open
    return [(v - c) / x.ESR / x.C, (Math.max(0, (v - x.V_f - h) / R_d) - x.I) / x.C_h]
  }
  let c = x.V - x.R * x.I
  let h = c - x.V_f - R_d * x.I
  let lowest = h
  for (let n = 0; n * x.step < x.end; n++) {
    const t = n * x.step
    const s = x.step
    const [a1, b1] = slopes(t, c, h)
    const [a2, b2] = slopes(t + s / 2, c + (s / 2) * a1, h + (s / 2) * b1)
    const [a3, b3] = slopes(t + s / 2, c + (s / 2) * a2, h + (s / 2) * b2)
    const [a4, b4] = slopes(t + s, c + s * a3, h + s * b3)
    c += (s / 6) * (a1 + 2 * a2 + 2 * a3 + a4)
    h += (s / 6) * (b1 + 2 * b2 + 2 * b3 + b4)
    lowest = Math.min(lowest, h)
  }
  return lowest
}

describe('a logic rail behind a diode', () => {
  const parts = { ...bulk, seriesResistance: 5e-3 }
  const logic = (C_h: number, duration: number) => {
    const logicRail = { behind: 'diode', forwardVoltage: 0.3, capacitance: C_h, current: 20e-3 } as const
    const a = check({
      source: cell(0.18),
      capacitors: [parts],
      load: { current: 8, duration },
      idle: 20e-3,
      limits: { brownOut: 2 },
      logicRail,
    })
    return a.margins.find(({ id }) => id === 'logic-brown-out')!.worst
  }

  it('is held until the rail is back, not until the burst ends, as small steps say', () => {
    for (const [C_h, duration] of [
      [10e-6, 100e-6],
      [47e-6, 1e-3],
      [1e-3, 1e-3],
    ] as const) {
      const true_ = byHand({
        V: 3.7,
        R: 0.18,
        C: 1e-3,
        ESR: 5e-3,
        V_f: 0.3,
        C_h,
        I: 20e-3,
        load: (t) => (t < duration ? 8 : 0),
        end: duration + 2e-3,
        step: 5e-9 * Math.max(1, C_h / 10e-6),
      })
      const found = logic(C_h, duration)
      // The rail carries the logic's 20 mA while the diode blocks, which it doesn't: up to 20 mA through 0.18 ohm less.
      expect(found, `${C_h}`).toBeLessThan(true_ + 1e-4)
      expect(found, `${C_h}`).toBeGreaterThan(true_ - 4.5e-3)
    }
  })

  it("draws its capacitor's charge at insertion too, through contact and protection", () => {
    const more = {
      source: flatCell(0.05, [protection(0.02)]),
      capacitors: [{ ...bulk, capacitance: 4.7e-6, seriesResistance: 5e-3 }],
      load: { current: 1 },
      insertion: { contactSurge: 200, shortVoltage: 0.4, shortDelay: 50e-6 },
      limits: { brownOut: 2 },
    }
    const time = (a: DecouplingAssessment) => a.margins.find(({ id }) => id === 'short-delay')!
    const logicRail = { behind: 'diode', forwardVoltage: 0.3, capacitance: 2200e-6, current: 0 } as const
    expect(time(check(more)).verdict).toBe('holds')
    const held = time(check({ ...more, logicRail }))
    expect(held.verdict).toBe('fails')
    // 70 mohm and 10 mohm of diode charge 2.2 mF: from 3.7 V / 80 mohm down to 20 A.
    const tau = 0.08 * 2200e-6
    expect(Math.abs(held.worst / (tau * Math.log(3.7 / 0.08 / 20)) - 1)).toBeLessThan(0.02)
  })

  it('counts the largest current, and a logic current above what is said to be drawn all the time', () => {
    const at20 = { behind: 'diode', forwardVoltage: 0.3, capacitance: 1e-3, current: 20e-3 } as const
    const low = (more: object, idle = 20e-3) =>
      check({
        load: { current: 2, duration: 1e-3 },
        idle,
        limits: { brownOut: 2 },
        logicRail: { ...at20, ...more },
      }).margins.find(({ id }) => id === 'logic-brown-out')!.worst
    // 0.28 A more for the millisecond and what the rail takes to come back.
    expect(low({}) - low({ peakCurrent: 0.3 })).toBeGreaterThan(0.1)
    const rest = check({ idle: 0, limits: { brownOut: 2 }, logicRail: { ...at20, current: 0.1 } }).values['V_rest']
    expect(rest).toBeCloseTo(3.69, 9)
  })

  it('under PWM is fed by the peaks of the rail: its mean sag is no proof', () => {
    const a = check({
      source: cell(0.1),
      capacitors: [{ ...bulk, capacitance: 47e-6, seriesResistance: 5e-3 }],
      load: { current: 8, pwm: { frequency: 5e3, duty: 0.5 } },
      limits: { brownOut: 3 },
      idle: 5e-3,
      logicRail: {
        behind: 'diode',
        forwardVoltage: 0.35,
        forwardDrift: 0,
        emission: 1,
        slopeResistance: 1e-3,
        capacitance: 100e-6,
        current: 5e-3,
      },
    })
    expect(a.steady.isImpossible).toBe(false)
    expect(a.verdict).toBe('holds')
    const { worst } = a.margins.find(({ id }) => id === 'logic-brown-out')!
    // By hand with a diode of 1 mohm that drops the same at all currents, 20 periods, the lowest of the last ones: the law's drop is larger in
    // pulses.
    const low = byHand({
      V: 3.7,
      R: 0.1,
      C: 47e-6,
      ESR: 5e-3,
      V_f: 0.35,
      C_h: 100e-6,
      I: 5e-3,
      load: (t) => ((t * 5e3) % 1 < 0.5 ? 8 : 0),
      end: 20 / 5e3,
      step: 2e-8,
    })
    expect(worst).toBeLessThan(low + 1e-3)
    expect(worst).toBeGreaterThan(low - 30e-3)
  })
})
