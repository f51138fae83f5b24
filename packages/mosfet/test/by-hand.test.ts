import { describe, expect, it } from 'vitest'
import { inputsOf } from '../src/chain/inputs.js'
import { readMosfet } from '../src/choice.js'
import { checkMosfet, type MosfetChoice } from '../src/index.js'
import { cell, driver, inverterFast, knife, lowSide, nChannelLowVoltage, pin } from './choice.js'

const at = (volts: number, ohms = 0.1) =>
  cell({ openCircuit: { from: volts, to: volts }, sourceResistance: ohms, ambientCelsius: { from: 40, to: 40 } })
const check = (choice: MosfetChoice, volts = 4, ohms = 0.1) =>
  checkMosfet(choice, at(volts, ohms), { simulation: false })
const near = (value: number | undefined, expected: number) => expect(value! / expected).toBeCloseTo(1, 10)

/** Every part exact, so that worst and typical are one board. */
const transistor = {
  ...nChannelLowVoltage,
  onResistance: [{ gateSource: 1.8, maximum: 0.01 }],
  temperatureLaw: { kind: 'linear', perKelvin: 0.004 },
  thresholdVoltage: 0.8,
} as const

describe('the whole chain, calculated a second time with plain arithmetic', () => {
  it('N-channel, driver, PWM into a resistance', () => {
    const drive = {
      ...driver,
      gateResistor: 10,
      resistance: 3,
      sinkResistance: 2,
      pull: { at: 'gate', resistance: 10e3 },
    } as const
    const choice = lowSide({
      transistor,
      drive,
      parallel: 2,
      load: { resistance: 0.7 },
      pwm: { frequency: 20e3, duty: { from: 0.4, to: 0.6 } },
      thermal: { junctionToAmbient: 50 },
      wiring: { sharedSource: 0.002, inductance: 50e-9 },
    })
    const { values: v, typical, margins } = check(choice)
    const I_max = 4 / 0.802
    const rail = 4 - 0.1 * I_max
    const gate = (rail * 10e3) / 10013
    const V_GS = gate - 0.002 * I_max
    near(v['V_GS'], V_GS)
    // Where only the largest resistance is stated, the lower of two lots may have a fifth of it.
    near(v['I_D'], I_max / 1.2)
    const charge = (3e-9 * (1.5 - 0.8)) / 1.5 + 5e-9
    const t_r = (2 * charge * ((13 * 10e3) / 10013 + 1.5 / 2)) / (V_GS - 1.5)
    const t_f = (2 * charge * ((12 * 10e3) / 10012 + 1.5 / 2)) / Math.sqrt(1.5 * 0.8)
    near(v['t_r'], t_r)
    near(v['t_f'], t_f)
    const P_edge = (4 * I_max * 20e3 * (t_r + t_f)) / 6 / 2
    const P_oss = (320e-12 * 16 * 20e3) / 2
    // The source goes on feeding the wiring while it breaks down at 20 V.
    const P_wire = (((50e-9 * I_max ** 2 * 20e3) / 2) * (20 / 16)) / 2
    near(v['P_sw'], P_edge + P_oss + P_wire)
    near(v['P_gate'], 2 * 22e-9 * gate * 20e3)
    // The gate falls with what it has at the threshold: its own charge and the drain's share what it gives.
    const R_off = (12 * 10e3) / 10012 + 1.5 / 2
    const moved = (3e-9 * (1.5 - 0.8)) / 1.5 + 4 * 190e-12
    const slope = (50e-9 * I_max) / (2 * moved) / R_off
    const head = 1.5 * slope
    const tail = slope * (0.8 + 0.7 * Math.min((190e-12 * head) / moved, 1))
    near(v['V_pk'], Math.max(4 + tail, head))
    // First the charge above the plateau has to go; with it the pulse is longer.
    const t_doff = (2 * (22e-9 - 3e-9 - 5e-9) * R_off) / Math.sqrt(4 * 1.5)
    // While the drain stands above the supply its capacitance takes gate current too.
    const t_spk = (2 * 190e-12 * (v['V_pk']! - 4) * R_off) / Math.sqrt(1.5 * 0.8)
    near(v['t_toff'], t_doff + t_f + t_spk)
    near(
      v['t_ton'],
      t_r + (2 * ((3e-9 * 0.8) / 1.5) * ((13 * 10e3) / 10013 + 1.5 / 2)) / Math.sqrt(V_GS * (V_GS - 0.8)),
    )
    const D = 0.6 + 20e3 * t_doff
    near(v['D_on'], D)
    // Power over the share of the current that still flows: the highest of many.
    let P_pk = 0
    for (let i = 0; i <= 4e6; i++) {
      const u = i / 4e6
      P_pk = Math.max(P_pk, I_max * u * (4 * (1 - u) + tail + (head - tail) * u))
    }
    near(v['P_pk'], P_pk / 2)
    // A pulse heats with the root of its length, to 50 K/W after 0.3 s; both edges at their peak for two thirds.
    const Z = (seconds: number) => 50 * Math.sqrt(seconds / 0.3)
    const T_edge = (P_pk / 2) * Z((P_edge + P_wire) / 20e3 / (P_pk / 2))
    const ripple = (1 - D) * Z(D / 20e3)
    // The junction by plain iteration.
    let T = 40
    for (let i = 0; i < 200; i++) {
      const R = 0.01 * (1 + 0.004 * (T - 25))
      const I = 4 / (0.802 + R / 2)
      const P_on = (I / 2) ** 2 * R
      T = 40 + 50 * (P_on * D + P_edge + P_oss + P_wire) + ripple * P_on + T_edge
    }
    near(v['T_j'], T)
    near(typical.junction.kind === 'balance' ? typical.junction.T_j : Number.NaN, T)
    // The slack at the limit.
    const R_top = 0.01 * (1 + 0.004 * 125)
    const I_top = 4 / (0.802 + R_top / 2)
    const P_top = (I_top / 2) ** 2 * D * R_top + P_edge + P_oss + P_wire
    const rise = 50 * P_top + ripple * (I_top / 2) ** 2 * R_top + T_edge
    near(v['T_spare'], 150 - 40 - rise)
    near(typical.limitResistance!, (50 * 110) / rise)
    near(margins.find(({ id }) => id === 'junction')!.slack, 150 - 40 - rise)
    // With the current held, the edges in proportion to it.
    const I = v['I']!
    const limit = typical.limitCurrent!
    const held = (P_edge * limit) / I_max + P_oss + P_wire + (limit / 2) ** 2 * D * R_top
    near(50 * held + ripple * (limit / 2) ** 2 * R_top + (T_edge * limit) / I_max, 110)
    near(typical.current, I)
    near(typical.runawayCurrent!, 2 / Math.sqrt((50 * D + ripple) * 0.01 * 0.004))
  })

  it('P-channel, inverting transistor, pull-up on the drive side of the gate resistor, held inductive load', () => {
    const drive = {
      ...inverterFast,
      gateResistor: 100,
      saturation: 0.2,
      baseEmitter: 0.7,
      currentGain: 50,
      baseResistor: 10e3,
      basePullDown: 22e3,
      highLevel: 3,
      pull: { at: 'drive', resistance: 2000 },
    } as const
    const choice = knife({
      transistor: { ...knife().transistor, ...transistor, channel: 'P' },
      drive,
      load: { current: 5 },
      edges: 'clamped inductive',
      pwm: { frequency: 5e3, duty: { from: 0.5, to: 0.5 } },
      thermal: { junctionToAmbient: 40 },
      wiring: { inductance: 1e-9 },
    })
    const { values: v } = check(choice)
    near(v['V_rail'], 3.5)
    near(v['V_GS'], 3.3)
    const I_C = 50 * (2.3 / 10e3 - 0.7 / 22e3)
    near(v['I_C'], I_C)
    const charge = v['Q_sw']!
    // On: no more than the transistor has left beside its pull-up. Off: pull-up and gate resistor in series.
    near(v['t_r'], charge / Math.min((3.3 - 1.5) / 101.5, I_C - 4 / 2000))
    near(v['t_f'], (charge * (2000 + 100 + 1.5)) / Math.sqrt(1.5 * 0.8))
    // The diode holds the drain 0.7 V above the supply.
    near(v['P_edge'], (4.7 * 5 * 5e3 * (v['t_r']! + v['t_f']!)) / 2)
    // The current falls only while the gate goes from the plateau to the threshold.
    const current = (v['Q_gs2']! * (2000 + 100 + 1.5)) / 1.5
    near(v['V_pk'], 4.7 + (1e-9 * 5) / current)
    near(v['P_pk'], 5 * (4.7 + (1e-9 * 5) / current))
    near(v['I'], 5)
    // The transistor stays saturated for its storage time first, 1 µs where none is given.
    const delay = 1e-6 + ((22e-9 - 3e-9 - 5e-9) * (2000 + 100 + 1.5)) / Math.sqrt(4 * 1.5)
    near(v['t_doff'], delay)
    near(v['I_rms'], 5 * Math.sqrt(0.5 + 5e3 * delay))
  })

  it('a pin with its pull-down on its own side, behind a diode', () => {
    const drive = {
      ...pin,
      resistance: 50,
      gateResistor: 100,
      supply: { diode: 0.3 },
      pull: { at: 'drive', resistance: 950 },
    } as const
    const { values: v } = check(lowSide({ transistor, drive, load: { resistance: 0.7 } }))
    near(v['V_G'], ((3.5 - 0.3) * 950) / 1000)
    near(v['R_gon'], 50 + 100 + 1.5)
  })

  it('edges that don’t fit into a period fill it, and no more', () => {
    const drive = { ...pin, gateResistor: 10e3 } as const
    const { values: v } = check(
      lowSide({ transistor, drive, load: { resistance: 0.7 }, pwm: { frequency: 50e3, duty: { from: 0.4, to: 0.6 } } }),
    )
    expect(v['t_r']! + v['t_f']!).toBeGreaterThan(1 / 50e3)
    near(v['P_edge'], (4 * v['I_max']!) / 6)
  })
})

describe('what a lot may be', () => {
  const q = (onResistance: MosfetChoice['transistor']['onResistance']) =>
    inputsOf(readMosfet(lowSide({ transistor: { ...nChannelLowVoltage, onResistance } }), cell())).q_R

  it('lies as far below typical as the guaranteed maximum above, and never under a fifth of typical', () => {
    expect(q('2 V: 15 mohm typ 12 mohm')).toMatchObject({ nominal: 0, lower: -1, upper: 1 })
    expect(q('2 V: 30 mohm typ 10 mohm')).toMatchObject({ lower: expect.closeTo(-0.4, 12), upper: 1 })
    expect(q('2 V: 30 mohm typ 10 mohm; 4 V: 20 mohm typ 8 mohm')).toMatchObject({ lower: expect.closeTo(-0.4, 12) })
    expect(q('2 V: 30 mohm')).toBe(0)
    expect(q('2 V: 30 mohm; 4 V: 20 mohm typ 15 mohm')).toMatchObject({ lower: -1, upper: 1 })
  })
})
