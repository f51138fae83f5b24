import type { Margin } from '@ohmward/budget'
import { describe, expect, it, vi } from 'vitest'
import { remedies } from '../src/changes/index.js'
import { safePulsePower } from '../src/datasheet/pulse.js'
import {
  conductionLoss,
  coupledLevel,
  dividedLevel,
  driverShare,
  exponentialEdge,
  peakPinCurrent,
  pullPower,
  resetLevel,
  resistiveEdgeLoss,
  turnOffPeak,
  wiringEnergy,
} from '../src/formulas/index.js'
import { checkMosfet, type MosfetChoice, type MosfetConditions } from '../src/index.js'
import { readTransistor } from '../src/parts/transistor.js'
import {
  cell,
  inverterFast,
  inverterSlow,
  knife,
  lowSide,
  nChannelLowVoltage,
  pChannelLogicLevel,
  pChannelLowVoltage,
  pin,
} from './choice.js'

vi.setConfig({ testTimeout: 30_000 })

const check = (choice: MosfetChoice, conditions: MosfetConditions = cell()) =>
  checkMosfet(choice, conditions, { simulation: false })
const margin = (choice: MosfetChoice, id: string, conditions: MosfetConditions = cell()): Margin => {
  const found = check(choice, conditions).margins.find((one) => one.id === id)
  if (found === undefined) throw new Error(`no margin ${id}`)
  return found
}
/** A margin that catches a pitfall says so. */
const caught = (found: Margin, trap: string) => {
  expect(found.catches).toContain(trap)
  expect(found.verdict).toBe('fails')
  expect(found.slack).toBeLessThan(0)
  expect(remedies[found.id]!.length).toBeGreaterThan(0)
}

describe('pitfalls of a MOSFET switch', () => {
  it('H01: a threshold is no on-voltage: the margin is against the lowest guaranteed line', () => {
    // Threshold 1.8 V typical, but nothing is guaranteed below 4.5 V.
    const found = margin(knife({ transistor: pChannelLogicLevel, thermal: { junctionToAmbient: 60 } }), 'gate-drive')
    caught(found, 'H01')
    expect(found.limit).toBe(4.5)
    // The junction can't be promised then, however cool the numbers look.
    const junction = margin(knife({ transistor: pChannelLogicLevel, thermal: { junctionToAmbient: 20 } }), 'junction')
    expect(junction.verdict).toBe('not sure')
    expect(junction.reason).toMatch(/guaranteed/)
    expect(margin(knife(), 'gate-drive').verdict).toBe('holds')
  })

  it('H02: the gate sags with the load that it switches', () => {
    // 3.4 V, 0.5 ohm behind 0.1 ohm: 5.67 A, 2.83 V at the gate's supply; behind a diode of 0.3 V, 2.53 V.
    const choice = lowSide({
      drive: {
        ...pin,
        gateResistor: 1,
        resistance: 1e-3,
        pull: { at: 'drive', resistance: 1e8 },
        supply: { diode: 0.3 },
      },
      load: { resistance: 0.5 },
    })
    const { values } = check(choice, cell({ openCircuit: { from: 3.4, to: 3.4 }, sourceResistance: 0.1 }))
    expect(values['I_max']).toBeCloseTo(3.4 / 0.6, 10)
    expect(values['V_rail']).toBeCloseTo(2.833, 3)
    expect(values['V_GS']).toBeCloseTo(2.533, 3)
    // More source resistance, less gate.
    const worst = (ohms: number) => margin(knife(), 'gate-drive', cell({ sourceResistance: ohms })).worst
    expect(worst(0.2)).toBeLessThan(worst(0.1))
  })

  it('H03: a resistor at the gate divides the level', () => {
    expect(dividedLevel({ V_drv: 3.3, R_p: 10e3, R_ser: 470 })).toBeCloseTo(3.152, 3)
    expect(dividedLevel({ V_drv: 5, R_p: 1e3, R_ser: 330 })).toBeCloseTo(3.76, 2)
    const at = (where: 'gate' | 'drive') =>
      margin(
        lowSide({ drive: { ...pin, gateResistor: 470, pull: { at: where, resistance: '2.2 kohm' } } }),
        'gate-drive',
      )
    expect(at('drive').worst - at('gate').worst).toBeGreaterThan(0.3)
    expect(at('gate').catches).toContain('H03')
  })

  it('H04: an inverting transistor with a pull-up is slow, burns its pull-up, and turns an N-channel load on in reset', () => {
    expect(exponentialEdge({ R_p: 10e3, C_iss: 1e-9 })).toBeCloseTo(22e-6, 6)
    // 330 ohm, 12.55 V across it: the archived 477 mW.
    expect(pullPower({ V_GShigh: 12.55, R_p: 330, D_p: 1 })).toBeCloseTo(0.477, 3)
    const hot = knife({ drive: { ...inverterFast, pull: { at: 'gate', resistance: '100 ohm', ratedPower: '0.1 W' } } })
    caught(margin(hot, 'pull-power'), 'H04')
    const slow = knife({ drive: inverterSlow, pwm: { frequency: '4 kHz', duty: { from: 0.05, to: 0.95 } } })
    caught(margin(slow, 'off-edge'), 'H04')
    // The slow edge is the one through the pull-up.
    const { values } = check(slow)
    expect(values['t_f']! / values['t_r']!).toBeGreaterThan(30)
    const on = lowSide({
      drive: { ...inverterFast, pull: { at: 'gate', resistance: '1 kohm' }, basePullDown: '47 kohm' },
    })
    caught(margin(on, 'reset-state'), 'H04')
    // Held on through a resistor into its base, the transistor keeps the gate low.
    const held = lowSide({ drive: { ...inverterFast, basePullUp: '10 kohm' } })
    expect(margin(held, 'reset-state')).toMatchObject({ verdict: 'holds', unit: 'A' })
    // An emitter follower loses its base-emitter voltage.
    const follower = lowSide({
      drive: { kind: 'follower', gateResistor: 10, baseEmitter: 0.7, pull: { at: 'gate', resistance: '1 kohm' } },
    })
    expect(margin(lowSide(), 'gate-drive').worst - margin(follower, 'gate-drive').worst).toBeGreaterThan(0.6)
  })

  it('H05: hot resistance heats further, and runaway is an answer with its distance', () => {
    const held = (amperes: number, temperatureLaw: MosfetChoice['transistor']['temperatureLaw']) =>
      check(
        {
          transistor: { ...nChannelLowVoltage, onResistance: [{ gateSource: 2.5, maximum: 0.03 }], temperatureLaw },
          drive: pin,
          load: { current: amperes },
          pwm: { frequency: 0, duty: { from: 1, to: 1 } },
          thermal: { junctionToAmbient: 250 },
        },
        { openCircuit: { from: 4.2, to: 4.2 }, sourceResistance: 0, ambientCelsius: { from: 40, to: 40 } },
      )
    const linear = { kind: 'linear', perKelvin: 0.004 } as const
    const three = held(3, linear)
    expect(three.typical.junction).toMatchObject({ kind: 'balance' })
    expect(three.values['T_j']).toBeCloseTo(138, 0)
    expect(three.typical.limitCurrent).toBeCloseTo(3.13, 2)
    expect(three.typical.runawayCurrent).toBeCloseTo(5.77, 2)
    expect(held(4, linear).values['T_j']).toBeCloseTo(285, 0)
    expect(held(4, linear).margins.find(({ id }) => id === 'junction')).toMatchObject({ verdict: 'fails' })
    expect(held(2.5, { kind: 'power', exponent: 2.3 }).typical.runawayCurrent).toBeCloseTo(2.78, 2)
    const gone = held(6, linear)
    expect(gone.verdict).toBe('fails')
    expect(gone.worst.junction).toEqual({ kind: 'runaway', reason: expect.any(String) })
    expect(gone.cautions.map(({ id }) => id)).toContain('runaway')
    expect(gone.values).not.toHaveProperty('T_j')
    expect(Number.isFinite(gone.budgets.T_spare.linear.estimate)).toBe(true)
    // Loop gain over a half: the temperature follows every tolerance.
    expect(held(2.7, { kind: 'power', exponent: 2.3 }).cautions.map(({ id }) => id)).toContain('loop-gain')
    expect(three.cautions.map(({ id }) => id)).not.toContain('loop-gain')
  })

  it('H06: the thermal resistance is that of the copper; short bursts go by the transient impedance', () => {
    const on = (copperSquareMillimetres: number) =>
      margin(knife({ thermal: { copperSquareMillimetres } }), 'junction').worst
    expect(on(40)).toBeGreaterThan(on(250))
    expect(on(250)).toBeGreaterThan(on(650))
    expect(() => check(knife({ thermal: { copperSquareMillimetres: 20 } }))).toThrow(
      /copperSquareMillimetres.*at least 40/,
    )
    const endless = knife({ thermal: { copperSquareMillimetres: 40, tolerance: 0.2 }, load: { resistance: 0.45 } })
    // A curve for that copper: the die’s part as on more of it, the board’s part later and higher.
    const transientImpedance =
      '1 ms: 1.1 K/W; 10 ms: 3.4 K/W; 0.1 s: 9 K/W; 1 s: 20 K/W; 10 s: 45 K/W; 100 s: 95 K/W; 1000 s: 115 K/W'
    const transistor = { ...pChannelLowVoltage, transientImpedance }
    caught(margin(endless, 'junction'), 'H06')
    const bursts = { on: '2 s', period: '30 s', count: 20 }
    expect(margin({ ...endless, transistor, bursts }, 'junction').verdict).toBe('holds')
    expect(check({ ...endless, bursts }).cautions.map(({ id }) => id)).toContain('endless-burst')
  })

  it('H07: switching loss grows with the frequency, and may exceed conduction', () => {
    const edges = { V_oc: 4.2, I_max: 8, t_edge: 23e-6, n: 1 }
    expect(resistiveEdgeLoss({ ...edges, f_edge: 1e3 })).toBeCloseTo(0.13, 2)
    expect(resistiveEdgeLoss({ ...edges, f_edge: 10e3 })).toBeCloseTo(1.29, 2)
    const at = (frequency: number) =>
      knife({
        drive: inverterSlow,
        pwm: { frequency, duty: { from: 0.3, to: 0.7 } },
        lossLimit: 1.2,
        switchingShare: '20 %',
      })
    expect(margin(at(100), 'loss').verdict).toBe('holds')
    caught(margin(at(4000), 'loss'), 'H07')
    caught(margin(at(4000), 'switching-share'), 'H07')
    expect(check(at(4000)).cautions.map(({ id }) => id)).toContain('switching-loss')
    expect(check(at(100)).cautions.map(({ id }) => id)).not.toContain('switching-loss')
  })

  it('H08: nothing may lift the gate while the controller resets', () => {
    expect(resetLevel({ V_weak: 3.3, R_weak: 35e3, R_p: 10e3, I_leak: 0 })).toBeCloseTo(0.733, 3)
    const pulled = (resistance: string) =>
      margin(lowSide({ drive: { ...pin, pull: { at: 'drive', resistance }, resetPull: '35 kohm' } }), 'reset-state')
    caught(pulled('10 kohm'), 'H08')
    expect(pulled('1.5 kohm').verdict).toBe('holds')
    const { pull: _, ...bare } = pin
    caught(margin(lowSide({ drive: bare }), 'reset-state'), 'H08')
    const { resetPull: __, ...floating } = pin
    expect(margin(lowSide({ drive: floating }), 'reset-state').verdict).toBe('holds')
    // A P-channel gate is off as long as its transistor's base stays low.
    caught(margin(knife({ drive: { ...inverterFast, basePullDown: '10 kohm' } }), 'reset-state'), 'H08')
    const { basePullDown: ___, ...open } = inverterFast
    caught(margin(knife({ drive: open }), 'reset-state'), 'H08')
    expect(margin(knife(), 'reset-state').verdict).toBe('holds')
    // A pin that reaches only 3 V leaves a P-channel gate 1.2 V driven.
    const half = { ...pin, pull: { at: 'drive', resistance: '10 kohm' }, highLevel: 3 } as const
    const off = margin(knife({ drive: half }), 'off-level')
    caught(off, 'H08')
    expect(off.worst).toBeCloseTo(1.2, 12)
    // A fast edge couples through the reverse capacitance: in the limit the capacitive divider.
    expect(coupledLevel({ R_goff: 1e9, C_gd: 1e-10, V_step: 4.2, t_step: 1e-6, C_iss: 1e-9 })).toBeCloseTo(0.42, 3)
    const slowHold = knife({ drive: { ...inverterSlow, pull: { at: 'gate', resistance: '100 kohm' } } })
    caught(margin({ ...slowHold, contactAllowed: '50 us' }, 'contact-edge'), 'H08')
    // A fraction of a millisecond hurts neither load nor transistor.
    expect(margin(slowHold, 'contact-edge').verdict).toBe('holds')
    expect(margin(slowHold, 'contact-heat').verdict).toBe('holds')
  })

  it('H09: a gate resistor missing overloads the pin, one too large slows the gate', () => {
    expect(peakPinCurrent({ V_GShigh: 3.3, R_drv: 0, R_g: 100 })).toBeCloseTo(0.033, 12)
    caught(margin(lowSide({ drive: { ...pin, gateResistor: 10 } }), 'pin-current'), 'H09')
    const slow = lowSide({
      drive: { ...pin, gateResistor: '10 kohm' },
      pwm: { frequency: '2 kHz', duty: { from: 0.2, to: 0.8 } },
    })
    expect(check(slow).cautions.find(({ id }) => id === 'gate-time-constant')?.catches).toContain('H09')
    expect(check(lowSide()).cautions.map(({ id }) => id)).not.toContain('gate-time-constant')
    // With no resistor at all the driver takes the whole gate power (energy balance), else they share it.
    expect(driverShare({ P_gate: 1, R_snk: 2, R_drv: 3, R_g: 0 })).toBe(1)
    expect(driverShare({ P_gate: 1, R_snk: 2, R_drv: 2, R_g: 2 })).toBe(0.5)
  })

  it('H10: an edge is held against the safe operating area, derated at a hot junction', () => {
    const pulses = readTransistor(pChannelLowVoltage).safePulses!
    expect(safePulsePower(pulses, 1e-3)).toBeCloseTo(105, 10)
    expect(safePulsePower(pulses, 1)).toBeCloseTo(1.2, 10)
    expect(margin(knife(), 'safe-area').verdict).toBe('holds')
    const slow = knife({
      transistor: {
        ...pChannelLowVoltage,
        safePulses: [
          { seconds: 1e-5, watts: 20 },
          { seconds: 1e-4, watts: 4 },
        ],
      },
      drive: inverterSlow,
    })
    caught(margin(slow, 'safe-area'), 'H10')
    const { safePulses: _, ...unnamed } = pChannelLowVoltage
    expect(check(knife({ transistor: unnamed, drive: inverterSlow })).cautions.map(({ id }) => id)).toContain(
      'slow-edge',
    )
  })

  it('H11: a transistor fails short: said always, and what a burst without end does', () => {
    const caution = check(knife()).cautions.find(({ id }) => id === 'fails-short')
    expect(caution?.catches).toContain('H11')
    expect(caution?.text).toMatch(/fuse/)
  })

  it('H12: wiring strikes back at turn-off', () => {
    expect(turnOffPeak({ V_oc: 0, L_w: 0.2e-6, I_max: 8, t_f: 100e-9 })).toBeCloseTo(16, 10)
    expect(wiringEnergy({ L_w: 0.2e-6, I_max: 8 })).toBeCloseTo(6.4e-6, 12)
    const long = lowSide({ drive: { ...pin, gateResistor: 82 }, wiring: { inductance: '2 uH' } })
    caught(margin(long, 'drain-voltage'), 'H12')
    const short = lowSide({ wiring: { inductance: '50 nH' } })
    expect(margin(short, 'drain-voltage').verdict).toBe('holds')
    // What would do is said where it doesn't hold, and there alone.
    const told = (choice: MosfetChoice) => check(choice).cautions.some(({ id }) => id === 'spike')
    expect([long, short].map(told)).toEqual([true, false])
    const weak = lowSide({
      transistor: { ...nChannelLowVoltage, avalancheEnergy: 10e-6 },
      wiring: { inductance: '1 uH' },
    })
    caught(margin(weak, 'avalanche-energy'), 'H12')
  })

  it('H13: with the load at its source an N-channel switch is a follower', () => {
    // 3.3 V at the gate; the blade of 0.7 ohm stands in the source.
    const follower = lowSide({
      load: { resistance: 0.05 },
      wiring: { sharedSource: 0.7 },
      drive: { ...pin, supply: { regulated: 3.3 } },
    })
    const found = margin(follower, 'gate-drive', cell({ sourceResistance: 0.05 }))
    caught(found, 'H13')
    expect(found.worst).toBeLessThan(0)
    expect(check(follower).cautions.map(({ id }) => id)).toContain('source')
  })

  it('the conduction formula takes the root mean square: a quarter duty is a quarter of the loss', () => {
    expect(conductionLoss({ I: 4, n: 1, D: 0.25, R_hot: 0.01 })).toBeCloseTo(0.04, 12)
  })
})
