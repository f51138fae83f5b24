import { InputError } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { railInRise } from '../src/formulas/index.js'
import { checkDecoupling, type DecouplingChoice, type DecouplingConditions, exampleCapacitors } from '../src/index.js'
import { railOf } from '../src/rail/rail.js'
import { at, circuit, respondTo } from '../src/waveform/inside.js'
import { flatConditions, flatImpossible, flatKnife } from './flat-knife.js'
import { flatCell, protection } from './source.js'

const quick = { simulation: false } as const

describe('a check', () => {
  const a = checkDecoupling(flatKnife, flatConditions, quick)

  it('is plain data without a NaN or an infinity', () => {
    const text = JSON.stringify(a)
    expect(JSON.parse(text)).toEqual(a)
    const walk = (value: unknown): void => {
      if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true)
      else if (typeof value === 'object' && value !== null) Object.values(value).forEach(walk)
    }
    walk(a)
  })

  it('holds for the hot knife with a low brown-out, and its worst case is cold, aged, empty', () => {
    expect(a.verdict).toBe('holds')
    expect(a.worst).toMatchObject({ V_oc: 3, T_a: 0, Y_age: 5 })
    expect(a.worst['R_cell']).toBeCloseTo(0.03, 12)
    expect(a.worst['R_L']).toBeCloseTo(0.665, 12)
    // 3 V less 12 mA, over the cold, aged cell and all of the path at its limits, into the smallest blade.
    const R = 0.03 * 2.5 * 1.8 + 0.01 + 0.015 + 0.015 + 0.0096
    expect(a.steady.voltage).toBeCloseTo(((3 - 0.012 * R) * 0.665) / (0.665 + R), 9)
    expect(a.budgets.V_min.extremes.lower).toBeLessThanOrEqual(a.steady.voltage + 1e-9)
  })

  it('fails for the same knife at 2.7 V, and says that no capacitor helps', () => {
    const b = checkDecoupling(flatImpossible, flatConditions, quick)
    expect(b.verdict).toBe('fails')
    expect(b.steady).toMatchObject({ isImpossible: true, breaks: true, limitName: 'brownOut', capacitance: null })
  })

  it('gives the lowest rail by simulation too, inside the extremes', () => {
    const { simulation, extremes } = checkDecoupling(flatKnife, flatConditions).budgets.V_min
    expect(simulation!.minimum).toBeGreaterThanOrEqual(extremes.lower)
    expect(simulation!.maximum).toBeLessThanOrEqual(extremes.upper)
  })

  it('derives the lowest point of one capacitor by the formula of its regime', () => {
    const single = (source: object, load: object) =>
      checkDecoupling(
        {
          source: { resistance: 0.1, ...source },
          capacitors: [{ name: 'one', capacitance: 1e-3, ratedVoltage: 10, seriesResistance: 0.01 }],
          load: { current: 4, duration: 50e-6, ...load },
          limits: { brownOut: 2 },
        } as DecouplingChoice,
        { openCircuit: { from: 3.7, to: 3.7 }, ambientCelsius: { from: 25, to: 25 } },
        quick,
      )
    const cases = [
      [{}, {}, 'V_stepI'],
      [{}, { rise: 20e-6, fall: 0 }, 'V_rampI'],
      [{ inductance: 10e-6 }, {}, 'V_ring'],
      [{ inductance: 0.5e-6 }, {}, 'V_creep'],
      [{}, { current: undefined, resistance: 0.8 }, 'V_stepR'],
    ] as const
    for (const [source, load, symbol] of cases) {
      const found = single(source, load)
      const step = found.derivation.find((one) => one.symbol === symbol)
      expect(step, symbol).toBeDefined()
      expect(step!.value).toBeCloseTo(found.values['V_min']!, 9)
    }
    const rest = respondTo(
      circuit(
        { voltage: 3.7, resistance: 0.1, inductance: 0 },
        [{ capacitance: 1e-3, resistance: 0.01, inductance: 0 }],
        0,
      ),
      { kind: 'current', current: 4 },
      { rise: 2e-5, duration: 1, fall: 0 },
    )
    const inRise = railInRise({ V_rest: 3.7, R_s: 0.1, C: 1e-3, I_step: 4, tau_I: 0.11e-3, t_r: 2e-5, t: 7e-6 })
    expect(at(rest.pieces[0]!.piece.voltage, 7e-6)).toBeCloseTo(inRise, 12)
  })

  it('derives what insertion does from a full, warm, new cell', () => {
    const one = (symbol: string) => a.derivation.find((step) => step.symbol === symbol)!
    const R_s = 0.025 * 0.9 + 0.006 + 0.012 + 0.012 + 0.008
    expect(one('I_in').inputs['V_s']).toBe(4.2)
    // Between 25 and 60 °C the cell's factor falls from 1 to 0.85: at 50 °C it is 0.893.
    expect(one('I_in').inputs['R_s']).toBeCloseTo(R_s - 0.025 * (0.9 - (1 - (25 / 35) * 0.15)), 9)
    // Two polymers, and a ceramic at 50 °C (0.9375 of it) through its points of bias: a straight line times the voltage, by Simpson.
    const between = (a: number, b: number, f: number, g: number) => ((b - a) / 6) * (a * f + (a + b) * (f + g) + b * g)
    const ceramic = between(0, 2, 1, 0.86) + between(2, 3, 0.86, 0.68) + between(3, 4.2, 0.68, 0.45)
    expect(one('E_C').value).toBeCloseTo(0.5 * 940e-6 * 4.2 ** 2 + 47e-6 * 0.9375 * ceramic, 9)
    expect(a.values['I_in']).toBe(one('I_in').value)
  })

  it('follows the start of PWM on the worst board', () => {
    const pwm = checkDecoupling(
      {
        ...flatKnife,
        capacitors: [exampleCapacitors.polymer],
        load: { resistance: 0.7, rise: '1 us', pwm: { frequency: '20 kHz', duty: 0.5 } },
      },
      flatConditions,
      quick,
    )
    const start = pwm.margins.find(({ id }) => id === 'pwm-start')!
    const rail = pwm.margins.find(({ id }) => id === 'rail-brown-out')!
    expect(start.worst).toBeLessThanOrEqual(rail.worst + 1e-9)
    expect(pwm.margins.some(({ id }) => id === 'ripple-1')).toBe(true)
    expect(typeof railOf).toBe('function')
  }, 300_000)
})

describe('bad input', () => {
  const fails = (choice: object, conditions: object = {}): InputError => {
    try {
      checkDecoupling(
        { ...flatKnife, ...choice } as DecouplingChoice,
        { ...flatConditions, ...conditions } as DecouplingConditions,
        quick,
      )
    } catch (error) {
      expect(error).toBeInstanceOf(InputError)
      return error as InputError
    }
    throw new Error('nothing was refused')
  }
  const [part] = flatKnife.capacitors

  it.each([
    [{ load: { current: 1, rise: -1e-6 } }, 'load.rise'],
    [{ load: { current: 1, rise: 2e-3, duration: 1e-3 } }, 'load.rise'],
    [{ load: { current: 1, duration: 0 } }, 'load.duration'],
    [{ load: { current: Number.NaN } }, 'load.current'],
    [{ load: { current: Number.POSITIVE_INFINITY } }, 'load.current'],
    [{ load: { current: 1, resistance: 1 } }, 'load'],
    [{ load: {} }, 'load'],
    [{ load: { power: 3, pwm: { frequency: 1000, duty: 0.5 } } }, 'load.pwm'],
    [{ load: { current: 3, pwm: { frequency: 1000, duty: 1 } } }, 'load.pwm.duty'],
    [{ load: { current: 3, wantedPower: 3 } }, 'load.wantedPower'],
    [{ limits: {} }, 'limits'],
    [{ limits: { brownOut: 4.2 } }, 'limits.brownOut'],
    [{ limits: { brownOut: '5 V' } }, 'limits.brownOut'],
    [{ capacitors: [] }, 'capacitors'],
    [
      {
        capacitors: [
          {
            ...part,
            bias: [
              { volts: 0, factor: 0.5 },
              { volts: 5, factor: 0.8 },
            ],
          },
        ],
      },
      'capacitors[0].bias[1].factor',
    ],
    [
      {
        capacitors: [
          {
            ...part,
            bias: [
              { volts: 0, factor: 1 },
              { volts: 2, factor: 0.8 },
            ],
          },
        ],
      },
      'capacitors[0].bias',
    ],
    [
      {
        capacitors: [
          {
            ...part,
            cold: [
              { celsius: 20, factor: 1 },
              { celsius: 30, factor: 1 },
            ],
          },
        ],
      },
      'capacitors[0].cold',
    ],
    [{ capacitors: [{ ...part, count: 1.5 }] }, 'capacitors[0].count'],
    [{ capacitors: [{ ...part, capacitance: '470 uF ±120 %' }] }, 'capacitors[0].capacitance'],
    [{ capacitors: [{ ...part, seriesResistance: '-1 mohm' }] }, 'capacitors[0].seriesResistance'],
    [{ source: { resistance: 0 }, insertion: {} }, 'source.resistance'],
    [{ source: flatCell(0), insertion: {} }, 'source.source.resistance'],
    [
      { source: { resistance: 0, inductance: 1e-7 }, insertion: {}, capacitors: [{ ...part, seriesResistance: 0 }] },
      'source.resistance',
    ],
    [
      {
        source: { resistance: 0.1, inductance: 1e-7 },
        capacitors: [{ ...part, seriesInductance: 1e-8 }],
        load: { current: 1 },
      },
      'load.rise',
    ],
    [{ source: { source: { kind: 'mains' } } }, 'source.source.kind'],
    [{ logicRail: { behind: 'diode', capacitance: 1e-3, current: 1e-3 } }, 'logicRail'],
    [{ onLogicRail: ['brown'] }, 'onLogicRail[0]'],
    [{ surprise: 1 }, 'choice'],
    [{ source: { resistance: 0.1 } }, 'insertion.shortVoltage'],
    [{ source: flatCell(0.1, [protection(0)]) }, 'source.path[0].resistance'],
    [{ source: flatCell(0.1), tap: 'board' }, 'tap'],
    [{ source: { resistance: 0.1 }, insertion: {}, tap: 'board' }, 'tap'],
  ])('%j is refused, naming %s', (choice, field) => {
    expect(fails(choice).field).toBe(field)
  })

  it('reads points as text, and names the field of a text that it refuses', () => {
    const as = (bias: unknown) =>
      checkDecoupling(
        { ...flatKnife, capacitors: { bulk: { ...part, bias } } } as DecouplingChoice,
        flatConditions,
        quick,
      )
    const points = [
      { volts: 0, factor: 1 },
      { volts: 2, factor: 0.8 },
      { volts: 5, factor: 0.4 },
    ]
    expect(as('0 V: 1, 2 V: 0.8; 5 V: 0.4').values).toEqual(as(points).values)
    expect(fails({ capacitors: { bulk: { ...part, bias: '0 V: 0.5, 5 V: 0.8' } } }).field).toBe('capacitors.bulk.bias')
    for (const bias of ['0 V', '0 V: 1: 3, 5 V: 0.4'])
      expect(fails({ capacitors: { bulk: { ...part, bias } } }).message).toContain('0 V: 1, 4.2 V: 0.45')
    expect(fails({ capacitors: { bulk: { ...part, cold: '20 degC: 1, 10 degC: 2' } } }).field).toBe(
      'capacitors.bulk.cold',
    )
  })

  it('says plainly that a source without resistance never sags', () => {
    expect(fails({ source: { resistance: 0 }, insertion: {} }).message).toContain('never sags')
    expect(fails({ limits: { brownOut: 4.5 } }).message).toContain('open-circuit')
    expect(fails({ load: { current: 1, rise: 2e-3, duration: 1e-3 } }).message).toContain('on-time')
  })

  it('refuses conditions upside down', () => {
    expect(fails({}, { openCircuit: { from: 4.2, to: 3 } }).field).toBe('openCircuit.from')
    expect(fails({}, { ambientCelsius: { from: -80, to: 20 } }).field).toBe('ambientCelsius.from')
    expect(fails({}, { ageYears: { from: -1, to: 2 } }).field).toBe('ageYears.from')
  })
})
