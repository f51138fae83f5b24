import { describe, expect, it } from 'vitest'
import { checkMosfet, type MosfetChoice } from '../src/index.js'
import { cell, driver, knife, lowSide, nChannelLowVoltage } from './choice.js'

const check = (choice: MosfetChoice, around = cell()) => checkMosfet(choice, around, { simulation: false })
const cautionOf = (choice: MosfetChoice, id: string, around = cell()) =>
  check(choice, around).cautions.find((one) => one.id === id)

describe('a reversed cell', () => {
  it('drives the load through the body diode: said with its current, power and rise', () => {
    const choice = knife({
      load: { resistance: 0.7 },
      transistor: { ...knife().transistor, bodyDiodeDrop: 0.8 },
      thermal: { junctionToAmbient: 50 },
    })
    const around = cell({ openCircuit: { from: 3, to: 4.2 }, sourceResistance: 0.1 })
    // 3.4 V over 0.8 ohm; 0.8 V at that current; 50 K for each watt.
    const { text, catches } = cautionOf(choice, 'reversed-cell', around)!
    expect(text).toMatch(/up to 4\.3 A .* up to 3\.4 W, for a rise of 170 K/)
    expect(catches).toEqual(['K13'])
    expect(cautionOf({ ...choice, polarityProtection: true }, 'reversed-cell', around)).toBeUndefined()
  })
})

describe('a freewheeling diode', () => {
  const winding = (more: Partial<MosfetChoice> = {}) =>
    lowSide({
      load: { current: 3 },
      edges: 'clamped inductive',
      drive: driver,
      pwm: { frequency: 1000, duty: { from: 0.25, to: 0.75 } },
      wiring: { inductance: 0 },
      ...more,
    })

  it('is held against its rating at the smallest duty', () => {
    const found = (ratedPower: number) =>
      check(winding({ freewheel: { drop: 0.8, ratedPower } })).margins.find(({ id }) => id === 'freewheel-power')!
    // The gate of a driver is a fraction of a microsecond late in a thousand.
    expect(found(1).worst).toBeCloseTo(0.8 * 3 * 0.75, 3)
    expect(found(1).verdict).toBe('fails')
    expect(found(2).verdict).toBe('holds')
  })

  it.each([300, 1000, 3000])(
    'carries the current until a gate behind %d ohm has taken it over, in small steps of time',
    (gateResistor) => {
      const drive = { ...driver, supply: { regulated: '3.3 V' }, gateResistor } as const
      const pwm = { frequency: 1e4, duty: { from: 0.25, to: 0.75 } }
      const one = winding({ drive, pwm, freewheel: { drop: 0.8, ratedPower: 5 } })
      const { margins, cautions } = check(one)
      const { worst } = margins.find(({ id }) => id === 'freewheel-power')!
      // The sheet's gate: 3 nC to the plateau of 1.5 V, there 5 nC; the highest threshold, the most resistance of driver and gate.
      const ohms = gateResistor + 4 + 1.5
      const step = 1e-9
      let [volts, moved, time] = [0, 0, 0]
      while (moved < 5e-9) {
        const charge = ((3.3 - volts) / ohms) * step
        if (volts < 1.5) volts += charge / (3e-9 / 1.5)
        else moved += charge
        time += step
      }
      const said = 0.8 * 3 * (0.75 + time * 1e4)
      expect(time * 1e4).toBeGreaterThan(0.005)
      expect(worst).toBeGreaterThan(said)
      expect(worst).toBeLessThan(1.1 * said)
      expect(cautions.some(({ id }) => id === 'freewheel')).toBe(false)
      const untold = check({ ...one, freewheel: { drop: 0.8 } }).cautions.find(({ id }) => id === 'freewheel')!.text
      expect(Number(/up to ([\d.]+) W/.exec(untold)![1])).toBeGreaterThanOrEqual(Number(said.toPrecision(2)))
    },
  )

  it('without a rating is a caution with its loss, and lifts the drain by its forward voltage', () => {
    const { cautions, values, assumptions } = check(winding())
    expect(cautions.find(({ id }) => id === 'freewheel')?.text).toContain(`2.3 W`)
    expect(values['V_pk']).toBeCloseTo(values['V_oc']! + 0.7, 12)
    expect(assumptions.join()).toMatch(/freewheel\.drop = 0\.7 V ±0\.3 V/)
    expect(() => check(knife({ freewheel: { drop: 0.5 } }))).toThrow(/freewheel/)
  })
})

describe('the run of the on-resistance between two lines', () => {
  const at = (between: 'step' | 'straight', volts: number) =>
    check(
      lowSide({
        transistor: { ...nChannelLowVoltage, onResistance: '2 V: 20 mohm; 4 V: 10 mohm', between },
        drive: {
          ...driver,
          supply: { regulated: volts },
          pull: { at: 'drive', resistance: '10 Mohm' },
          resistance: 1e-6,
        },
        wiring: { sharedSource: 0 },
      }),
    )

  it('steps by default, and the assumptions say which', () => {
    expect(at('step', 3).values['R_on']).toBeCloseTo(0.02, 9)
    expect(at('straight', 3).values['R_on']).toBeCloseTo(0.015, 6)
    expect(at('straight', 2.5).values['R_on']).toBeCloseTo(0.0175, 6)
    expect(at('straight', 5).values['R_on']).toBeCloseTo(0.01, 9)
    expect(at('step', 3).assumptions.join()).toMatch(/that of the lower gate voltage holds/)
    expect(at('straight', 3).assumptions.join()).toMatch(/is a straight line/)
  })

  it('is hottest where brute force over cell voltages and corners finds it', () => {
    const choice = knife({ transistor: { ...knife().transistor, between: 'straight' } })
    const worst = check(choice).margins.find(({ id }) => id === 'junction')!.worst
    let highest = 0
    for (let volts = 3; volts <= 4.2; volts += 0.1) {
      const one = check(choice, cell({ openCircuit: { from: volts, to: volts } }))
      highest = Math.max(highest, one.margins.find(({ id }) => id === 'junction')!.worst)
    }
    expect(worst).toBeGreaterThanOrEqual(highest - 1e-6)
    expect(worst).toBeLessThan(highest + 3)
    const step = check(knife()).margins.find(({ id }) => id === 'junction')!.worst
    expect(worst).toBeLessThan(step)
  })
})
