import { describe, expect, it } from 'vitest'
import { checkDecoupling, type DecouplingChoice, railLimitMargins } from '../src/index.js'

const base: DecouplingChoice = {
  source: { resistance: 0.1 },
  capacitors: [{ name: 'bulk', capacitance: 1e-3, ratedVoltage: 6.3, seriesResistance: 0.01, lifeHours: 2000 }],
  load: { current: 8 },
  limits: { brownOut: 3.2 },
}
const at = { openCircuit: { from: 3.7, to: 3.7 }, ambientCelsius: { from: 25, to: 25 }, ageYears: { from: 0, to: 0 } }
const check = (more: Partial<DecouplingChoice>, conditions: Partial<typeof at> = {}) =>
  checkDecoupling({ ...base, ...more }, { ...at, ...conditions }, { simulation: false })
const slack = (more: Partial<DecouplingChoice>, id: string) => check(more).margins.find((one) => one.id === id)!.slack

describe('the steady sag', () => {
  it('says how much capacitance a burst needs, and that none is enough where the series resistance alone is too much', () => {
    const steady = (more: Partial<DecouplingChoice>) =>
      check({ load: { current: 8, duration: 100e-6 }, ...more }).steady
    const { capacitance, isImpossible } = steady({})
    expect(isImpossible).toBe(false)
    expect(
      slack(
        {
          load: { current: 8, duration: 100e-6 },
          capacitors: [
            {
              ...(base.capacitors as readonly object[])[0]!,
              capacitance: capacitance!,
            } as never,
          ],
        },
        'rail-brown-out',
      ),
    ).toBeCloseTo(0, 9)
    const bad = steady({ capacitors: [{ ratedVoltage: 6.3, capacitance: 1e-3, seriesResistance: 0.5 }] })
    expect(bad).toMatchObject({ capacitance: null, isImpossible: false, breaks: true })
    expect(steady({ limits: { brownOut: 2.5 } })).toMatchObject({ capacitance: 0, breaks: false })
  })
})

describe('the rail over time and over the discharge', () => {
  it('begins at rest, falls to its lowest point, keeps the nominal between the bounds', () => {
    const { picture, values } = check({ load: { current: 8, duration: 100e-6 }, limits: { brownOut: 2 } })
    expect(picture.kind).toBe('step')
    expect(picture.times[0]).toBeLessThan(0)
    expect(picture.nominal[0]).toBeCloseTo(3.7, 9)
    expect(Math.min(...picture.nominal)).toBeCloseTo(values['V_min']!, 4)
    expect(picture.times.at(-1)).toBeGreaterThan(100e-6)
    picture.times.forEach((t, i) => {
      if (i > 0) expect(t).toBeGreaterThan(picture.times[i - 1]!)
      expect(picture.lower[i]!).toBeLessThanOrEqual(picture.nominal[i]!)
      expect(picture.upper[i]!).toBeGreaterThanOrEqual(picture.nominal[i]!)
    })
  })

  it('shows two equal periods of PWM', () => {
    const { picture, pwm } = check({
      load: { current: 8, pwm: { frequency: 10e3, duty: 0.5 } },
      limits: { brownOut: 2 },
    })
    expect(picture.kind).toBe('pwm')
    expect(picture.times.at(-1)).toBeCloseTo(2e-4, 12)
    let compared = 0
    picture.times.forEach((t, i) => {
      const later = picture.times.findIndex((other) => Math.abs(other - t - 1e-4) < 1e-12)
      if (later < 0) return
      compared++
      expect(picture.nominal[later]).toBeCloseTo(picture.nominal[i]!, 9)
    })
    expect(compared).toBeGreaterThan(50)
    expect(Math.max(...picture.nominal) - Math.min(...picture.nominal)).toBeLessThanOrEqual(pwm!.ripple + 1e-9)
    expect(Math.max(...picture.nominal) - Math.min(...picture.nominal)).toBeGreaterThan(0.98 * pwm!.ripple)
    // By trapezoids it has the mean of the steady state.
    const { times, nominal } = picture
    const area = times.slice(1).reduce((sum, t, i) => sum + ((t - times[i]!) / 2) * (nominal[i]! + nominal[i + 1]!), 0)
    expect(Math.abs(area / (times.at(-1)! - times[0]!) - pwm!.mean)).toBeLessThan(0.005 * pwm!.ripple)
    expect(pwm!.mean).toBeCloseTo(3.7 - 0.1 * 8 * 0.5, 9)
    expect(pwm!.capacitors[0]!.heating).toBeCloseTo(60 * pwm!.capacitors[0]!.rms ** 2 * 0.01, 9)
  })

  it('has the same margin at a cell voltage as a check there', () => {
    for (const volts of [3.4, 3.9]) {
      const along = railLimitMargins(base, { ...at, openCircuit: { from: 3, to: 4.2 } }, volts)
      const there = check({}, { openCircuit: { from: volts, to: volts } }).margins
      for (const { id, slack: one } of along) expect(one).toBeCloseTo(there.find((m) => m.id === id)!.slack, 9)
    }
  })
})
