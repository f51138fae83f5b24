import type { PathElement, Supply } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'
import {
  type Capacitor,
  checkDecoupling,
  type DecouplingAssessment,
  type DecouplingChoice,
  type DecouplingConditions,
  decouplingChanges,
  exampleCapacitors,
  examplePort,
} from '../src/index.js'
import { flatCell, protection } from './source.js'

/** A plain rail, everything exact, so that each pitfall can be set against arithmetic by hand. */
const base: DecouplingChoice = {
  source: { resistance: 0.1 },
  capacitors: [{ name: 'bulk', capacitance: 1e-3, ratedVoltage: 10, seriesResistance: 0.01 }],
  load: { current: 8, duration: 20e-6 },
  limits: { brownOut: 3 },
}
const at: DecouplingConditions = {
  openCircuit: { from: 3.7, to: 3.7 },
  ambientCelsius: { from: 20, to: 20 },
  ageYears: { from: 0, to: 0 },
}
const check = (
  choice: Partial<DecouplingChoice>,
  conditions: Partial<DecouplingConditions> = {},
): DecouplingAssessment => checkDecoupling({ ...base, ...choice }, { ...at, ...conditions }, { simulation: false })
const margin = (a: DecouplingAssessment, id: string) => {
  const found = a.margins.find((one) => one.id === id)
  expect(found, `${id} among ${a.margins.map((one) => one.id).join(', ')}`).toBeDefined()
  return found!
}
const bulk = (base.capacitors as readonly Capacitor[])[0]!

describe('pitfalls of the bulk capacitor', () => {
  it('J01 a ceramic at its bias holds half as long as its rating promises', () => {
    const rated = { name: 'class II', capacitance: 1e-3, ratedVoltage: 6.3, seriesResistance: 0.001 }
    const droop = (capacitor: Capacitor) =>
      3.7 - check({ capacitors: [capacitor], load: { current: 8, duration: 5e-6 } }).values['V_min']!
    const bias = [
      { volts: 0, factor: 1 },
      { volts: 3.7, factor: 0.5 },
      { volts: 6.3, factor: 0.2 },
    ]
    // Short against the time constant the droop beyond the first drop is as 1/C.
    const first = (8 * (0.1 * 0.001)) / 0.101
    expect((droop({ ...rated, bias }) - first) / (droop(rated) - first)).toBeCloseTo(2, 1)
    const aged = check({ capacitors: [{ ...rated, ageing: 0.05 }] })
    expect(aged.cautions.find(({ id }) => id === 'bias')?.catches).toContain('J01')
    // What wears or has a life is an electrolytic, which loses nothing to bias, and much to the cold.
    for (const electrolytic of [{ wornCapacitance: 0.8 }, { wornResistance: 1.5 }, { lifeHours: 2000 }]) {
      const { cautions } = check({ capacitors: [{ ...rated, ...electrolytic }] })
      expect(cautions.map(({ id }) => id)).not.toContain('bias')
    }
  })

  it('J02 with 0.2 ohm of series resistance 0.53 V of 0.8 V remain at once, however large it is', () => {
    for (const capacitance of [1e-3, 1]) {
      const a = check({ capacitors: [{ ...bulk, capacitance, seriesResistance: 0.2 }], limits: { brownOut: 3.4 } })
      const first = margin(a, 'series-resistance')
      expect(first.worst).toBeCloseTo(3.7 - (8 * 0.1 * 0.2) / 0.3, 9)
      expect(first.verdict).toBe('fails')
      expect(first.catches).toContain('J02')
    }
    // 60 mohm are the limit for 0.3 V.
    const with60 = (m: number) =>
      margin(check({ capacitors: [{ ...bulk, seriesResistance: m }], limits: { brownOut: 3.4 } }), 'series-resistance')
        .verdict
    expect(with60(0.0599)).toBe('holds')
    expect(with60(0.0601)).toBe('fails')
  })

  it('J03 the cold decides: a wet electrolytic holds at 20 °C and fails at -20 °C', () => {
    const wet = { ...exampleCapacitors.wetAluminium, seriesResistance: 0.03 }
    const one = (celsius: number) =>
      check({ capacitors: [wet], limits: { brownOut: 3.4 } }, { ambientCelsius: { from: celsius, to: celsius } })
    expect(margin(one(20), 'series-resistance').verdict).toBe('holds')
    expect(margin(one(-20), 'series-resistance').verdict).toBe('fails')
    const both = check({ capacitors: [wet], limits: { brownOut: 3.4 } }, { ambientCelsius: { from: -20, to: 50 } })
    expect(both.worst['T_a']).toBe(-20)
    expect(margin(both, 'series-resistance').catches).toContain('J03')
  })

  it('J04 no capacitor changes the steady sag, and the verdict says so first, with the number', () => {
    const a = check({ load: { current: 8 }, limits: { brownOut: 3.4 } })
    expect(a.steady.isImpossible).toBe(true)
    expect(a.summary).toMatch(/^Fails: no capacitor can help/)
    expect(a.summary).toContain('2.9')
    expect(margin(a, 'steady-sag').worst).toBeCloseTo(3.7 - 0.8, 12)
    for (const capacitance of [1e-6, 1, 90]) {
      const more = check({ load: { current: 8 }, limits: { brownOut: 3.4 }, capacitors: [{ ...bulk, capacitance }] })
      expect(margin(more, 'steady-sag').worst).toBeCloseTo(2.9, 12)
      expect(more.verdict).toBe('fails')
    }
    // 10 ms need 0.21 F, 2 s need 43 F (no series resistance).
    const need = (duration: number) =>
      check({
        load: { current: 8, duration },
        limits: { brownOut: 3.4 },
        capacitors: [{ ...bulk, seriesResistance: 0 }],
      }).steady.capacitance!
    expect(need(10e-3)).toBeCloseTo(0.21, 2)
    expect(Math.abs(need(2) - 43)).toBeLessThan(0.5)
    expect(need(2)).toBeGreaterThan(42)
  })

  it.each([
    // 0.3 V of room: 3 A through 0.1 ohm, or 8 A through 37.5 mohm, of which 40 mohm is the next step above.
    ['a current', { current: 8 }, { 'less-current': '3 A', 'less-source': '30 mohm', 'lower-brown-out': '2.9 V' }],
    // R/(R + 0.1 ohm) of 3.7 V are 3.4 V at 1.13 ohm; 0.5/(0.5 + R) at 44 mohm.
    ['a resistor', { resistance: 0.5 }, { 'more-resistance': '1.2 ohm', 'less-source': '40 mohm' }],
  ] as const)('J04 what helps against the steady sag of %s is tried as it is printed', (_, load, expected) => {
    const choice = { ...base, load, limits: { brownOut: 3.4 } }
    const { changes } = decouplingChanges(choice, at)
    const found = (id: string) => changes.find((one) => one.id === id)!
    for (const [id, text] of Object.entries(expected)) expect(found(id)).toMatchObject({ text, verdict: 'holds' })
    // The mean sag alone would allow 0.3 V of the current's 0.8 V, or 3.7 V/(1 + D · 0.1/0.5) = 3.4 V; the ripple comes on top.
    const mean = 'current' in load ? 0.3 / 0.8 : (3.7 / 3.4 - 1) * 5
    const duty = Number(/duty (\S+),/.exec(found('pulsed').text)![1])
    expect(duty).toBeLessThan(mean)
    expect(duty).toBeGreaterThan(mean - 0.15)
  })
})

describe('pitfalls of the logic rail', () => {
  const burst = { current: 8, duration: 10e-3 }
  const diode = { behind: 'diode', forwardVoltage: 0.3, capacitance: 500e-6, current: 5e-3 } as const

  it('J05 a diode and 500 µF ride through 10 ms at 5 mA with 0.1 V of room, not through 2 s', () => {
    const limits = { brownOut: 3.3 }
    const warm = { ambientCelsius: { from: 25, to: 25 } }
    const short = check({ load: burst, limits, logicRail: diode }, warm)
    // Within 0.5 mV of the logic's current in the source, and 3 mV until the rail is back.
    expect(margin(short, 'logic-brown-out').worst).toBeLessThan(3.7 - 0.3 - 0.1 - 0.5e-3)
    expect(margin(short, 'logic-brown-out').worst).toBeGreaterThan(3.7 - 0.3 - 0.1 - 4e-3)
    const long = check({ load: { ...burst, duration: 2 }, limits, logicRail: diode }, warm)
    // The capacitor is long empty: what the sagged rail still gives through the diode.
    expect(margin(long, 'logic-brown-out').worst).toBeCloseTo(2.9 - 0.3, 3)
    expect(margin(long, 'logic-brown-out').catches).toContain('J05')
  })

  it('J05 the forward voltage counts at its largest and cold', () => {
    const logicRail = { ...diode, forwardVoltage: '0.3 V ±0.05 V', forwardDrift: 2e-3 }
    const a = check({ load: burst, limits: { brownOut: 3.2 }, logicRail }, { ambientCelsius: { from: -20, to: 50 } })
    const cold = 3.7 - (0.35 + 2e-3 * 45) - 0.1
    expect(margin(a, 'logic-brown-out').worst).toBeLessThan(cold - 0.5e-3)
    expect(margin(a, 'logic-brown-out').worst).toBeGreaterThan(cold - 4e-3)
  })

  it('J06 a diode rail is told to break ratiometry and to lift pins', () => {
    const a = check({ load: burst, limits: { brownOut: 3 }, logicRail: diode })
    expect(a.cautions.find(({ catches }) => catches?.includes('J06'))?.text).toContain('ratiometric')
  })

  it('J07 a resistor filters the sag, and a radio burst across it fails', () => {
    const logicRail = { behind: 'resistor', resistance: 10, capacitance: 100e-6, current: 5e-3 } as const
    const load = { current: 8, duration: 100e-6 }
    const quiet = check({ load, idle: 5e-3, limits: { brownOut: 3.4 }, logicRail })
    expect(margin(quiet, 'logic-brown-out').verdict).toBe('holds')
    const radio = check({ load, idle: 5e-3, limits: { brownOut: 3.4 }, logicRail: { ...logicRail, peakCurrent: 0.3 } })
    const { worst, verdict, catches } = margin(radio, 'logic-brown-out')
    expect(verdict).toBe('fails')
    expect(catches).toContain('J07')
    expect(margin(quiet, 'logic-brown-out').worst - worst).toBeCloseTo(0.295 * 10, 9)
  })

  it('J08 the brown-out counts at its largest, and at its smallest against the clock', () => {
    const a = check({ load: { current: 5 }, limits: { brownOut: '3 V ±7 %', clock: 2.8 } })
    expect(margin(a, 'rail-brown-out').limit).toBeCloseTo(3.21, 9)
    expect(margin(a, 'rail-brown-out').verdict).toBe('fails')
    expect(margin(a, 'brown-out-clock')).toMatchObject({ verdict: 'fails', catches: ['J08'] })
    expect(margin(a, 'brown-out-clock').slack).toBeCloseTo(3 * 0.93 - 2.8, 9)
  })

  it('J09 a brown-out that is off is cautioned, and every start-up loop', () => {
    const caught = (choice: Partial<DecouplingChoice>) =>
      check(choice)
        .cautions.filter(({ catches }) => catches?.includes('J09'))
        .map(({ id }) => id)
    expect(caught({})).toEqual(['start-up'])
    expect(caught({ brownOutEnabled: false })).toEqual(['start-up', 'brown-out-off'])
  })
})

describe('pitfalls of ripple and plugging in', () => {
  it('J10 8 A at half duty put up to 4 A into a capacitor rated for 0.8 A; it heats and ages', () => {
    const capacitor = { ...bulk, rippleCurrent: 0.8, thermalResistance: 40, lifeHours: 2000 }
    const load = { current: 8, pwm: { frequency: 1e6, duty: 0.5 } }
    const a = check({ capacitors: [capacitor], load, limits: { brownOut: 2 }, wantedLifeHours: 20_000 })
    const ripple = margin(a, 'ripple-1')
    // 10 mohm are the largest: a part may have three tenths of it.
    expect(ripple.worst).toBeCloseTo((4 * 0.1) / 0.103, 3)
    expect(ripple).toMatchObject({ verdict: 'fails', catches: ['J10'] })
    // 40 K/W · I² · 10 mohm, then halved per 10 K from 105 °C at 20 °C of air.
    const heat = 40 * ((4 * 0.1) / 0.11) ** 2 * 0.01
    expect(margin(a, 'life-1').worst / (2000 * 2 ** ((85 - heat) / 10))).toBeCloseTo(1, 5)
  })

  it('J11 42 A at insertion, gone below the trip level in time or not', () => {
    const insertion = { contactSurge: 30, shortVoltage: 0.5, shortDelay: 100e-6 }
    const source = flatCell(0.05, [protection(0.05)])
    const a = check(
      { source, capacitors: [{ ...bulk, seriesResistance: 0 }], insertion, limits: { brownOut: 2 } },
      { openCircuit: { from: 4.2, to: 4.2 } },
    )
    expect(margin(a, 'contact-surge').worst).toBeCloseTo(42, 9)
    expect(margin(a, 'contact-surge').verdict).toBe('fails')
    // Trip at 0.5 V / 50 mohm = 10 A: R·C·ln(42/10).
    expect(margin(a, 'short-delay').worst).toBeCloseTo(100e-6 * Math.log(4.2), 9)
    expect(margin(a, 'short-delay')).toMatchObject({ verdict: 'fails', catches: ['J11'] })
  })

  it('J12 a ceramic on a loop rings to 6.6 V from 4.2 V, and a resistive capacitor four times as large damps it', () => {
    const source = { resistance: 0.05, inductance: 0.2e-6 }
    const ceramic = { name: 'ceramic', capacitance: 10e-6, ratedVoltage: 6.3, seriesResistance: 0 }
    const damper = { name: 'damper', capacitance: 47e-6, ratedVoltage: 6.3, seriesResistance: 0.14 }
    const conditions = { openCircuit: { from: 4.2, to: 4.2 } }
    const limits = { brownOut: 1 }
    const load = { current: 1, duration: 1e-4 }
    const alone = check({ source, capacitors: [ceramic], insertion: { railMaximum: 6 }, limits, load }, conditions)
    expect(margin(alone, 'rail-maximum').worst).toBeCloseTo(6.6, 1)
    expect(margin(alone, 'rail-maximum')).toMatchObject({ verdict: 'fails', catches: ['J12'] })
    expect(margin(alone, 'rated-voltage').verdict).toBe('fails')
    const damped = check(
      { source, capacitors: [ceramic, damper], insertion: { railMaximum: 6 }, limits, load },
      conditions,
    )
    expect(margin(damped, 'rail-maximum').verdict).toBe('holds')
  })

  it('J13 a port: 0.5 A, 10 µF, 125 mV in the cable', () => {
    const port = { openCircuit: undefined }
    const source = { ...examplePort, resistance: 0.25 }
    const small = { name: 'ceramic', capacitance: 4.7e-6, ratedVoltage: 10, seriesResistance: 5e-3 }
    const light = check({ source, capacitors: [small], load: { current: 0.5 }, limits: { brownOut: 4.5 } }, port)
    expect(margin(light, 'rail-brown-out').worst).toBeCloseTo(4.75 - 0.125, 9)
    expect(margin(light, 'port-current').verdict).toBe('holds')
    expect(margin(light, 'port-capacitance').verdict).toBe('holds')
    const heavy = check({ source, load: { resistance: 0.7 }, limits: { brownOut: 2.8 } }, port)
    expect(margin(heavy, 'port-current')).toMatchObject({ verdict: 'fails', catches: ['J13'] })
    expect(margin(heavy, 'port-capacitance')).toMatchObject({ verdict: 'fails', catches: ['J13'] })
    // At its limit the port leaves 0.5 A · 0.7 ohm.
    expect(margin(heavy, 'rail-brown-out').worst).toBeCloseTo(0.35, 6)
    expect(heavy.cautions.some(({ id }) => id === 'weak-port')).toBe(true)
  })
})

describe('pitfalls of the source', () => {
  it('K01 the cell counts cold, aged and empty', () => {
    const flat = flatCell(0.03)
    const source = {
      ...flat,
      source: { ...flat.source, ageFactor: 2, temperatureFactor: undefined } as Supply['source'],
    }
    const a = check(
      { source, load: { current: 8 }, limits: { brownOut: 2 } },
      { openCircuit: { from: 3.3, to: 4.2 }, ambientCelsius: { from: 0, to: 40 }, ageYears: { from: 0, to: 3 } },
    )
    // 30 mohm, 2.5 times at 0 °C, twice when aged.
    expect(margin(a, 'steady-sag').worst).toBeCloseTo(3.3 - 8 * 0.03 * 2.5 * 2, 9)
    expect(a.worst).toMatchObject({ V_oc: 3.3, T_a: 0, Y_age: 3 })
    expect(margin(a, 'steady-sag').catches).toContain('K01')
  })

  it('K02 30 W exist at 3.7 V as a constant power, not at 3.4 V, and 0.5 ohm gets 19 W at most', () => {
    const collapse = (from: number) =>
      check({ load: { power: 30 }, limits: { brownOut: 1 } }, { openCircuit: { from, to: from } })
    expect(margin(collapse(3.7), 'rail-brown-out').worst).toBeCloseTo((3.7 + Math.sqrt(3.7 ** 2 - 12)) / 2, 4)
    expect(margin(collapse(3.4), 'rail-brown-out').worst).toBe(0)
    const spare = margin(collapse(3.7), 'power-exists')
    expect(spare.limit).toBeCloseTo((0.7 * 3.7 ** 2) / 0.4, 9)
    expect(spare).toMatchObject({ verdict: 'fails', catches: ['K02'] })
    expect(margin(check({ load: { power: 20 }, limits: { brownOut: 1 } }), 'power-exists').verdict).toBe('holds')
    const reach = (wantedPower: number) =>
      margin(check({ load: { resistance: 0.5, wantedPower }, limits: { brownOut: 1 } }), 'power-reaches')
    expect(reach(30)).toMatchObject({ verdict: 'fails', catches: ['K02'] })
    expect(reach(30).limit).toBeCloseTo(19.01, 2)
    expect(reach(18).verdict).toBe('holds')
  })

  it('K03 a pair of 50 mohm that trips at 0.15 V lets no 3 A through, with 30 % spare 2.1 A', () => {
    const source = flatCell(0.05, [protection(0.05, 0.15)])
    const trip = (current: number) =>
      margin(check({ source, load: { current }, limits: { brownOut: 2 } }), 'protection-trip')
    expect(trip(2.2)).toMatchObject({ verdict: 'fails', catches: ['K03'] })
    expect(trip(2.2).limit).toBeCloseTo(2.1, 9)
    expect(trip(2).verdict).toBe('holds')
  })

  it('K13 a polarity diode takes its drop from the rail; a transistor only its resistance', () => {
    const rail = (element: Omit<PathElement, 'name'>) =>
      margin(
        check({
          source: flatCell(0.1, [{ name: 'polarity', ...element }]),
          load: { current: 8 },
          limits: { brownOut: 2 },
        }),
        'steady-sag',
      )
    expect(rail({ drop: 0.4 }).worst).toBeCloseTo(3.7 - 0.4 - 0.8, 9)
    expect(rail({ resistance: 0.025 }).worst).toBeCloseTo(3.7 - 8 * 0.125, 9)
    expect(rail({}).catches).toContain('K13')
  })
})
