import { describe, expect, it } from 'vitest'
import { burstImpedance, impedanceAt, impedanceAtMost } from '../src/datasheet/impedance.js'

const points = [
  { seconds: 1e-3, kelvinPerWatt: 1 },
  { seconds: 1e-1, kelvinPerWatt: 10 },
  { seconds: 10, kelvinPerWatt: 40 },
  { seconds: 1000, kelvinPerWatt: 50 },
]

describe('transient thermal impedance', () => {
  it('runs through its points, straight in both logarithms between them', () => {
    for (const { seconds, kelvinPerWatt } of points) expect(impedanceAt(points, seconds)).toBeCloseTo(kelvinPerWatt, 12)
    expect(impedanceAt(points, 1e-2)).toBeCloseTo(Math.sqrt(10), 12)
    expect(impedanceAt(points, 1)).toBeCloseTo(20, 12)
  })

  it('falls with the square root of time before the first point, stays after the last', () => {
    expect(impedanceAt(points, 1e-5)).toBeCloseTo(0.1, 12)
    expect(impedanceAt(points, 0)).toBe(0)
    expect(impedanceAt(points, -1)).toBe(0)
    expect(impedanceAt(points, 1e6)).toBe(50)
  })

  it('superposes bursts: one is the curve, a train without gaps is one long pulse', () => {
    // Between its points the curve may lie as high as that of its neighbours carried on: 10 K/W with the root of time.
    expect(burstImpedance(points, { on: 0.3, period: 5, count: 1 })).toBeCloseTo(10 * Math.sqrt(3), 12)
    expect(burstImpedance(points, { on: 0.1, period: 5, count: 1 })).toBeCloseTo(10, 12)
    const whole = burstImpedance(points, { on: 0.5, period: 0.5, count: 20 })
    expect(whole).toBeGreaterThanOrEqual(impedanceAt(points, 10))
    expect(whole).toBeLessThanOrEqual(impedanceAtMost(points, 10) + 1e-12)
    expect(burstImpedance(points, { on: 0.5, period: 0.5, count: 4000 })).toBeCloseTo(impedanceAt(points, 2000), 9)
  })

  it('is the response of a thermal network, where one is known exactly', () => {
    // Two time constants in series (a Foster network): its step response is exact, its bursts sum as geometric series.
    const parts = [
      { R: 12, tau: 0.02 },
      { R: 30, tau: 4 },
    ]
    const step = (t: number) => parts.reduce((sum, { R, tau }) => sum + R * -Math.expm1(-t / tau), 0)
    const curve = Array.from({ length: 601 }, (_, i) => 1e-4 * 10 ** (i / 100)).map((seconds) => ({
      seconds,
      kelvinPerWatt: step(seconds),
    }))
    const exact = (on: number, period: number, count: number) =>
      parts.reduce((sum, { R, tau }) => {
        const q = Math.exp(-period / tau)
        return sum + (R * -Math.expm1(-on / tau) * (1 - q ** count)) / (1 - q)
      }, 0)
    for (const [on, period, count] of [
      [0.05, 0.2, 3],
      [0.05, 0.2, 100],
      [0.01, 0.02, 128],
      [0.01, 0.02, 129],
      [0.01, 0.02, 3000],
      [0.002, 0.01, 100000],
    ] as const) {
      const found = burstImpedance(curve, { on, period, count })
      expect(Math.abs(found / exact(on, period, count) - 1)).toBeLessThan(2e-3)
    }
  })

  it('grows with every burst, up to the mean power and the ripple above it', () => {
    let last = 0
    for (const count of [1, 2, 5, 20, 100, 129, 500, 10000]) {
      const found = burstImpedance(points, { on: 0.1, period: 1, count })
      expect(found).toBeGreaterThan(last)
      last = found
    }
    expect(last).toBeGreaterThan(5)
    expect(last).toBeLessThan(5 + 10)
  })
})
