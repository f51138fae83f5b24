import { describe, expect, it } from 'vitest'
import { checkMosfet, type MosfetChoice } from '../src/index.js'
import { cell, driver, inverterFast, knife, lowSide, nChannelLowVoltage, pChannelLowVoltage } from './choice.js'

/** A reverse capacitance that falls with the voltage as a junction's does, to a given share at 15 V. */
const reverse = (atRest: number, fall: number) => {
  const m = Math.log(fall) / Math.log(1 + 15 / 0.7)
  return (V: number) => atRest / (1 + Math.max(V, 0) / 0.7) ** m
}

interface Stage {
  readonly V: number
  readonly R: number
  readonly L: number
  readonly R_g: number
  readonly C_gs: number
  readonly C_gd: (V: number) => number
  readonly V_th: number
  readonly g: number
  readonly V_on: number
}

/**
 * A transistor that switches off, by small steps of its node equations: gate behind a resistor, channel in proportion to
 * the gate's voltage above the threshold, drain with its capacitance to the gate, load and wiring in series.
 */
function switchOff({ V, R, L, R_g, C_gs, C_gd, V_th, g, V_on }: Stage) {
  const I_0 = V / R
  let [gate, drain, current] = [V_on, 0.02, I_0]
  let [highest, power, energy, time, end] = [0, 0, 0, 0, 0]
  let hasBegun = false
  const C_ds = 2e-11
  const R_on = 0.02
  const h = 2e-11
  drain = I_0 * R_on
  current = I_0
  for (let i = 0; i < 1e7; i++) {
    const saturated = g * Math.max(gate - V_th, 0)
    // As a resistance it is taken at the end of the step, so that the step may be longer than its time constant.
    const G = drain / R_on < saturated ? 1 / R_on : 0
    const channel = G > 0 ? drain * G : saturated
    const C = C_gd(drain - gate)
    // Both nodes share C: solve the two of them for their slopes.
    const [i_g, i_d] = [-gate / R_g, current - channel]
    const node = C_ds + C + h * G
    const det = (C_gs + C) * node - C * C
    gate += (h * (i_g * node + i_d * C)) / det
    drain += (h * (i_d * (C_gs + C) + i_g * C)) / det
    current += (h * (V - R * current - drain)) / L
    time += h
    hasBegun ||= drain > 0.05 * V
    highest = Math.max(highest, drain)
    if (hasBegun) {
      power = Math.max(power, drain * channel)
      energy += h * drain * channel
    }
    if (end === 0 && gate < V_th) end = time
    if (gate < V_th * 0.98) break
  }
  return { highest, power, energy, end }
}

describe('switching off', () => {
  const cases = [
    { fall: 4, L: 0.2e-6, R_g: 1000 },
    { fall: 13, L: 0.2e-6, R_g: 1000 },
    { fall: 4, L: 1e-6, R_g: 1000 },
    { fall: 13, L: 1e-6, R_g: 330 },
    { fall: 8, L: 0.5e-6, R_g: 4700 },
    { fall: 1, L: 0.5e-6, R_g: 1000 },
    // The spike outlasts the edge.
    { fall: 1, L: 1e-6, R_g: 330 },
    { fall: 4, L: 1e-6, R_g: 330 },
  ]
  it.each(cases)('%o: spike, power, energy and delay are no less than by node equations', ({ fall, L, R_g }) => {
    const [V, R, V_th, V_pl] = [4.2, 0.7, 0.7, 1.5]
    const [C_gs, C_0] = [1.9e-9, 1.2e-9]
    const C_gd = reverse(C_0, fall)
    const truth = switchOff({ V, R, L, R_g, C_gs, C_gd, V_th, g: V / R / (V_pl - V_th), V_on: V })
    // Over the plateau the gate stands still and the drain goes from nothing to the supply.
    let Q_gd = 0
    for (let u = 0; u < 1; u += 1e-3) Q_gd += C_gd(V * u - V_pl) * V * 1e-3
    const choice = knife({
      transistor: {
        ...pChannelLowVoltage,
        thresholdVoltage: V_th,
        plateauVoltage: V_pl,
        gateResistance: 0,
        // Up to the plateau the drain stands at the supply.
        gateSourceCharge: (C_gs + C_gd(V)) * V_pl,
        gateDrainCharge: Q_gd,
        // Above the plateau both capacitances hang on the gate, the drain at rest.
        gateCharge: (C_gs + C_gd(V)) * V_pl + Q_gd + (C_gs + C_0) * (V - V_pl),
        inputCapacitance: C_gs + C_gd(15),
        reverseCurve: [
          { volts: 0, farads: C_0 },
          { volts: 15, farads: C_gd(15) },
        ],
      },
      // The model has no bipolar transistor.
      drive: { ...inverterFast, storageTime: 0, pull: { at: 'gate', resistance: R_g } },
      load: { resistance: R },
      wiring: { inductance: L },
    })
    const around = cell({ openCircuit: { from: V, to: V }, sourceResistance: 0 })
    const { values: v } = checkMosfet(choice, around, { simulation: false })
    expect(v['V_pk']).toBeGreaterThanOrEqual(truth.highest)
    expect(v['V_pk']! - V).toBeLessThan(1.9 * (truth.highest - V) + 0.15)
    expect(v['P_pk']).toBeGreaterThanOrEqual(truth.power * 0.995)
    expect(v['P_pk']).toBeLessThan(truth.power * 4)
    const claimed = ((v['P_edge']! / v['f_edge']!) * v['t_f']!) / v['t_edge']! + v['P_wire']! / v['f_edge']!
    expect(claimed).toBeGreaterThanOrEqual(truth.energy)
    expect(v['t_toff']).toBeGreaterThanOrEqual(truth.end)
    expect(v['t_toff']).toBeLessThan(truth.end * 1.25)
  })

  it('a pull-up of 4.7 kohm at 1430 Hz and a duty of 0.95 never lets the switch off', () => {
    const slow = (frequency: number): MosfetChoice =>
      knife({
        drive: { ...inverterFast, pull: { at: 'gate', resistance: '4.7 kohm' } },
        pwm: { frequency, duty: { from: 0.5, to: 0.95 } },
      })
    const off = (frequency: number) =>
      checkMosfet(slow(frequency), cell(), { simulation: false }).margins.find(({ id }) => id === 'off-edge')!
    expect(off(1430).verdict).toBe('fails')
    expect(off(1430).worst).toBeGreaterThan(1.5 * off(1430).limit)
    expect(off(200).verdict).toBe('holds')
  })

  it('a saturated transistor adds its storage time to the edge that it lets go, and to that one only', () => {
    const times = (choice: MosfetChoice) => {
      const { t_don, t_doff } = checkMosfet(choice, cell(), { simulation: false }).values as Record<string, number>
      return [t_don!, t_doff!] as const
    }
    const slow = { ...inverterFast, storageTime: '3 us' }
    const fast = { ...inverterFast, storageTime: 0 }
    const [high, none] = [times(knife({ drive: slow })), times(knife({ drive: fast }))]
    expect(high[0]).toBe(none[0])
    expect(high[1] - none[1]).toBeCloseTo(3e-6, 12)
    const [low, bare] = [times(lowSide({ drive: slow })), times(lowSide({ drive: fast }))]
    expect(low[0] - bare[0]).toBeCloseTo(3e-6, 12)
    expect(low[1]).toBe(bare[1])
    const { assumptions } = checkMosfet(knife({ drive: inverterFast }), cell(), { simulation: false })
    expect(assumptions.join(' ')).toMatch(/drive\.storageTime = 1 µs/)
  })

  it('the delay lengthens each pulse, and what conduction costs with it', () => {
    const at = (frequency: number) =>
      checkMosfet(
        lowSide({
          transistor: { ...nChannelLowVoltage, thresholdVoltage: 0.8 },
          drive: { ...driver, gateResistor: 100 },
          pwm: { frequency, duty: { from: 0.5, to: 0.5 } },
        }),
        cell(),
        { simulation: false },
      ).values
    const [slow, fast] = [at(100), at(20e3)]
    expect(slow['D_on']).toBeCloseTo(0.5, 3)
    expect(fast['D_on']! - 0.5).toBeCloseTo(20e3 * fast['t_doff']!, 12)
    expect(fast['D_on']).toBeGreaterThan(0.51)
    expect(fast['I_rms']! / (fast['I']! * Math.sqrt(fast['D_on']!))).toBeCloseTo(1, 9)
  })
})
