import { describe, expect, it } from 'vitest'
import type { Capacitor } from '../src/index.js'
import { base, cell, check, named } from './usual-rail.js'

describe('the peak of plugging in beside a second kind of capacitor', () => {
  /** Highest rail of a source with inductance on two capacitors, empty, or after a load has gone: fourth-order Runge-Kutta, 5 ns a step. */
  function peakOf(
    volts: number,
    R: number,
    L: number,
    parts: readonly (readonly [C: number, ESR: number])[],
    loaded = 0,
  ): number {
    const [[C_1, r_1], [C_2, r_2]] = parts as [[number, number], [number, number]]
    const rail = ([i = 0, a = 0, b = 0]: number[]) => (i + a / r_1 + b / r_2) / (1 / r_1 + 1 / r_2)
    const rate = (y: number[]) => {
      const v = rail(y)
      return [(volts - R * y[0]! - v) / L, (v - y[1]!) / (r_1 * C_1), (v - y[2]!) / (r_2 * C_2)]
    }
    const h = 5e-9
    const sag = loaded === 0 ? 0 : volts - loaded * R
    let y = [loaded, sag, sag]
    let peak = 0
    for (let t = 0; t < 200e-6; t += h) {
      const moved = (k: number[], share: number) => y.map((x, j) => x + share * h * k[j]!)
      const k_1 = rate(y)
      const k_2 = rate(moved(k_1, 0.5))
      const k_3 = rate(moved(k_2, 0.5))
      const k_4 = rate(moved(k_3, 1))
      y = y.map((x, j) => x + (h / 6) * (k_1[j]! + 2 * k_2[j]! + 2 * k_3[j]! + k_4[j]!))
      peak = Math.max(peak, rail(y))
    }
    return peak
  }
  const ceramic: Capacitor = {
    name: 'ceramic',
    capacitance: '10 uF ±20 %',
    seriesResistance: '3 mohm ±0.1 mohm',
    ratedVoltage: 10,
  }
  const lossy = (seriesResistance: Capacitor['seriesResistance']): Capacitor => ({
    name: 'lossy',
    capacitance: '1000 uF ±20 %',
    seriesResistance,
    ratedVoltage: 10,
  })
  it('is sought at large series resistances too, which damp no more', () => {
    const between = { nominal: 0.2, lower: 0.02, upper: 0.6, distribution: { kind: 'rectangular' } } as const
    const choice = {
      ...base,
      source: { ...cell, resistance: '60 mohm ±10 mohm', inductance: '0.3 uH ±30 %' },
      capacitors: [ceramic, lossy(between)],
      insertion: { railMaximum: '4.5 V' },
    }
    const { worst, at, verdict } = named(check(choice), 'rail-maximum')
    expect(verdict).toBe('fails')
    expect(at['ESR_r2']).toBe(0.6)
    const byHand = peakOf(3.7, 0.05, 0.39e-6, [
      [8e-6, 2.9e-3],
      [800e-6, 0.6],
    ])
    expect(worst).toBeGreaterThan(byHand - 1e-3)
    const parts = [
      [at['C_r1']!, at['ESR_r1'] ?? 3e-3],
      [at['C_r2'] ?? 1e-3, at['ESR_r2']!],
    ] as const
    expect(worst).toBeCloseTo(peakOf(3.7, at['R_s']!, at['L']!, parts), 3)
  })

  it('counts a series resistance without a range as large or small, whichever is worse', () => {
    const choice = (seriesResistance: Capacitor['seriesResistance']) => ({
      ...base,
      load: { current: 8, rise: 0, fall: 0 },
      source: { ...cell, inductance: '1 uH', resistance: 0.03 },
      capacitors: [
        {
          ...ceramic,
          capacitance: '10 uF',
          seriesResistance: {
            nominal: 3e-3,
            lower: 2.99e-3,
            upper: 3e-3 + 1e-5,
            distribution: { kind: 'rectangular' },
          } as const,
        },
        lossy(seriesResistance),
      ],
      insertion: { railMaximum: 20 },
    })
    const peaks = ['0.6 ohm', '0.06 ohm'].map((ESR) => named(check(choice(ESR)), 'rail-maximum').worst)
    const byHand = (C: number, ESR: number) => {
      const parts = [
        [10e-6, 2.99e-3],
        [C, ESR],
      ] as const
      // Plugged in, and as the load goes in the end.
      return Math.max(peakOf(3.7, 0.03, 1e-6, parts), peakOf(3.7, 0.03, 1e-6, parts, 8))
    }
    // At 0.6 ohm all of it is worse than 30 % of it; at 60 mohm 30 % damps less.
    expect(peaks[0]).toBeCloseTo(Math.max(byHand(800e-6, 0.6), byHand(800e-6, 0.18)), 2)
    expect(peaks[1]).toBeCloseTo(Math.max(byHand(800e-6, 0.06), byHand(800e-6, 0.018)), 2)
  })
})
