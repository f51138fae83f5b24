import { exampleConverters } from '@ohmward/adc'
import { extremes, marginOf as held, simulate } from '@ohmward/budget'
import { checkDecoupling, type DecouplingChoice, decouplingChanges } from '@ohmward/decoupling'
import { checkDivider, exampleAmplifiers } from '@ohmward/divider'
import { checkHall, exampleSensors } from '@ohmward/hall'
import { checkMosfet, exampleTransistors } from '@ohmward/mosfet'
import { plusMinus, readSpread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { lowestLogic } from './decoupling/logic.js'
import { curveOf, type Ladder } from './mosfet/design.js'
import { marginOf } from './tools/tally.js'

/*
 * Answers that were better than a board, each by its number in the list of what independent models found. One that is not
 * mended yet is marked as failing, with the numbers beside it; the mark goes when the mend comes.
 */

const quick = { simulation: false } as const

describe('1. a logic rail behind a diode, fed by PWM', () => {
  const choice = {
    source: { resistance: 0.076, inductance: 0.3e-6 },
    capacitors: [{ capacitance: 47e-6, seriesResistance: '3 mohm ±1 %', ratedVoltage: 6.3 }],
    load: { current: 8, pwm: { frequency: 1e4, duty: 0.95 } },
    logicRail: { behind: 'diode', forwardVoltage: 0.279, forwardDrift: 0, capacitance: 1e-4, current: 0.05 },
    limits: { brownOut: 2.75 },
  } as const
  const conditions = {
    openCircuit: { from: 3.7, to: 3.7 },
    ambientCelsius: { from: 25, to: 25 },
    ageYears: { from: 0, to: 0 },
  }
  it('is no higher than the charge through the diode leaves it', () => {
    const margin = marginOf(checkDecoupling(choice, conditions, quick), 'logic-brown-out')!
    const found = lowestLogic({
      open: 3.7,
      resistance: 0.076,
      inductance: 0.3e-6,
      capacitance: 47e-6,
      series: 3e-3,
      load: 8,
      frequency: 1e4,
      duty: 0.95,
      hold: 1e-4,
      logic: 0.05,
      drop: 0.279,
    })
    expect(margin.worst, `${margin.worst} V claimed, ${found} V found`).toBeLessThanOrEqual(found + 5e-3)
  })
})

describe('2. a junction under slow pulses', () => {
  // 12 Hz, 0.19 ohm, 48 K/W. Pairs of a ladder whose single-pulse curve is what the check is given.
  const ladder: Ladder = [
    [4, 2e-3],
    [12, 3e-2],
    [14, 0.5],
    [18, 40],
  ]
  const transistor = {
    ...exampleTransistors['P-channel, driven from 1.8 V'],
    onResistance: '1.8 V: 0.19 ohm',
    temperatureLaw: { kind: 'linear', perKelvin: 0 },
    currentMaximum: 30,
    transientImpedance: curveOf(ladder),
  } as const
  const choice = {
    transistor,
    drive: {
      kind: 'pin',
      resistance: 10,
      sinkResistance: 10,
      currentMaximum: 1,
      gateResistor: 10,
      pull: { at: 'gate', resistance: 1e5 },
    },
    load: { current: 7.5 },
    pwm: { frequency: 12, duty: { from: 0.2, to: 0.2 } },
    thermal: { junctionToAmbient: 48 },
    wiring: { inductance: 1e-8 },
  } as const
  const conditions = { openCircuit: { from: 4.2, to: 4.2 }, sourceResistance: 0, ambientCelsius: { from: 40, to: 40 } }
  it('is as hot as at the end of a pulse', () => {
    const margin = marginOf(checkMosfet(choice, conditions, quick), 'junction')!
    const watts = 7.5 ** 2 * 0.19
    const rise = ladder.reduce(
      (sum, [r, tau]) => sum + (r * Math.expm1(-0.2 / 12 / tau)) / Math.expm1(-1 / 12 / tau),
      0,
    )
    const found = 40 + watts * rise
    expect(margin.worst, `${margin.worst} °C claimed, ${found} °C found`).toBeGreaterThanOrEqual(found - 0.5)
  })
})

// The spike and what it dissipates, with a reverse capacitance that falls with voltage, are held by node equations beside the switch.
describe('3. turn-off', () => {
  it('through a pull-up of 4.7 kohm never ends within the off-time', () => {
    // The gate's charge above the plateau, 32 - 4.5 - 8 nC from 4.5 V to 1.5 V, is a capacitance of 6.5 nF: from 4.2 V to
    // the plateau 4.7 kohm takes 32 µs. 8 nC at 1.5 V across it take 25 µs more. The shortest off-time is 35 µs.
    const a = checkMosfet(
      {
        transistor: exampleTransistors['P-channel, driven from 1.8 V'],
        drive: {
          kind: 'inverting transistor',
          gateResistor: '47 ohm ±1 %',
          baseResistor: '1 kohm ±1 %',
          highLevel: '2.3 V',
          pull: { at: 'gate', resistance: '4.7 kohm ±1 %' },
        },
        load: { resistance: '0.7 ohm ±5 %' },
        pwm: { frequency: 1430, duty: { from: 0.05, to: 0.95 } },
        thermal: { copperSquareMillimetres: 250 },
        wiring: { inductance: '0.3 uH' },
      },
      { openCircuit: { from: 3, to: 4.2 }, sourceResistance: '90 mohm ±30 mohm', ambientCelsius: { from: 0, to: 50 } },
      quick,
    )
    const { verdict, worst, limit } = marginOf(a, 'off-edge')!
    const least = 0.99 * 4700
    expect(verdict).toBe('fails')
    expect(worst).toBeGreaterThan(least * 6.5e-9 * Math.log(4.2 / 1.5) + (least * 8e-9) / 1.5)
    expect(limit).toBeCloseTo(0.05 / 1430, 12)
  })
})

describe('4. the pulling resistor of a follower', () => {
  it('is held against its power', () => {
    // 7.8 V across 220 ohm are 0.27 W.
    const a = checkMosfet(
      {
        transistor: { ...exampleTransistors['P-channel, driven from 4.5 V'], onResistance: '4.5 V: 20 mohm' },
        drive: { kind: 'follower', gateResistor: 47, pull: { at: 'gate', resistance: 220 } },
        load: { resistance: 2 },
        pwm: { frequency: 100, duty: { from: 0.9, to: 0.95 } },
        thermal: { copperSquareMillimetres: 250 },
      },
      { openCircuit: { from: 8.4, to: 8.4 }, sourceResistance: 0.05, ambientCelsius: { from: 25, to: 25 } },
      quick,
    )
    expect(a.margins.some(({ id, verdict }) => id.includes('pull-power') && verdict === 'fails')).toBe(true)
  })
})

describe('5. ripple current of a part beside another', () => {
  // 60 mohm at most beside 12 mohm: 0.61 A claimed; 1.32 A where it has 18 mohm, three tenths of its largest.
  const kind = (seriesResistance: number | string, capacitance: number | string, rippleCurrent: number, count = 1) => ({
    capacitance,
    seriesResistance,
    rippleCurrent,
    ratedVoltage: 10,
    count,
  })
  const rowOf = (capacitors: ReturnType<typeof kind>[], frequency = 2e4) =>
    marginOf(
      checkDecoupling(
        {
          source: { resistance: 0.05 },
          capacitors,
          load: { current: 6, pwm: { frequency, duty: 0.5 } },
          limits: { brownOut: 2 },
        },
        { openCircuit: { from: 3.7, to: 3.7 }, ambientCelsius: { from: 25, to: 25 }, ageYears: { from: 0, to: 0 } },
        quick,
      ),
      'ripple-1',
    )!

  it('counts a series resistance of a third of the largest', () => {
    const beside = kind('12 mohm ±1 %', 470e-6, 4)
    // The same part, by its largest value alone and by the range that this means.
    const [alone, ranged] = [0.06, '39 mohm ±21 mohm'].map((series) => rowOf([kind(series, 1e-3, 2), beside]).worst)
    expect(alone).toBeGreaterThan(0.95 * ranged!)
  })

  it('is that of the part which conducts best among its like', () => {
    // At 1 MHz resistances alone share 3 A of alternating current: 20 mohm beside 30 and 30, 50 in the source.
    const { worst } = rowOf([kind('25 mohm ±20 %', '1 mF ±20 %', 2, 3)], 1e6)
    expect(worst).toBeCloseTo((3 * 50) / (50 + 20 + (2 * 50 * 20) / 30), 4)
  })

  it('is the same for two of a kind as for the same part listed twice', () => {
    const parts = (count: number) => kind('25 mohm ±20 %', '100 uF ±20 %', 2, count)
    const [two, twice] = [rowOf([parts(2)]), rowOf([parts(1), parts(1)])]
    expect(two.worst).toBeCloseTo(twice.worst, 6)
    expect(two.at['ESR_r1_one']).toBeCloseTo(0.02, 9)
  })
})

describe('6. a remedy of a rail', () => {
  const conditions = {
    openCircuit: { from: 3.4, to: 4.2 },
    ambientCelsius: { from: 25, to: 25 },
    ageYears: { from: 0, to: 0 },
  }
  const choice: DecouplingChoice = {
    source: { resistance: '0.1 ohm ±20 %' },
    capacitors: [{ capacitance: '4.7 mF ±20 %', seriesResistance: '20 mohm ±50 %', ratedVoltage: 10 }],
    load: { current: '6 A ±5 %', rise: '1 us', duration: '2 ms' },
    limits: { brownOut: '2.9 V ±2 %' },
  }
  const spreadOf = (text: unknown) => {
    const { lower, upper } = readSpread(text, { field: 'text', unit: '1' })
    return [lower, upper] as const
  }
  const plain = (text: unknown) => String(text).replace(/ [mu]?(ohm|A|s|F|V)/, '')
  /** Lowest rail of any board: a step of current into a source with one capacitor, its exponential written out. */
  const lowest = (ohms: unknown, amperes: unknown, seconds: number, count: number, volts: number) => {
    const I = spreadOf(plain(amperes))[1]
    const boards = spreadOf(plain(ohms)).flatMap((R) =>
      [0.8, 1.2].flatMap((c) =>
        [0.5, 1.5].map((e) => {
          const [C, r] = [4.7e-3 * c * count, (0.02 * e) / count]
          return volts - I * R + I * (R - (R * r) / (R + r)) * Math.exp(-seconds / ((R + r) * C))
        }),
      ),
    )
    return Math.min(...boards)
  }

  it('does as printed, with the parts that it does not touch at their worst', () => {
    const { changes } = decouplingChanges(choice, conditions)
    const put = (id: string) => Object.values(changes.find((one) => one.id === id)!.puts)[0]
    const limit = 2.9 * 1.02
    const held = {
      'as it was': lowest('0.1 ±20 %', '6 ±5 %', 2e-3, 1, 3.4),
      'a shorter burst': lowest('0.1 ±20 %', '6 ±5 %', Number.parseFloat(String(put('shorter-burst'))) * 1e-6, 1, 3.4),
      'more parts': lowest('0.1 ±20 %', '6 ±5 %', 2e-3, Number(put('more-parts-1')), 3.4),
      'less source': lowest(String(put('less-source')).replace(/^(\d+) mohm/, '0.0$1'), '6 ±5 %', 2e-3, 1, 3.4),
      'less current': lowest('0.1 ±20 %', put('less-current'), 2e-3, 1, 3.4),
      'stopping earlier': lowest('0.1 ±20 %', '6 ±5 %', 2e-3, 1, Number.parseFloat(String(put('stop-earlier')))),
    }
    const { 'as it was': before, ...after } = held
    expect(before).toBeLessThan(limit - 0.2)
    for (const [name, volts] of Object.entries(after)) {
      expect(volts, name).toBeGreaterThanOrEqual(limit - 1e-3)
      // Nor much more than is needed: two digits, or a whole part.
      expect(volts, name).toBeLessThan(limit + 0.15)
    }
  })
})

describe('7. a share of boards that is accepted', () => {
  it('is that of the rectangle where one dominates', () => {
    // Uniform on ±1 V beside ±20 mV: 0.95 V is passed by 2.5 % of the boards. A normal law of the same u says 5 %.
    const sum = { id: 'sum', name: 'sum', unit: 'V', sense: 'at most', catches: ['A01'] } as const
    const inputs = { a: plusMinus(0, 1), b: plusMinus(0, 0.02, { kind: 'normal', coverage: 2 }) }
    const { probability } = held(
      { ...sum, value: ({ a, b }) => a + b, limit: 0.95 },
      { inputs, conditions: [], accept: 0.97 },
    )
    expect(probability).toBeCloseTo(0.975, 3)
  })
})

describe('8. a normal input with degrees of freedom', () => {
  it('is a scaled t', () => {
    // Table of Student's t: 2.776 for four degrees of freedom and 95 %; a normal law says 1.96.
    const x = plusMinus(0, 1, { kind: 'normal', coverage: 1 })
    const { interval } = simulate({ x: { ...x, degreesOfFreedom: 4 } }, (one) => one.x, { seed: 1 })
    expect(interval[0]).toBeCloseTo(-2.776, 2)
    expect(interval[1]).toBeCloseTo(2.776, 2)
  })
})

describe('9. extremes', () => {
  it('of d(1 - d)V hold the one inside', () => {
    const found = extremes(
      { d: { nominal: 0.3, lower: 0, upper: 1, distribution: { kind: 'rectangular' } }, V: plusMinus(0, 1) },
      ({ d, V }) => d * (1 - d) * V,
    )
    expect(found.upper).toBeGreaterThanOrEqual(0.25 - 1e-9)
    expect(found.lower).toBeLessThanOrEqual(-0.25 + 1e-9)
  })

  it('of max(ab, bc) hold the corner', () => {
    const inputs = { a: plusMinus(0, 1), b: plusMinus(0, 1), c: plusMinus(0, 1) }
    const found = extremes(inputs, ({ a, b, c }) => Math.max(a * b, b * c))
    expect(found.lower).toBeLessThanOrEqual(-1 + 1e-9)
    expect(found.upper).toBeGreaterThanOrEqual(1 - 1e-9)
  })
})

const blade = {
  load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
  error: '20 %',
  reference: '47 ohm ±1 %',
  gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %' },
  amplifier: exampleAmplifiers.zeroDrift,
  converter: exampleConverters['12-bit controller converter'],
} as const
const conditions = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }

describe('10. an error behind a clip', () => {
  // A load of 1.2 ohm reads 1.0 ohm, at the amplifier's top: it was "holds" with 32 mohm to spare, sure.
  it('is not sure', () => {
    const choice = { ...blade, gainResistors: { feedback: '47 kohm ±1 %', ground: '1 kohm ±1 %' } }
    const margin = marginOf(checkDivider(choice, conditions, quick), 'error-largest')!
    expect(margin.verdict, JSON.stringify(margin)).not.toBe('holds')
  })
})

describe('11. the sentence of a check', () => {
  it('tells the simulated interval where the linear one is not valid', () => {
    // An error that is nearly all rectangle, ±5 % of 0.7 ohm: 95 % of the boards lie within 0.95 of it, 33 mohm; with what
    // else there is about 35. A normal law of the same u says 40.
    const exact = { reference: '47 ohm ±5 %', gainResistors: { feedback: '22 kohm', ground: '1 kohm' } } as const
    const a = checkDivider({ ...blade, ...exact }, conditions, { simulation: { maximumTrials: 100_000 } })
    const { comparison, simulation } = a.budgets.R_ind
    expect(comparison!.agrees).toBe(false)
    const off = Math.max(...simulation!.interval.map((ohms) => Math.abs(ohms - 0.7)))
    expect(off).toBeGreaterThan(0.033)
    expect(off).toBeLessThan(0.037)
    expect(a.summary).toContain(`expect ±${(1000 * off).toPrecision(2)} mΩ (95 %)`)
  })
})

describe('12. test current in the shared ground', () => {
  it('is an error of the reading', () => {
    // Load of 0.5 ohm on 20 mohm of shared ground, no other current: the reading is 20 mohm too large.
    const choice = { ...blade, surroundings: { sharedGround: '20 mohm' } }
    const margin = marginOf(checkDivider(choice, conditions, quick), 'error-smallest')!
    const without = marginOf(checkDivider(blade, conditions, quick), 'error-smallest')!
    expect(margin.worst - without.worst).toBeGreaterThan(0.018)
  })
})

describe('14. a zero that is read each time', () => {
  it('needs sensor and filter to settle while the load is off, and is off by what they hold', () => {
    // 1 kohm and 1 nF to half a count of 12 bits: 13 ln 2 of 1.01 µs are 9 µs, in an off-time of 6 µs; sampled 3 µs before its
    // end and after an edge of 1 µs, the filter alone still holds exp(-2/1.01) of 6 A.
    const a = checkHall(
      {
        sensor: { ...exampleSensors.wideSupplyOneWay, bandwidth: '100 MHz' },
        converter: exampleConverters['12-bit controller converter'],
        current: { from: 0, to: 6 },
        errors: [{ at: 6, allowed: '5 %' }],
        pwm: { frequency: 1e4, duty: { from: 0.5, to: 0.94 } },
        filter: { resistance: 1000, capacitance: 1e-9 },
        timing: { edge: 1e-6 },
        calibration: { kind: 'zero each time' },
      },
      { rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: 25, to: 25 } },
      quick,
    )
    const { verdict, worst } = marginOf(a, 'off-window')!
    expect(verdict).toBe('fails')
    expect(worst).toBeGreaterThan(13 * Math.LN2 * 1.01e-6)
    expect(marginOf(a, 'error-1')!.worst).toBeGreaterThan(6 * Math.exp(-2 / 1.01))
  })
})

describe('15. the law of an element', () => {
  const wire = (element: object, restCelsius: number, hotCelsius: number) => {
    const thermometry = { element, restCelsius, hotCelsius, error: 500 } as never
    const load = { from: 0.1, to: 3, nominal: 0.4 }
    return marginOf(checkDivider({ ...blade, load, thermometry }, conditions, quick), 'temperature')!.worst
  }
  it('of platinum has a tolerance by its class', () => {
    // Class B, ±(0.3 + 0.005 t): 1.3 K at 200 °C; and 0.4 K the other way at the rest of 20 °C. Resistance as IEC 60751 has it.
    const ratio = (t: number) => 1 + 3.9083e-3 * t - 5.775e-7 * t * t
    const read = (ratio(201.3) / ratio(19.6)) * ratio(20)
    const root = Math.sqrt(3.9083e-3 ** 2 + 4 * 5.775e-7 * (1 - read))
    const celsius = (3.9083e-3 - root) / (2 * 5.775e-7)
    expect(celsius - 200).toBeGreaterThan(1.7)
    expect(wire({ platinum: 'B' }, 20, 200)).toBeGreaterThan(celsius - 200)
  })
  it('of tungsten is no straight line: 77 K at 827 °C', () => {
    // 27.94 against 5.65 microohm centimetres at 1100 K and 300 K (a handbook's table, from memory), read with 0.45 %/K.
    const off = (27.94 / 5.65 - 1) / 0.0045 - 800
    expect(off).toBeGreaterThan(70)
    expect(wire({ coefficient: 0.0045 }, 26.85, 826.85)).toBeGreaterThan(off)
  })
})

describe('16. the known resistor of a calibration', () => {
  it('may clip, and then no error is sure', () => {
    // 2 ohm behind 47 ohm at the calibration's 3.6 V: 147 mV, 48 times 7 V.
    const choice = {
      ...blade,
      gainResistors: { feedback: '47 kohm ±1 %', ground: '1 kohm ±1 %' },
      calibration: { kind: 'zero and span', resistor: '2 ohm' },
    } as const
    for (const id of ['error-smallest', 'error-nominal', 'error-largest'])
      expect(marginOf(checkDivider(choice, conditions, quick), id)!.verdict, id).not.toBe('holds')
  })
})

describe('beside the list', () => {
  // 250 nA of bias and leakage in 4.7 kohm: the input stands 1.3 mV below the sense node, 5.1 mV where 6.4 mV were claimed.
  it('common mode is that of the input, behind its protection resistor', () => {
    const amplifier = { ...exampleAmplifiers.bipolarSingleSupply, commonModeLow: 0 }
    const { limit, worst } = marginOf(
      checkDivider(
        { ...blade, amplifier, surroundings: { protectionResistance: 4700 } },
        { ...conditions, rail: { from: 3.4, to: 4.2 } },
        quick,
      ),
      'common-mode-low',
    )!
    const sense = (3.4 * 0.5) / (47.47 + 0.5)
    expect(limit).toBe(0)
    expect(worst).toBeLessThanOrEqual(sense - 4700 * 250e-9)
  })

  // 68 mA in 1 ohm at 400 K/W warm it by 0.9 %, beside a reference of 1 %: both held against 1.7 %, each by itself.
  it('an error is that of the load which the test current warmed', () => {
    const choice = {
      ...blade,
      load: { from: 1, to: 1, temperatureCoefficient: 0.0045, thermalResistance: 400 },
      error: '1.7 %',
      gainResistors: { feedback: '22 kohm', ground: '1 kohm' },
    }
    const around = { rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: 25, to: 25 } }
    const answer = checkDivider(choice, around, quick)
    // A board whose reference is 1 % too small: what the load settles at, and what is read of that. One pulse and the mean of many.
    const reference = 0.99 * 47
    let load = 1
    for (let turn = 0; turn < 50; turn++) load = 1 + 0.0045 * 400 * 1.01 * (3.3 / (reference + load)) ** 2 * load
    const share = load / (reference + load)
    const read = (47 * share) / (1 - share)
    expect(read - 1).toBeGreaterThan(0.0185)
    for (const id of ['warming', 'error-nominal']) expect(marginOf(answer, id)!.verdict, id).toBe('holds')
    const { verdict, worst } = marginOf(answer, 'error-warmed')!
    expect(verdict).toBe('fails')
    expect(worst).toBeGreaterThan(read - 1)
  })
})
