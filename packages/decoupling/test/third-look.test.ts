import { describe, expect, it } from 'vitest'
import {
  type Capacitor,
  checkDecoupling,
  type DecouplingChoice,
  type DecouplingConditions,
  exampleCapacitors,
  exampleCell,
  exampleChoice,
  exampleConditions,
} from '../src/index.js'

const flat = [
  { celsius: -40, factor: 1 },
  { celsius: 85, factor: 1 },
]
const cell = { cellResistance: 0.1, ageFactor: 1, temperature: flat }
const bulk = { name: 'bulk', capacitance: 1e-3, ratedVoltage: 10, seriesResistance: 0.01 }
const base = {
  source: cell,
  capacitors: [bulk],
  load: { current: 8 },
  limits: { brownOut: 3 },
} satisfies DecouplingChoice
const one: DecouplingConditions = {
  openCircuit: { from: 3.7, to: 3.7 },
  ambientCelsius: { from: 25, to: 25 },
  ageYears: { from: 0, to: 0 },
}
const check = (choice: DecouplingChoice, conditions = one) => checkDecoupling(choice, conditions, { simulation: false })
type Answer = ReturnType<typeof check>
const named = ({ margins }: Answer, id: string) => {
  const found = margins.find((margin) => margin.id === id)
  expect(found, `${id} among ${margins.map((margin) => margin.id).join(', ')}`).toBeDefined()
  return found!
}
const pulsed = (frequency: number, duty: number, more: object) => ({ pwm: { frequency, duty }, ...more })

describe('the peak of plugging in beside a second kind of capacitor', () => {
  /** Highest rail of a source with inductance on two empty capacitors: fourth-order Runge-Kutta, 5 ns a step. */
  function peakOf(volts: number, R: number, L: number, parts: readonly (readonly [C: number, ESR: number])[]): number {
    const [[C_1, r_1], [C_2, r_2]] = parts as [[number, number], [number, number]]
    const rail = ([i = 0, a = 0, b = 0]: number[]) => (i + a / r_1 + b / r_2) / (1 / r_1 + 1 / r_2)
    const rate = (y: number[]) => {
      const v = rail(y)
      return [(volts - R * y[0]! - v) / L, (v - y[1]!) / (r_1 * C_1), (v - y[2]!) / (r_2 * C_2)]
    }
    const h = 5e-9
    let y = [0, 0, 0]
    let peak = 0
    for (let t = 0; t < 200e-6; t += h) {
      const moved = (k: number[], share: number) => y.map((x, j) => x + share * h * k[j]!)
      const k_1 = rate(y)
      const k_2 = rate(moved(k_1, 0.5))
      const k_3 = rate(moved(k_2, 0.5))
      const k_4 = rate(moved(k_3, 1))
      y = y.map((x, j) => x + (h / 6) * (k_1[j]! + 2 * k_2[j]! + 2 * k_3[j]! + k_4[j]!))
      peak = Math.max(peak, rail(y))
    }
    return peak
  }
  const ceramic: Capacitor = {
    name: 'ceramic',
    capacitance: '10 uF ±20 %',
    seriesResistance: '3 mohm ±0.1 mohm',
    ratedVoltage: 10,
  }
  const lossy = (seriesResistance: Capacitor['seriesResistance']): Capacitor => ({
    name: 'lossy',
    capacitance: '1000 uF ±20 %',
    seriesResistance,
    ratedVoltage: 10,
  })
  it('is sought at large series resistances too, which damp no more', () => {
    const between = { nominal: 0.2, lower: 0.02, upper: 0.6, distribution: { kind: 'rectangular' } } as const
    const choice = {
      ...base,
      source: { ...cell, cellResistance: '60 mohm ±10 mohm', inductance: '0.3 uH ±30 %' },
      capacitors: [ceramic, lossy(between)],
      insertion: { railMaximum: '4.5 V' },
    }
    const { worst, at, verdict } = named(check(choice), 'rail-maximum')
    expect(verdict).toBe('fails')
    expect(at['ESR_r2']).toBe(0.6)
    const byHand = peakOf(3.7, 0.05, 0.39e-6, [
      [8e-6, 2.9e-3],
      [800e-6, 0.6],
    ])
    expect(worst).toBeGreaterThan(byHand - 1e-3)
    const parts = [
      [at['C_r1']!, at['ESR_r1'] ?? 3e-3],
      [at['C_r2'] ?? 1e-3, at['ESR_r2']!],
    ] as const
    expect(worst).toBeCloseTo(peakOf(3.7, at['R_cell']!, at['L']!, parts), 3)
  })

  it('counts a series resistance without a range as large or small, whichever is worse', () => {
    const choice = (seriesResistance: Capacitor['seriesResistance']) => ({
      ...base,
      source: { ...cell, inductance: '1 uH', cellResistance: 0.03 },
      capacitors: [
        {
          ...ceramic,
          capacitance: '10 uF',
          seriesResistance: {
            nominal: 3e-3,
            lower: 2.99e-3,
            upper: 3e-3 + 1e-5,
            distribution: { kind: 'rectangular' },
          } as const,
        },
        lossy(seriesResistance),
      ],
      insertion: { railMaximum: 20 },
    })
    const peaks = ['0.6 ohm', '0.06 ohm'].map((ESR) => named(check(choice(ESR)), 'rail-maximum').worst)
    const byHand = (C: number, ESR: number) =>
      peakOf(3.7, 0.03, 1e-6, [
        [10e-6, 2.99e-3],
        [C, ESR],
      ])
    // At 0.6 ohm all of it is worse than 30 % of it; at 60 mohm 30 % damps less.
    expect(peaks[0]).toBeCloseTo(Math.max(byHand(800e-6, 0.6), byHand(800e-6, 0.18)), 2)
    expect(peaks[1]).toBeCloseTo(Math.max(byHand(800e-6, 0.06), byHand(800e-6, 0.018)), 2)
  })
})

describe('a burst of constant power', () => {
  /** Rail after a burst of constant power: fourth-order Runge-Kutta of the capacitor's voltage. */
  function railAfter(volts: number, R: number, C: number, ESR: number, power: number, time: number): number {
    const rail = (u: number) => {
      // v = u + ESR·((V - v)/R - P/v), a quadratic in v.
      const a = 1 + ESR / R
      const b = u + (ESR * volts) / R
      return (b + Math.sqrt(b * b - 4 * a * ESR * power)) / (2 * a)
    }
    const rate = (u: number) => (rail(u) - u) / (ESR * C)
    const steps = 20_000
    const h = time / steps
    let u = volts
    for (let n = 0; n < steps; n++) {
      const k_1 = rate(u)
      const k_2 = rate(u + (h / 2) * k_1)
      const k_3 = rate(u + (h / 2) * k_2)
      const k_4 = rate(u + h * k_3)
      u += (h / 6) * (k_1 + 2 * k_2 + 2 * k_3 + k_4)
    }
    return rail(u)
  }
  const burst = (capacitance: string | number, more: Partial<DecouplingChoice> = {}) =>
    check({
      ...base,
      capacitors: [{ ...bulk, capacitance }],
      load: { power: 40, duration: '100 us' },
      ...more,
    })

  it('does not collapse by what rounding leaves of its last step', () => {
    for (let C = 3.8e-3; C < 5.6e-3; C += 0.9e-4) {
      const { lower } = burst(C).budgets.V_min.extremes
      expect(Math.abs(lower - railAfter(3.7, 0.1, C, 0.01, 40, 100e-6)), `${C} F`).toBeLessThan(2e-5)
    }
  })

  it('may take more than could stay, and the protection sees what the source gives', () => {
    // 40 W stay nowhere: V²/4R is 34.2 W. For 100 µs the capacitor carries them.
    const answer = burst(4.7e-3, {
      source: { ...cell, cellResistance: 0.08, protection: 0.02 },
      insertion: { tripVoltage: '0.15 V' },
    })
    expect(answer.verdict).toBe('holds')
    expect(answer.margins.some(({ id }) => id === 'power-exists')).toBe(false)
    const lowest = railAfter(3.7, 0.1, 4.7e-3, 0.01, 40, 100e-6)
    expect(named(answer, 'protection-trip').worst).toBeCloseTo((3.7 - lowest) / 0.1, 3)
    expect(check({ ...base, load: { power: 40 } }).margins.some(({ id }) => id === 'power-exists')).toBe(true)
  })
})

describe('under PWM', () => {
  const ceramic = { ...exampleCapacitors.ceramic, count: 1 }
  const blade = { resistance: '0.7 ohm ±5 %', rise: '1 us' }

  it('finds the capacitance that is enough', () => {
    const choice = (capacitance: string): DecouplingChoice => ({
      ...exampleChoice,
      source: { ...exampleCell, inductance: 0 },
      capacitors: [{ name: 'film', capacitance, seriesResistance: '3 mohm', ratedVoltage: 10 }],
      load: pulsed(20e3, 0.5, blade) as DecouplingChoice['load'],
      limits: { brownOut: '2.45 V ±2 %' },
      insertion: {},
    })
    const { steady, remedies } = check(choice('1 uF'), exampleConditions)
    expect(steady.capacitance! * 1e6).toBeGreaterThan(160)
    expect(steady.capacitance! * 1e6).toBeLessThan(170)
    expect(remedies.find(({ id }) => id === 'more-capacitance')!.value).toBeCloseTo(steady.capacitance!, 7)
    const slack = (capacitance: string) => named(check(choice(capacitance), exampleConditions), 'rail-brown-out').slack
    expect(slack('160 uF')).toBeLessThan(0)
    expect(slack('170 uF')).toBeGreaterThan(0)
  })

  it.each([20e3, 50e3, 100e3])('says the same in the summary as the margin does, at %d Hz', (frequency) => {
    const answer = check(
      {
        ...exampleChoice,
        capacitors: [ceramic],
        load: pulsed(frequency, 0.5, blade) as DecouplingChoice['load'],
        limits: { brownOut: 2.129 },
        insertion: {},
      },
      exampleConditions,
    )
    const { worst } = named(answer, 'rail-brown-out')
    expect(answer.budgets.V_min.extremes.lower).toBeCloseTo(worst, 6)
    expect(named(answer, 'pwm-start').worst).toBeLessThanOrEqual(worst + 1e-9)
  })

  it('sizes the hold-up capacitor on the board whose logic rail is lowest', () => {
    const plain = {
      ...exampleChoice,
      capacitors: [ceramic],
      load: pulsed(50e3, 0.5, blade) as DecouplingChoice['load'],
      limits: { brownOut: 2.129 },
      insertion: {},
    }
    const { value } = check(plain, exampleConditions).remedies.find(({ id }) => id === 'diode')!
    const withHeld = (capacitance: number) => {
      const logicRail = {
        behind: 'diode',
        capacitance,
        current: '5 mA',
        forwardVoltage: '0.35 V',
      } as const
      const answer = check(
        { ...plain, logicRail: logicRail as NonNullable<DecouplingChoice['logicRail']> },
        exampleConditions,
      )
      return named(answer, 'logic-brown-out').slack
    }
    expect(withHeld(value! * 1.05)).toBeGreaterThan(0)
    expect(withHeld(value! * 0.9)).toBeLessThan(0)
  })
})

it('says what capacitance it takes only where the rail fails', () => {
  const { summary, verdict } = check({
    ...base,
    source: { ...cell, cellResistance: 0.1 },
    capacitors: [{ ...bulk, capacitance: 4.7e-3, ratedVoltage: 3.5 }],
    load: { current: 10, duration: '100 us' },
  })
  expect(verdict).toBe('fails')
  expect(summary).not.toMatch(/It takes/)
})
