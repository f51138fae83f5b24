import { describe, expect, it } from 'vitest'
import { check, named } from './usual-rail.js'

/** Thermal voltage at 25 °C. */
const V_T = (1.380649e-23 * 298.15) / 1.602176634e-19

interface Rail {
  readonly V: number
  readonly R: number
  readonly L: number
  readonly C: number
  readonly ESR: number
  readonly C_h: number
  readonly I: number
  readonly V_f: number
  readonly emission: number
  readonly slope: number
  readonly load: number
  readonly frequency: number
  readonly duty: number
  readonly edge: number
}

/**
 * The lowest voltage behind the diode in the last of some periods: node equations with the exponential law itself, solved at each place
 * by Newton's method, followed by Runge and Kutta's fourth order.
 */
function byHand(x: Rail, periods: number, steps: number): number {
  const scale = x.emission * V_T
  const across = (i: number) => x.V_f + scale * Math.log(i / x.I) + x.slope * (i - x.I)
  const through = (volts: number): number => {
    // In the logarithm of the current the law has a slope everywhere.
    let u = Math.min(Math.log(x.I) + (volts - x.V_f) / scale, 3)
    for (let k = 0; k < 80; k++) {
      const i = Math.exp(u)
      const move = (across(i) - volts) / (scale + x.slope * i)
      u -= Math.max(-2, Math.min(2, move))
      if (Math.abs(move) < 1e-12) break
    }
    return Math.exp(u)
  }
  const T = 1 / x.frequency
  const drawn = (t: number): number => {
    const p = t % T
    if (p < x.edge) return (x.load * p) / x.edge
    if (p < x.duty * T) return x.load
    return Math.max(0, x.load * (1 - (p - x.duty * T) / x.edge))
  }
  const rail = (i: number, u: number, h: number, t: number): number => {
    const rest = i - drawn(t)
    let [low, high] = [u + x.ESR * (rest - 50), u + x.ESR * rest]
    let v = high
    for (let k = 0; k < 100; k++) {
      const d = through(v - h)
      const miss = (v - u) / x.ESR + d - rest
      if (miss > 0) high = v
      else low = v
      let next = v - miss / (1 / x.ESR + d / (scale + x.slope * d))
      if (!(next > low && next < high)) next = (low + high) / 2
      if (Math.abs(next - v) < 1e-13) break
      v = next
    }
    return v
  }
  const slopes = (t: number, [i, u, h]: readonly number[]) => {
    const v = rail(i!, u!, h!, t)
    return [(x.V - x.R * i! - v) / x.L, (v - u!) / x.ESR / x.C, (through(v - h!) - x.I) / x.C_h]
  }
  const h = T / steps
  let y = [x.I, x.V - x.R * x.I, x.V - x.R * x.I - x.V_f - 0.3]
  let lowest = 0
  for (let k = 0; k < periods * steps; k++) {
    if (k % steps === 0) lowest = Number.POSITIVE_INFINITY
    const t = k * h
    const plus = (by: number, s: readonly number[]) => y.map((value, j) => value + by * s[j]!)
    const a = slopes(t, y)
    const b = slopes(t + h / 2, plus(h / 2, a))
    const c = slopes(t + h / 2, plus(h / 2, b))
    const d = slopes(t + h, plus(h, c))
    y = y.map((value, j) => value + (h / 6) * (a[j]! + 2 * b[j]! + 2 * c[j]! + d[j]!))
    lowest = Math.min(lowest, y[2]!)
  }
  return lowest
}

const lowestBehind = (x: Rail): number =>
  named(
    check(
      {
        source: { resistance: x.R, inductance: x.L },
        capacitors: [{ name: 'ceramic', capacitance: x.C, ratedVoltage: 10, seriesResistance: x.ESR }],
        load: { current: x.load, pwm: { frequency: x.frequency, duty: x.duty }, rise: x.edge, fall: x.edge },
        idle: x.I,
        limits: { brownOut: 2 },
        logicRail: {
          behind: 'diode',
          forwardVoltage: x.V_f,
          emission: x.emission,
          slopeResistance: x.slope,
          capacitance: x.C_h,
          current: x.I,
        },
      },
      { openCircuit: { from: x.V, to: x.V }, ambientCelsius: { from: 25, to: 25 }, ageYears: { from: 0, to: 0 } },
    ),
    'logic-brown-out',
  ).worst

/** One ceramic at a path of 76 mohm, 5 µs in each 100 µs to charge through the diode what 50 mA take. */
const narrow: Rail = {
  V: 3.3,
  R: 0.076,
  L: 0.3e-6,
  C: 47e-6,
  ESR: 3e-3,
  C_h: 100e-6,
  I: 0.05,
  V_f: 0.279,
  emission: 1,
  slope: 1e-3,
  load: 8,
  frequency: 1e4,
  duty: 0.95,
  edge: 1e-6,
}

describe('a capacitor behind a diode under PWM', () => {
  it.each([
    ['a duty of 95 %', narrow],
    ['a worse diode, half of the ceramic', { ...narrow, C: 25e-6, emission: 1.5, slope: 0.1 }],
    ['a small capacitor', { ...narrow, duty: 0.5, C_h: 22e-6 }],
    ['more inductance at 50 kHz', { ...narrow, L: 1e-6, frequency: 5e4, duty: 0.2 }],
    ['a large bulk', { ...narrow, C: 1e-3, ESR: 0.02, frequency: 2e3, duty: 0.8, I: 0.2, C_h: 220e-6 }],
  ] as const)('stands where small steps of the exponential law say: %s', (_, x) => {
    const true_ = byHand(x, 50, 2000)
    const found = lowestBehind(x)
    expect(found).toBeLessThan(true_ + 2e-4)
    expect(found).toBeGreaterThan(true_ - 0.03)
  })

  it('is not held at the peaks of the rail less the drop of the mean current', () => {
    // Between two charges 50 mA take 50 mV; the pulses, twenty times as large, drop and sag by more than that.
    expect(lowestBehind(narrow)).toBeLessThan(3.3 - 0.076 * 0.05 - 0.279 - 0.05)
  })
})
