import { describe, expect, it, vi } from 'vitest'
import { guaranteedLine, typicalBetween } from '../src/datasheet/table.js'
import { gateSourceMagnitude } from '../src/formulas/index.js'
import { checkMosfet, type MosfetChoice } from '../src/index.js'
import { readTransistor } from '../src/parts/transistor.js'
import { cell, driver, inverterFast, knife, lowSide, pChannelLowVoltage, pin } from './choice.js'

vi.setConfig({ testTimeout: 30_000 })

const at = (volts: number, ohms = 0) => cell({ openCircuit: { from: volts, to: volts }, sourceResistance: ohms })
const values = (choice: MosfetChoice, volts = 4, ohms = 0) =>
  checkMosfet(choice, at(volts, ohms), { simulation: false }).values

describe('the sign convention', () => {
  it('is stated once: magnitudes, N-channel gate above source, P-channel below', () => {
    expect(gateSourceMagnitude({ s_ch: 1, V_gate: 3.3, V_src: 0.8 })).toBeCloseTo(2.5, 12)
    expect(gateSourceMagnitude({ s_ch: -1, V_gate: 0.2, V_src: 4.2 })).toBeCloseTo(4, 12)
    // Gate at the source: both are off; beyond it, with the sign turned: both are further off.
    expect(gateSourceMagnitude({ s_ch: -1, V_gate: 4.2, V_src: 4.2 }) + 0).toBe(0)
    expect(gateSourceMagnitude({ s_ch: -1, V_gate: 4.2, V_src: 3 })).toBeLessThan(0)
    expect(gateSourceMagnitude({ s_ch: 1, V_gate: 0, V_src: 1 })).toBeLessThan(0)
  })

  it('agrees with the level of the chain: a P-channel gate at the transistor’s saturation voltage', () => {
    const v = values(knife({ drive: { ...inverterFast, gateResistor: 0, saturation: 0.15 } }))
    expect(v['V_GS']).toBeCloseTo(gateSourceMagnitude({ s_ch: -1, V_gate: 0.15, V_src: v['V_rail']! }), 12)
  })
})

describe('the level at the gate', () => {
  it('pin: the rail through a resistor, whole with the pull-down on its own side', () => {
    expect(values(lowSide({ drive: { ...pin, resistance: 1e-3 } }))['V_GS']).toBeCloseTo(4, 4)
    const divided = values(
      lowSide({ drive: { ...pin, resistance: 30, gateResistor: 170, pull: { at: 'gate', resistance: 1800 } } }),
    )
    expect(divided['V_GS']).toBeCloseTo((4 * 1800) / 2000, 10)
    const { pull: _, ...bare } = pin
    expect(values(lowSide({ drive: bare }))['V_GS']).toBe(4)
  })

  it('emitter follower: a base-emitter voltage less, and off only through its resistor', () => {
    const single = values(
      lowSide({
        drive: {
          kind: 'follower',
          baseEmitter: 0.7,
          resistance: 5,
          gateResistor: 15,
          pull: { at: 'gate', resistance: 980 },
        },
      }),
    )
    expect(single['V_GS']).toBeCloseTo((3.3 * 980) / 1000, 10)
    expect(single['R_goff']).toBeCloseTo(980 + 1.5, 10)
    const pair = values(
      lowSide({ drive: { kind: 'follower', complementary: true, baseEmitter: 0.7, resistance: 5, gateResistor: 15 } }),
    )
    expect(pair['V_off']).toBe(0.7)
    expect(pair['R_goff']).toBeCloseTo(20 + 1.5, 10)
  })

  it('inverting transistor: the whole rail, in through the pull-up of an N-channel switch, out through that of a P-channel one', () => {
    const low = values(lowSide({ drive: { ...inverterFast, gateResistor: 47 } }))
    expect(low['V_GS']).toBe(4)
    expect(low['R_gon']).toBeCloseTo(1047 + 1.5, 10)
    expect(low['V_off']).toBe(0.2)
    const high = values(knife())
    expect(high['V_GS']).toBeCloseTo((3.8 * 1000) / 1047, 10)
    expect(high['R_goff']).toBeCloseTo(1006, 10)
    // On: the transistor carries the pull-up's current too.
    const I_C = 50 * ((2.3 - 0.7) / 1000 - 0.7 / 2200)
    expect(high['I_lim']).toBeCloseTo(I_C - 4 / 1000, 12)
  })

  it('driver on its own supply: independent of the sag', () => {
    const supplied = lowSide({
      drive: { ...driver, drop: 0.1, gateResistor: 0, resistance: 1e-3, supply: { regulated: 5 } },
    })
    expect(values(supplied, 3, 0.2)['V_GS']).toBeCloseTo(4.9, 6)
    expect(values(supplied, 3, 0.2)['V_GShigh']).toBe(5)
  })

  it('a diode holds the supply a drop below the rail', () => {
    const held = lowSide({ drive: { ...pin, resistance: 1e-3, supply: { diode: 0.3 } } })
    expect(values(held)['V_GS']).toBeCloseTo(3.7, 4)
  })

  it('source lift in shared copper is subtracted, on both sides', () => {
    const lift = { sharedSource: '5 mohm' }
    for (const choice of [lowSide(), knife()]) {
      const v = values({ ...choice, wiring: lift })
      expect(v['V_lift']).toBeCloseTo((4 / 0.705) * 0.005, 10)
      expect(v['V_GS']).toBeCloseTo(v['V_G']! - v['V_lift']!, 12)
    }
  })

  it('is that at the sagged rail: the current is solved behind the source resistance', () => {
    const v = values(knife(), 3.4, 0.1)
    expect(v['I_max']).toBeCloseTo(3.4 / 0.8, 12)
    expect(v['V_rail']).toBeCloseTo((3.4 * 0.7) / 0.8, 12)
  })
})

describe('on-resistance against gate voltage', () => {
  const lines = readTransistor(pChannelLowVoltage).onResistance

  it('steps: between two guaranteed lines that of the lower voltage holds', () => {
    const line = (V: number) => lines[guaranteedLine(lines, V)]!.gateSource
    expect([1, 1.8, 2.49, 2.5, 4.49, 4.5, 9].map(line)).toEqual([1.8, 1.8, 1.8, 2.5, 2.5, 4.5, 4.5])
  })

  it('is straight between the lines only as a typical picture, and unknown outside', () => {
    expect(typicalBetween(lines, 2.5)).toBe(0.0145)
    expect(typicalBetween(lines, 3.5)).toBeCloseTo((0.0145 + 0.0098) / 2, 12)
    expect(typicalBetween(lines, 4.5)).toBe(0.0098)
    expect(typicalBetween(lines, 1.7)).toBeUndefined()
    expect(typicalBetween(lines, 5)).toBeUndefined()
    expect(typicalBetween([{ gateSource: 2, maximum: 0.02 }], 2)).toBe(0.02)
  })

  it('the hottest cell voltage may lie inside the discharge, just below such a step', () => {
    const { margins, worst } = checkMosfet(knife(), cell(), { simulation: false })
    const { at: where } = margins.find(({ id }) => id === 'junction')!
    expect(where['V_oc']).toBeGreaterThan(3)
    expect(where['V_oc']).toBeLessThan(4.2)
    // There the worst board's gate just fails to reach the line at 2.5 V; no single voltage is hotter.
    const heat = (volts: number) => {
      const { worst: board } = checkMosfet(knife(), cell({ openCircuit: { from: volts, to: volts } }), {
        simulation: false,
      })
      return board.junction.kind === 'balance' ? board.junction.T_j : Number.POSITIVE_INFINITY
    }
    const hottest = worst.junction.kind === 'balance' ? worst.junction.T_j : 0
    for (let volts = 3; volts <= 4.2; volts += 0.1) expect(heat(volts)).toBeLessThanOrEqual(hottest + 1e-6)
    expect(heat(where['V_oc']! - 1e-5)).toBeCloseTo(hottest, 2)
    expect(heat(where['V_oc']! + 1e-5)).toBeLessThan(hottest - 10)
  })
})
