import { describe, expect, it } from 'vitest'
import { checkHall, type HallChoice } from '../src/index.js'
import { cell, checked, knife, marginNamed } from './design.js'

const ids = (more: Partial<HallChoice>) => checked(more).margins.map(({ id }) => id)
const pwm = (from: number, to: number) => ({ frequency: '1 kHz', duty: { from, to } })

describe('the ripple of a mean', () => {
  /** Crest and trough of a rectangular wave of 0 and 1 behind one pole in steady state: charged for D T, discharged for the rest. */
  const furthest = (D: number, tau: number) => {
    const T = 1e-3
    const [up, down] = [Math.exp((-D * T) / tau), Math.exp((-(1 - D) * T) / tau)]
    const crest = (1 - up) / (1 - up * down)
    return Math.max(crest - D, D - crest * down)
  }
  const sensor = { ...knife.sensor, outputResistance: 0 }

  it.each([
    [0.1, 0.9, 10e-3],
    [0.1, 0.3, 10e-3],
    [0.6, 0.9, 10e-3],
    [0.1, 0.9, 0.5e-3],
    [0.1, 0.9, 0.1e-3],
    [0.5, 0.9, 0.1e-3],
    [0.1, 0.15, 0.1e-3],
  ])('is taken at the duty of the range where it is largest: %d to %d, %d s', (from, to, tau) => {
    const filter = { resistance: 1e4, capacitance: tau / 1e4 }
    const { worst } = marginNamed(checked({ sensor, reading: 'averaged', filter, pwm: pwm(from, to) }), 'ripple')
    let most = 0
    for (let n = 0; n <= 4000; n++) most = Math.max(most, furthest(from + ((to - from) * n) / 4000, tau))
    expect(worst / 6).toBeGreaterThan(most - 1e-9)
    expect(worst / 6).toBeLessThan(most + 1e-6)
  })

  it('may be as large as the least error wanted', () => {
    expect(marginNamed(checked({ reading: 'averaged' }), 'ripple').limit).toBe(0.25)
  })

  it('is none without PWM', () => {
    const { pwm: _, ...steady } = knife
    const { margins } = checkHall({ ...steady, reading: 'averaged' }, cell, { simulation: false })
    expect(margins.map(({ id }) => id)).not.toContain('ripple')
  })
})

describe('power from a squared mean', () => {
  it('may be off by twice the least of the relative errors', () => {
    const errors = [
      { at: 0, allowed: '0.1 A' },
      { at: '2 A', allowed: '0.2 A' },
      { at: '6 A', allowed: '0.3 A' },
    ]
    const choice = { reading: 'averaged', power: 'squared reading', errors } as const
    const { limit, worst } = marginNamed(checked(choice), 'power')
    expect(limit).toBeCloseTo(1 - 2 * 0.05, 12)
    // (D I)² over D I²: the duty.
    expect(worst).toBeCloseTo(0.1, 12)
  })
})

describe('what the converter has time for', () => {
  it('asks for a window only where it samples in one', () => {
    const averaged = ids({ reading: 'averaged' })
    expect(averaged).not.toContain('on-window')
    expect(averaged).not.toContain('off-window')
    expect(ids({})).toContain('on-window')
    expect(ids({ pwm: pwm(1, 1) })).not.toContain('on-window')
  })

  it('counts an edge that is longer than the wait as the whole wait', () => {
    const { on } = schedulesOf('2 us', '5 us')
    expect(on).toBeCloseTo(2e-6 + 3e-6, 12)
    expect(schedulesOf('20 us', '5 us').on).toBeCloseTo(20e-6 + 3e-6, 12)
  })

  const schedulesOf = (wait: string, edge: string) => ({
    on: marginNamed(checked({ wait, timing: { edge, samples: 1 } }), 'on-window').worst,
  })
})

describe('the settling error after sampling', () => {
  const missing = (capacitance: string, more: object = {}) =>
    marginNamed(checked({ filter: { resistance: '4.7 kohm', capacitance }, ...more }), 'sampling').worst

  it('are the most of both ends of the filter capacitor', () => {
    for (const nominal of [0.1, 1, 10, 100, 1000]) {
      const [low, high] = [missing(`${0.8 * nominal} nF`), missing(`${1.2 * nominal} nF`)]
      expect(missing(`${nominal} nF ±20 %`)).toBeCloseTo(Math.max(low, high), 12)
    }
  })

  it('are more where samples follow one another than where a period lies between them', () => {
    const timing = (samplesPerWindow: number) => ({ timing: { edge: '1 us', samples: 4, samplesPerWindow } })
    expect(missing('10 nF', timing(4))).toBeGreaterThan(missing('10 nF', timing(1)) * 1.5)
    // No more than the charge of four sampling capacitors of 8 pF, and an eighth for what the last window left.
    expect(missing('100 nF', timing(4))).toBeLessThan(((4096 * 4 * 8e-12) / 100e-9) * 1.15)
  })
})

describe('a trip', () => {
  const trip = { current: '8 A', normal: '6.5 A', withstand: '10 A' }

  it('has a budget of the parts alone, at the conditions at which it acts last', () => {
    const answer = checked({ trip })
    const budget = answer.budgets['I_trip']!
    const inputs = budget.linear.contributions.map(({ input }) => input)
    expect(inputs.length).toBeGreaterThan(3)
    for (const condition of ['V_rail', 'T_d', 'V_s', 'e_q']) expect(inputs).not.toContain(condition)
    // At one temperature and rail 95 % of the boards lie inside the interval over all of them.
    const [lower, upper] = budget.linear.interval
    expect(lower).toBeGreaterThan(answer.trip!.interval[0])
    expect(upper).toBeLessThan(answer.trip!.interval[1])
  })

  it('keeps what is left of rounding where the mean of several quiet samples is compared', () => {
    const quiet = {
      sensor: { ...knife.sensor, noiseDensity: 0 },
      timing: { edge: '1 us', samples: 16 },
      trip,
    }
    const inputs = checked(quiet).budgets['I_trip']!.linear.contributions.map(({ input }) => input)
    expect(inputs).toContain('e_q')
  })
})
