import { describe, expect, it } from 'vitest'
import { type Capacitor, checkDecoupling, type DecouplingChoice, decouplingChanges } from '../src/index.js'
import { at, base, bulk, cell, check, justHolds, size } from './exact-rail.js'
import { flatConditions, flatImpossible } from './flat-knife.js'
import { flatCell, protection } from './source.js'

describe('the capacitance that a burst needs', () => {
  const burst = (more: Partial<DecouplingChoice>, volts = 3.7) => {
    const { steady } = check(more, volts)
    const [part] = more.capacitors as readonly Capacitor[]
    justHolds({ ...more, capacitors: [{ ...part!, capacitance: steady.capacitance! }] }, volts, 1e-6)
    return steady.capacitance!
  }

  it('of a resistor follows from its own time constant', () => {
    const [R, ESR, R_L, V, t, limit] = [0.18, 3e-3, 0.665, 3, 100e-6, 2.754]
    const found = burst(
      {
        source: cell(R),
        capacitors: [{ ...bulk, seriesResistance: ESR }],
        load: { resistance: R_L, duration: t },
        limits: { brownOut: limit },
      },
      V,
    )
    // V_end + (V_first - V_end)·e^(-t/τ) = limit, τ = (R in parallel with R_L + ESR)·C.
    const end = (V * R_L) / (R + R_L)
    const first = (V / R + V / ESR) / (1 / R + 1 / ESR + 1 / R_L)
    const tau = t / Math.log((first - end) / (limit - end))
    expect(found).toBeCloseTo(tau / ((R * R_L) / (R + R_L) + ESR), 9)
    expect(found).toBeCloseTo(1.49e-3, 5)
  })

  it('of a current that the source could never give counts that current', () => {
    const [R, ESR] = [0.5, 1e-3]
    const found = burst({
      source: cell(R),
      capacitors: [{ ...bulk, seriesResistance: ESR }],
      load: { current: 10, duration: 100e-6 },
    })
    // 3.7 - 10·R·(1 - R/(R + ESR)·e^(-t/τ)) = 3.2, τ = (R + ESR)·C.
    const tau = 100e-6 / Math.log((5 * R) / (R + ESR) / (5 - 0.5))
    expect(found).toBeCloseTo(tau / (R + ESR), 9)
    expect(found).toBeCloseTo(1.93e-3, 5)
  })

  it('from a limited supply is the deficit of charge over the room', () => {
    const supply = { resistance: 0.5, currentLimit: 0.5, attachable: 0.05 }
    const found = burst(
      {
        source: supply,
        capacitors: [{ ...bulk, seriesResistance: 1e-6 }],
        load: { current: 2, duration: 1e-3 },
        limits: { brownOut: 3 },
      },
      5,
    )
    // From 4.75 V, the knee, on 1.5 A less; before it, on the way from 5 V, the source gives a part of its 0.5 A:
    // C·(0.25 V) at a current falling from 2 to 1.5 A take C·R·ln(2/1.5).
    const time = (C: number) => C * 0.5 * Math.log(2 / 1.5) + (C * 1.75) / 1.5
    expect(found).toBeCloseTo(1e-3 / time(1), 8)
  })

  it('of a constant power that has no solution in the end is found, and of PWM', () => {
    const pulse = { load: { power: 40, duration: 100e-6 }, limits: { brownOut: 3 } }
    const part = { ...bulk, seriesResistance: 1e-3 }
    const power = check({ ...pulse, capacitors: [part] }).steady.capacitance!
    const back = check({ ...pulse, capacitors: [{ ...part, capacitance: power }] })
    expect(Math.abs(back.margins.find(({ id }) => id === 'rail-brown-out')!.slack)).toBeLessThan(1e-6)
    // Lossless bounds: the capacitor gives at most all of 40 W for 100 µs, ½·C·(3.7² - 3²), and the source takes some of it over.
    expect(power).toBeLessThan((2 * 40 * 100e-6) / (3.7 ** 2 - 3 ** 2))
    expect(power).toBeGreaterThan(0.3e-3)
    const { steady } = check({
      load: { current: 8, pwm: { frequency: 5e3, duty: 0.5 } },
      capacitors: [{ ...bulk, capacitance: 100e-6 }],
    })
    const C = steady.capacitance!
    // 3.7 - 8·R·(ESR + R·(1 - e^(-D·T/τ))/(1 - e^(-T/τ)))/(R + ESR), the steady state of a first-order circuit.
    const decay = (time: number) => 1 - Math.exp(-time / (0.11 * C))
    expect(3.7 - (0.8 * (0.01 + (0.1 * decay(100e-6)) / decay(200e-6))) / 0.11).toBeCloseTo(3.2, 8)
  })

  it('does not exist where the series resistance alone is too large, which is not said of every capacitor', () => {
    const load = { current: 8, duration: 100e-6 }
    const limits = { brownOut: 3.4 }
    const a = check({ load, limits, capacitors: [{ ...bulk, seriesResistance: 0.5 }] })
    expect(a.steady).toMatchObject({ isImpossible: false, breaks: true, capacitance: null })
    expect(a.summary).not.toContain('no capacitor')
    expect(a.summary).toContain('series resistance')
    expect(a.remedies.find(({ id }) => id === 'more-capacitance')!.value).toBeNull()
    const parts = size(a, 'more-parts')
    const many = (count: number) =>
      check({ load, limits, capacitors: [{ ...bulk, seriesResistance: 0.5, count }] }).verdict
    expect(many(parts)).toBe('holds')
    expect(many(parts - 1)).toBe('fails')
  })
})

describe('each way out, put in, just keeps every limit', () => {
  const step = { load: { current: 8 }, idle: 5e-3 } as const

  it('on a rail that sags under a step that stays', () => {
    const a = check(step)
    justHolds({ ...step, load: { current: size(a, 'less-current') } })
    justHolds({ ...step, source: cell(size(a, 'less-source')) })
    justHolds({ ...step, limits: { brownOut: size(a, 'lower-limit') } })
    justHolds({ ...step, load: { current: 8, pwm: { frequency: 20e3, duty: size(a, 'less-duty') } } })
    const long = { ...step, load: { current: 8, duration: 10e-3 } }
    const diode = { behind: 'diode', forwardVoltage: 0.35, capacitance: size(a, 'diode'), current: 5e-3 } as const
    justHolds({ ...long, logicRail: diode })
    // A third of the room at 5 mA is 33.3 ohm: 33 ohm of the series E24.
    const resistance = 33
    justHolds({
      ...long,
      logicRail: { behind: 'resistor', resistance, capacitance: size(a, 'resistor'), current: 5e-3 },
    })
  })

  it("with a logic rail behind a diode: the limit is its own and the diode's drop", () => {
    const logicRail = { behind: 'diode', forwardVoltage: 0.3, capacitance: 1e-3, current: 5e-3 } as const
    const more = { ...step, limits: { brownOut: 3 }, logicRail }
    const a = check(more)
    // (3.7 - 0.0005 - 0.3 - 3) V over 0.1 ohm.
    expect(size(a, 'less-current')).toBeCloseTo(3.995, 8)
    justHolds({ ...more, load: { current: size(a, 'less-current') } })
    justHolds({ ...more, source: cell(size(a, 'less-source')) })
    justHolds({ ...more, limits: { brownOut: size(a, 'lower-logic-limit') } })
    expect(size(a, 'lower-logic-limit')).toBeCloseTo(3.6995 - 0.8 - 0.3, 8)
  })

  it("with a logic rail behind a resistor: the limit is its own and the resistor's drop", () => {
    const logicRail = {
      behind: 'resistor',
      resistance: 10,
      capacitance: 1e-3,
      current: 5e-3,
      peakCurrent: 20e-3,
    } as const
    const more = { ...step, limits: { brownOut: 3 }, logicRail }
    const a = check(more)
    // (3.7 - 0.0005 - 20 mA·10 ohm - 3) V over 0.1 ohm.
    expect(size(a, 'less-current')).toBeCloseTo(4.995, 8)
    justHolds({ ...more, load: { current: size(a, 'less-current') } })
    justHolds({ ...more, source: cell(size(a, 'less-source')) })
  })

  it('with limits on both rails: the one that is short first counts, not the higher one', () => {
    const logicRail = { behind: 'diode', forwardVoltage: 0.4, capacitance: 1e-3, current: 5e-3 } as const
    const more = { load: { current: 7 }, idle: 5e-3, limits: { sensor: 2.9, brownOut: 2.8 }, logicRail }
    const a = check(more)
    expect(a.steady).toMatchObject({ isImpossible: true, breaks: true, limitName: 'brownOut' })
    expect(a.steady.voltage).toBeCloseTo(3.6995 - 0.7 - 0.4, 9)
    const margins = Object.fromEntries(a.margins.map(({ id, slack }) => [id, slack]))
    expect(margins['steady-sag']).toBeCloseTo(0.0995, 9)
    expect(margins['steady-sag-logic']).toBeCloseTo(-0.2005, 9)
    expect(size(a, 'less-current')).toBeCloseTo(4.995, 8)
    justHolds({ ...more, load: { current: size(a, 'less-current') } })
  })

  it('under PWM: each from where the diode or the filter really ends', () => {
    const load = { current: 8, pwm: { frequency: 50e3, duty: 0.8 } }
    const more = { load, idle: 5e-3, limits: { brownOut: 3.1 } }
    const a = check(more)
    justHolds({ ...more, load: { ...load, current: size(a, 'less-current') } })
    justHolds({ ...more, source: cell(size(a, 'less-source')) })
    justHolds({ ...more, limits: { brownOut: size(a, 'lower-limit') } })
    justHolds({ ...more, load: { ...load, pwm: { ...load.pwm, duty: size(a, 'less-duty') } } })
    // Behind a diode the rail's highest, about 3.1 V less 0.35 V, is too low; and so is the mean, behind a resistor.
    expect(a.remedies.find(({ id }) => id === 'diode')!.value).toBeNull()
    expect(a.remedies.find(({ id }) => id === 'resistor')!.value).toBeNull()
    const rippled = {
      ...more,
      limits: { brownOut: 2.95 },
      capacitors: [{ ...bulk, capacitance: 20e-6, seriesResistance: 0.05 }],
    }
    const low = check(rippled)
    // The mean, 3.6995 V - 0.64 V, leaves a third of its room of 0.1095 V to the resistor: 7.3 ohm at 5 mA, 6.8 ohm of E24.
    const resistance = 6.8
    const logicRail = { behind: 'resistor', resistance, capacitance: size(low, 'resistor'), current: 5e-3 } as const
    justHolds({ ...rippled, logicRail })
  })

  it('in a loop that rings, and for a slower switch', () => {
    const more = {
      source: cell(0.05, { inductance: 1e-6 }),
      capacitors: [{ ...bulk, capacitance: 100e-6, seriesResistance: 5e-3 }],
      limits: { brownOut: 3.1 },
      idle: 5e-3,
    }
    const a = check(more)
    expect(a.steady.breaks).toBe(false)
    justHolds({ ...more, load: { current: size(a, 'less-current') } })
    // Less source resistance would damp it less.
    expect(a.remedies.map(({ id }) => id)).not.toContain('less-source')
    justHolds({ ...more, limits: { brownOut: size(a, 'lower-limit') } })
    justHolds({ ...more, load: { current: 8, rise: size(a, 'slower') } })
    justHolds({ ...more, capacitors: [{ ...bulk, capacitance: size(a, 'more-capacitance'), seriesResistance: 5e-3 }] })
  })

  it('for a burst: shorter, or with more capacitance', () => {
    const more = { load: { current: 8, duration: 200e-6 } }
    const a = check(more)
    justHolds({ load: { current: 8, duration: size(a, 'shorter-burst') } })
    justHolds({ ...more, capacitors: [{ ...bulk, capacitance: size(a, 'more-capacitance') }] })
    justHolds({ ...more, load: { current: size(a, 'less-current'), duration: 200e-6 } })
  })

  it('for a power without the 30 % that it needs, and for a protection that trips', () => {
    const power = { load: { power: 30 }, limits: { brownOut: 2.3 } }
    const a = check(power)
    expect(size(a, 'less-power')).toBeCloseTo((0.7 * 3.7 ** 2) / 0.4, 6)
    justHolds({ ...power, load: { power: size(a, 'less-power') } })
    const trip = {
      source: flatCell(0.05, [protection(0.02, 0.2)]),
      load: { current: 8 },
      limits: { brownOut: 2 },
    }
    const b = check(trip)
    expect(size(b, 'less-current')).toBeCloseTo(7, 8)
    expect(b.remedies.map(({ id }) => id)).toEqual(['less-current'])
    // It stays at 8 A however slowly it comes.
    const { changes } = decouplingChanges({ ...base, ...trip }, at(3.7))
    expect(changes.map(({ id }) => id)).not.toContain('slower')
  })

  it('on the worst board of the case that no capacitor saves, and says no capacitance there', () => {
    const a = checkDecoupling(flatImpossible, flatConditions, { simulation: false })
    const kept = (choice: DecouplingChoice) => {
      const { margins } = checkDecoupling(choice, flatConditions, { simulation: false })
      return Math.min(
        ...margins.filter(({ id }) => /^(rail-(?!maximum)|steady|pwm-start)/.test(id)).map(({ slack }) => slack),
      )
    }
    const duty = size(a, 'less-duty')
    const load = { resistance: '0.7 ohm ±5 %', rise: 1e-6 }
    const pulsed = kept({ ...flatImpossible, load: { ...load, pwm: { frequency: 20e3, duty } } })
    expect(pulsed).toBeGreaterThan(-1e-9)
    expect(pulsed).toBeLessThan(1e-6)
    const blade = kept({ ...flatImpossible, load: { resistance: size(a, 'more-resistance'), rise: '20 us' } })
    expect(blade).toBeGreaterThan(-1e-9)
    expect(blade).toBeLessThan(1e-6)
    expect(a.remedies.map(({ id }) => id)).not.toContain('more-capacitance')
  })

  it('is not printed where something else fails', () => {
    const rated = check({ load: { current: 1 }, limits: { brownOut: 3 }, capacitors: [{ ...bulk, ratedVoltage: 3.5 }] })
    expect(rated.verdict).toBe('fails')
    expect(rated.remedies).toEqual([])
    const hot = { ...bulk, rippleCurrent: 1.2 }
    const load = { current: 8, pwm: { frequency: 1e6, duty: 0.5 } }
    const ripple = check({ load, limits: { brownOut: 3 }, capacitors: [hot] })
    expect(ripple.remedies.map(({ id }) => id)).toEqual(['parts-1'])
    // 4 A of alternating current, shared by conductance: 100 mohm, a part of 3 mohm, n - 1 of 10 mohm.
    const best = (n: number) => 4 / 0.003 / (1 / 0.1 + 1 / 0.003 + (n - 1) / 0.01)
    expect(best(9)).toBeLessThan(1.2)
    expect(best(8)).toBeGreaterThan(1.2)
    expect(size(ripple, 'parts-1')).toBe(9)
  })
})

describe('a way out where a part that made no difference makes one', () => {
  // In the end of a long burst the rail stands where the source alone leaves it: the capacitors are silent.
  const source = cell(0.1)
  const part = { ...bulk, capacitance: '1 mF ±20 %', seriesResistance: '20 mohm ±50 %' }
  const limits = { brownOut: 3.2 }

  it('a shorter burst holds with the least capacitance and the largest series resistance', () => {
    const a = check({ source, capacitors: [part], load: { current: 8, duration: 20e-3 }, limits })
    const found = size(a, 'shorter-burst')
    // 3.7 V - 8 A · 0.1 ohm · (1 - 0.1/(0.1 + 0.03) · e^(-t/τ)) = 3.2 V, τ = (0.1 + 0.03 ohm) · 0.8 mF.
    const tau = 0.13 * 0.8e-3
    expect(found / (tau * Math.log((0.8 * (0.1 / 0.13)) / 0.3))).toBeCloseTo(1, 6)
  })

  it('capacitance, as many times as is printed, holds too', () => {
    const load = { current: 8, duration: 20e-3 }
    const a = check({ source, capacitors: [part], load, limits })
    const times = a.steady.capacitance! / 0.8e-3
    const more = (k: number) => ({ ...part, capacitance: `${k} mF ±20 %` })
    const worst = (k: number) =>
      check({ source, capacitors: [more(k)], load, limits }).margins.find(({ id }) => id === 'rail-brown-out')!.slack
    expect(a.steady.capacitance).toBeGreaterThan(0.1)
    expect(worst(times)).toBeGreaterThan(-1e-6)
    expect(worst(0.99 * times)).toBeLessThan(0)
  })
})
