import { readNumber } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { type Capacitor, type DecouplingChoice, decouplingChanges } from '../src/index.js'
import { at, base, bulk, cell, check, justHolds } from './exact-rail.js'
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
    const many = (count: number) =>
      check({ load, limits, capacitors: [{ ...bulk, seriesResistance: 0.5, count }] }).verdict
    const choice = { ...base, load, limits, capacitors: [{ ...bulk, seriesResistance: 0.5 }] }
    const { changes } = decouplingChanges(choice, at(3.7))
    const { puts } = changes.find(({ id }) => id === 'more-parts-1')!
    const parts = Number(puts['capacitors.0.count'])
    expect(many(parts)).toBe('holds')
    expect(many(parts - 1)).toBe('fails')
  })
})

describe('each way out is the mildest, at two digits, that keeps every limit', () => {
  const step = { load: { current: 8 }, idle: 5e-3 } as const
  const behindDiode = { behind: 'diode', forwardVoltage: 0.3, capacitance: 1e-3, current: 5e-3 } as const
  const behindResistor = {
    behind: 'resistor' as const,
    ...{ resistance: 10, capacitance: 1e-3, current: 5e-3, peakCurrent: 20e-3 },
  }
  const ringing = {
    source: cell(0.05, { inductance: 1e-6 }),
    capacitors: [{ ...bulk, capacitance: 100e-6, seriesResistance: 5e-3 }],
    limits: { brownOut: 3.1 },
    idle: 5e-3,
  }
  const ways: readonly (readonly [string, Partial<DecouplingChoice>, Readonly<Record<string, string>>])[] = [
    // (3.7 - 0.0005 - 3.2) V over 0.1 ohm are 4.995 A; 0.5 V over 8.005 A 62 mohm; the rail ends at 2.8995 V.
    ['a step', step, { 'less-current': '4.9 A', 'less-source': '60 mohm', 'lower-brown-out': '2.8 V' }],
    // (3.7 - 0.0005 - 0.3 - 3) V over 0.1 ohm are 3.995 A; the logic rail ends at 2.5995 V.
    [
      'a logic rail behind a diode',
      { ...step, limits: { brownOut: 3 }, logicRail: behindDiode },
      { 'less-current': '3.9 A', 'lower-brown-out': '2.5 V' },
    ],
    // (3.7 - 0.0005 - 20 mA · 10 ohm - 3) V over 0.1 ohm are 4.995 A.
    [
      'a logic rail behind a resistor',
      { ...step, limits: { brownOut: 3 }, logicRail: behindResistor },
      { 'less-current': '4.9 A' },
    ],
    // 70 % of the largest power that 3.7 V give through 0.1 ohm, 3.7²/0.4 W.
    ['a power', { load: { power: 30 }, limits: { brownOut: 2.3 } }, { 'less-power': '23 W' }],
    // 70 % of 0.2 V over 20 mohm.
    [
      'a protection that trips',
      { source: flatCell(0.05, [protection(0.02, 0.2)]), load: { current: 8 }, limits: { brownOut: 2 } },
      { 'less-current': '7 A' },
    ],
  ]
  it.each(ways)('for %s', (_, more, expected) => {
    const { changes } = decouplingChanges({ ...base, ...more }, at(3.7))
    for (const [id, text] of Object.entries(expected)) {
      expect(changes.find((one) => one.id === id)).toMatchObject({ text, verdict: 'holds' })
    }
  })

  it('with limits on both rails: the one that is short first counts, not the higher one', () => {
    const logicRail = { behind: 'diode', forwardVoltage: 0.4, capacitance: 1e-3, current: 5e-3 } as const
    const a = check({ load: { current: 7 }, idle: 5e-3, limits: { sensor: 2.9, brownOut: 2.8 }, logicRail })
    expect(a.steady).toMatchObject({ isImpossible: true, breaks: true, limitName: 'brownOut' })
    expect(a.steady.voltage).toBeCloseTo(3.6995 - 0.7 - 0.4, 9)
    const margins = Object.fromEntries(a.margins.map(({ id, slack }) => [id, slack]))
    expect(margins['steady-sag']).toBeCloseTo(0.0995, 9)
    expect(margins['steady-sag-logic']).toBeCloseTo(-0.2005, 9)
  })

  it('in a loop that rings, where less source resistance would damp it less, and a slower switch helps', () => {
    const choice = { ...base, ...ringing }
    const { changes } = decouplingChanges(choice, at(3.7))
    expect(changes.filter(({ verdict }) => verdict === 'holds').map(({ id }) => id)).not.toContain('less-source')
    expect(changes.find(({ id }) => id === 'slower')).toMatchObject({ verdict: 'holds' })
    const { steady } = check(ringing)
    expect(steady.breaks).toBe(false)
    justHolds({ ...ringing, capacitors: [{ ...bulk, capacitance: steady.capacitance!, seriesResistance: 5e-3 }] })
  })

  it('but a load that stays on is not mended by a slower edge, nor a rating or a ripple by what the rail needs', () => {
    const ids = (more: Partial<DecouplingChoice>) =>
      decouplingChanges({ ...base, ...more }, at(3.7)).changes.map(({ id }) => id)
    const trip = ways.at(-1)![1]
    expect(ids(trip)).not.toContain('slower')
    const rated = { load: { current: 1 }, limits: { brownOut: 3 }, capacitors: [{ ...bulk, ratedVoltage: 3.5 }] }
    expect(ids(rated)).not.toContain('less-current')
    const load = { current: 8, pwm: { frequency: 1e6, duty: 0.5 } }
    const choice = { ...base, load, limits: { brownOut: 3 }, capacitors: [{ ...bulk, rippleCurrent: 1.2 }] }
    const parts = decouplingChanges(choice, at(3.7)).changes.find(({ id }) => id === 'more-parts-1')!
    // 4 A of alternating current, shared by conductance: 100 mohm, a part of 3 mohm, n - 1 of 10 mohm.
    const best = (n: number) => 4 / 0.003 / (1 / 0.1 + 1 / 0.003 + (n - 1) / 0.01)
    expect(best(9)).toBeLessThan(1.2)
    expect(best(8)).toBeGreaterThan(1.2)
    expect(parts).toMatchObject({ verdict: 'holds', puts: { 'capacitors.0.count': '9' } })
  })
})

describe('a way out where a part that made no difference makes one', () => {
  // In the end of a long burst the rail stands where the source alone leaves it: the capacitors are silent.
  const source = cell(0.1)
  const part = { ...bulk, capacitance: '1 mF ±20 %', seriesResistance: '20 mohm ±50 %' }
  const limits = { brownOut: 3.2 }

  it('a shorter burst holds with the least capacitance and the largest series resistance', () => {
    const choice = { ...base, source, capacitors: [part], load: { current: 8, duration: 20e-3 }, limits }
    const found = decouplingChanges(choice, at(3.7)).changes.find(({ id }) => id === 'shorter-burst')!
    // 3.7 V - 8 A · 0.1 ohm · (1 - 0.1/(0.1 + 0.03) · e^(-t/τ)) = 3.2 V, τ = (0.1 + 0.03 ohm) · 0.8 mF.
    const most = 0.13 * 0.8e-3 * Math.log((0.8 * (0.1 / 0.13)) / 0.3)
    const printed = readNumber(found.text, { field: 'burst', unit: 's' })
    expect(found.verdict).toBe('holds')
    expect(printed).toBeLessThanOrEqual(most)
    expect(printed).toBeGreaterThan(0.98 * most)
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
