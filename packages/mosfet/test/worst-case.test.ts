import { describe, expect, it } from 'vitest'
import { unevenLoss } from '../src/formulas/conduction.js'
import { checkMosfet, type MosfetChoice, type MosfetConditions } from '../src/index.js'
import { cell, driver, knife, lowSide, nChannelLowVoltage, pChannelLowVoltage } from './choice.js'

const check = (choice: MosfetChoice, conditions: MosfetConditions = cell()) =>
  checkMosfet(choice, conditions, { simulation: false })
const margin = (choice: MosfetChoice, id: string, conditions?: MosfetConditions) =>
  check(choice, conditions).margins.find((one) => one.id === id)!

describe('the worst case is the worst', () => {
  it('a follower passes on the weak pull at its base: a resistor at the gate doesn’t hold it', () => {
    const follower = {
      kind: 'follower',
      gateResistor: 10,
      baseEmitter: 0.7,
      pull: { at: 'gate', resistance: '1 kohm' },
      resetPull: '30 kohm',
    } as const
    const open = margin(lowSide({ drive: follower }), 'reset-state')
    expect(open.verdict).toBe('fails')
    expect(open.worst).toBeCloseTo(4.2 - 0.7, 12)
    // 2.2 kohm at the base: 4.2 V · 2.2/32.2 + 2 µA · 2.2 kohm, far below a base-emitter voltage.
    const held = margin(lowSide({ drive: { ...follower, basePullDown: '2.2 kohm' } }), 'reset-state')
    expect(held.verdict).toBe('holds')
    expect(held.worst).toBeCloseTo(2e-6 * 1000, 12)
    const high = margin(lowSide({ drive: { ...follower, basePullDown: '100 kohm' } }), 'reset-state')
    expect(high.worst).toBeCloseTo((4.2 * 100) / 130 + 2e-6 * 100e3 - 0.7, 10)
  })

  it('a threshold that tolerances put above the plateau makes no edge of negative length', () => {
    const transistor = {
      ...nChannelLowVoltage,
      thresholdVoltage: '1 V ±0.6 V',
      gateSourceCharge: '10 nC',
      gateDrainCharge: '0.1 nC',
    }
    const peak = margin(lowSide({ transistor, drive: driver }), 'drain-voltage')
    expect(peak.worst).toBeGreaterThan(4.2)
    expect(peak.worst).toBeLessThan(1e5)
  })

  it('the slow edge isn’t shorter than the gate takes from plateau to threshold through its pull-up', () => {
    // By small steps: a gate of constant charge for each volt, from 1.5 V to 0.7 V through 1006 ohm.
    const { values } = check(knife())
    const [charge, R] = [values['Q_sw']!, 1000 + 6]
    const steps = 10000
    let time = 0
    for (let i = 0; i < steps; i++) time += ((charge / steps) * R) / (1.5 - (0.8 * (i + 0.5)) / steps)
    expect(values['t_f']! / time).toBeGreaterThan(1)
    expect(values['t_f']! / time).toBeLessThan(1.06)
  })

  it('of several in parallel one alone bears an edge, for the safe operating area', () => {
    const [one, four] = [margin(knife(), 'safe-area'), margin(knife({ parallel: 4 }), 'safe-area')]
    // The whole current through one; four gates are slower, so that the wiring adds less.
    const { V_oc, I_max } = check(knife({ parallel: 4 })).values as Record<string, number>
    expect(four.worst).toBeGreaterThan((V_oc! * I_max!) / 4)
    expect(four.worst).toBeLessThan(one.worst)
  })

  it('slow pulses are followed: hotter than fast ones, and no cooler than the same pulses as bursts', () => {
    const duty = { from: 0.5, to: 0.5 }
    const at = (frequency: number) => margin(knife({ pwm: { frequency, duty } }), 'junction').worst
    expect(at(0.1)).toBeGreaterThan(at(10))
    expect(at(10)).toBeGreaterThan(at(100))
    const on = { from: 1, to: 1 }
    const bursts = { on: 5, period: 10, count: 1000 }
    const train = margin(knife({ pwm: { frequency: 0, duty: on }, bursts }), 'junction')
    expect(at(0.1)).toBeGreaterThan(train.worst * 0.995)
    expect(at(0.1)).toBeLessThan(train.worst * 1.1)
  })

  it('the threshold is largest in the cold, the avalanche rating smallest in the heat', () => {
    const { limit } = margin(knife(), 'gate-threshold', cell({ ambientCelsius: { from: -20, to: 50 } }))
    expect(limit).toBeCloseTo(1 + 45 * 2.5e-3, 12)
    const energy = (to: number) =>
      margin(lowSide(), 'avalanche-energy', cell({ ambientCelsius: { from: 0, to } })).limit
    expect(energy(50)).toBeLessThan(20e-3 * (100 / 125) ** 2)
    expect(energy(80)).toBeLessThan(energy(50))
  })

  it('says runaway in words, not as so many kelvin too much', () => {
    const { summary } = check(knife({ load: { current: 5 }, thermal: { junctionToAmbient: 300 } }))
    expect(summary).toMatch(/^Fails: the junction runs away\. .*at worst in runaway/)
  })

  it('a clamped inductive load strikes harder: its current falls in a part of the edge', () => {
    const at = (edges: MosfetChoice['edges'] & string) =>
      margin(knife({ load: { current: 5 }, edges, transistor: pChannelLowVoltage }), 'drain-voltage').worst
    expect(at('clamped inductive')).toBeGreaterThan(at('resistive'))
  })

  it('several devices of unlike lots share unequally: by node equations, one among many at its worst resistance', () => {
    // Conductances in parallel at one voltage: one device at x of the others' resistance, 1 A through all.
    for (const n of [2, 3, 4, 8]) {
      for (const x_low of [0.1, 0.3, 0.6, 1]) {
        let most = 0
        for (let x = x_low; x <= 1.0000001; x += 1e-4) {
          const volts = 1 / (1 / x + (n - 1))
          most = Math.max(most, (volts * volts) / x / (1 / (n * n)))
        }
        const told = unevenLoss({ n, x_low })
        expect(told).toBeGreaterThanOrEqual(most - 1e-9)
        expect(told).toBeLessThan(most * 1.001)
      }
    }
  })

  it('four in parallel whose junction holds with equal shares only are not sure', () => {
    const on = { frequency: 0, duty: { from: 1, to: 1 } }
    const verdict = (parallel: number, junctionToAmbient: number) =>
      margin(knife({ parallel, thermal: { junctionToAmbient }, pwm: on }), 'junction').verdict
    const cooling = Array.from({ length: 20 }, (_, i) => 10 * 1.35 ** i)
    const four = cooling.map((one) => verdict(4, one))
    expect(four).toContain('not sure')
    expect(four[0]).toBe('holds')
    expect(four.at(-1)).toBe('fails')
    // Two of unlike lots dissipate no more in one of them than two equal ones.
    expect(cooling.map((one) => verdict(2, one))).not.toContain('not sure')
  })

  it('of two whose edges make the heat one may bear them alone: not sure where only both together hold', () => {
    const cooling = Array.from({ length: 12 }, (_, i) => 20 * 1.3 ** i)
    const at = (parallel: number) =>
      cooling.map((junctionToAmbient) => {
        const choice = lowSide({
          parallel,
          drive: { ...driver, gateResistor: 100 },
          edges: 'clamped inductive',
          load: { current: 4 },
          pwm: { frequency: 20e3, duty: { from: 0.2, to: 0.4 } },
          thermal: { junctionToAmbient },
        })
        const { verdict } = margin(choice, 'junction')
        return { verdict, rise: junctionToAmbient * check(choice).values['P_edge']! }
      })
    const [one, two] = [at(1), at(2)]
    expect(one.map(({ verdict }) => verdict)).not.toContain('not sure')
    expect(two[0]!.verdict).toBe('holds')
    expect(two.at(-1)!.verdict).toBe('fails')
    expect(two.map(({ verdict }) => verdict)).toContain('not sure')
    // From 50 °C air to 150 °C: the edges of both in one of them.
    for (const { verdict, rise } of two) if (verdict === 'holds') expect(2 * rise).toBeLessThan(100)
  })

  it('of two devices the lower lot carries the more: parallel conductances, typical 22 of at most 32 mohm', () => {
    const choice = knife({ parallel: 2 })
    const { worst } = margin(choice, 'drain-current')
    // As far below typical as the largest is above: 12 of 32 mohm.
    const share = 1 / 12 / (1 / 12 + 1 / 32)
    const { worst: whole } = margin(knife(), 'drain-current')
    expect(worst / whole).toBeCloseTo(share, 9)
  })
})
