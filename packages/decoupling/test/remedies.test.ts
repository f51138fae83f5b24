import { describe, expect, it } from 'vitest'
import { checkDecoupling, type DecouplingChoice, type Remedy, railLimitMargins } from '../src/index.js'

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
const pick = (remedies: readonly Remedy[], id: string) => remedies.find((one) => one.id === id)!

describe('the ways out', () => {
  it('a hold-up capacitor behind a diode, put in, just keeps the limit', () => {
    const load = { current: 8, duration: 10e-3 }
    const { remedies } = check({ load, idle: 5e-3 })
    const diode = pick(remedies, 'diode')
    // 5 mA for 10 ms and until the rail is back, from 3.7 - 5 mA·0.1 ohm - 0.35 V to 3.2 V: there the rail, rising after the burst
    // by (0.8 V)·(0.1/0.11)·(1 - e^(-t/0.11 ms)) from 2.9 V·…, stands at 3.55 V.
    const rest = 3.7 - 0.5e-3
    const missing = (8 * 0.1 * 0.1) / 0.11
    const back = 0.11e-3 * Math.log(missing / (rest - 3.55))
    expect(diode.value).toBeCloseTo((5e-3 * (10e-3 + back)) / (rest - 3.55), 9)
    expect(diode.text).toContain('ratiometry')
    const logicRail = { behind: 'diode', forwardVoltage: 0.35, capacitance: diode.value!, current: 5e-3 } as const
    expect(slack({ load, logicRail, idle: 5e-3 }, 'logic-brown-out')).toBeCloseTo(0, 9)
  })

  it('says where the diode alone takes too much', () => {
    const diode = pick(check({ load: { current: 8, duration: 10e-3 }, limits: { brownOut: 3.5 } }).remedies, 'diode')
    expect(diode.value).toBeNull()
    expect(diode.text).toContain('350 mV')
  })

  it('a resistor and its capacitor, put in, keep the limit', () => {
    const load = { current: 8, duration: 10e-3 }
    const resistor = pick(check({ load, idle: 5e-3 }).remedies, 'resistor')
    // A third of the room at 5 mA is 33.3 ohm: 33 ohm of the series E24.
    const R = 33
    // A sag of 0.8 V at once, of which what the resistor leaves of the room may come through in 10 ms; in truth the rail takes
    // 0.1 ms to sag.
    const rough = 10e-3 / (R * -Math.log(1 - (0.4995 - 33 * 5e-3) / 0.8))
    expect(Math.abs(resistor.value! / rough - 1)).toBeLessThan(0.02)
    const logicRail = { behind: 'resistor', resistance: R, capacitance: resistor.value!, current: 5e-3 } as const
    expect(slack({ load, logicRail, idle: 5e-3 }, 'logic-brown-out')).toBeCloseTo(0, 9)
    expect(
      slack({ load, logicRail: { ...logicRail, capacitance: resistor.value! / 2 }, idle: 5e-3 }, 'logic-brown-out'),
    ).toBeLessThan(0)
  })

  it('for a constant power: less of it, or a source with less resistance, just keeps the limit', () => {
    const load = { power: 24 }
    const { remedies } = check({ load })
    const power = pick(remedies, 'less-power')
    expect(power.value).toBeCloseTo((3.2 * 0.5) / 0.1, 9)
    expect(power.present).toBe(24)
    expect(slack({ load: { power: power.value! } }, 'steady-sag')).toBeCloseTo(0, 9)
    const R = pick(remedies, 'less-source').value!
    expect(slack({ load, source: { resistance: R } }, 'steady-sag')).toBeCloseTo(0, 9)
    // 24 W are more than 70 % of the largest power that has a solution, 23.96 W: no limit mends that; for 20 W one does.
    expect(remedies.map(({ id }) => id)).not.toContain('lower-limit')
    const lower = pick(check({ load: { power: 20 }, limits: { brownOut: 3.2 } }).remedies, 'lower-limit')
    expect(lower.value).toBeCloseTo((3.7 + Math.sqrt(3.7 ** 2 - 8)) / 2, 6)
  })

  it('says that no limit helps where the rail collapses', () => {
    const lower = pick(check({ load: { current: 40 } }).remedies, 'lower-limit')
    expect(lower.value).toBeNull()
    expect(lower.text).toContain('collapses')
  })

  it('says to stop earlier where the source at rest is below the limit', () => {
    const { remedies } = check({ limits: { brownOut: 3.5 } }, { openCircuit: { from: 3.3, to: 4.2 } })
    expect(remedies.map(({ id }) => id)).toEqual(['stop-earlier', 'lower-limit', 'boost'])
    // 8 A through 0.1 ohm need 4.3 V for the limit of 3.5 V: more than there ever is.
    expect(remedies[0]!.value).toBeNull()
    expect(remedies[0]!.text).toContain('rests at 3.3')
    expect(remedies[1]!.value).toBeCloseTo(2.5, 9)
    const early = check({ limits: { brownOut: 3.35 } }, { openCircuit: { from: 3.3, to: 4.2 } }).remedies
    expect(early[0]).toMatchObject({ id: 'stop-earlier', sense: 'at least', present: 3.3 })
    expect(early[0]!.value).toBeCloseTo(4.15, 9)
  })

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
