import {
  type Balance,
  burstImpedance,
  checkMosfet,
  currentAt,
  exampleChoice,
  exampleConditions,
  exampleTransistors,
  impedanceAt,
  type LawText,
  lawOf,
  lossAt,
  type MosfetAssessment,
  type MosfetChoice,
  siliconEnd,
  solveJunction,
} from '@ohmward/mosfet'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

/** A law is refused whose first segment, carried on to -55 °C, leaves no resistance. */
function staysAboveZero(text: LawText): boolean {
  const [a, b] = text.kind === 'points' ? text.points : []
  return !a || !b || a.factor - ((b.factor - a.factor) / (b.celsius - a.celsius)) * (a.celsius + 55) > 1e-6
}

const laws: fc.Arbitrary<LawText> = fc.oneof(
  fc.record({ kind: fc.constant('linear' as const), perKelvin: fc.double({ min: 0, max: 0.01, noNaN: true }) }),
  fc.record({ kind: fc.constant('power' as const), exponent: fc.double({ min: 1, max: 4, noNaN: true }) }),
  fc
    .array(fc.tuple(fc.integer({ min: 5, max: 60 }), fc.double({ min: 0, max: 0.6, noNaN: true })), {
      minLength: 2,
      maxLength: 5,
    })
    .map((steps): LawText => {
      const running = (values: number[], from: number) =>
        values.map((_, i) => values.slice(0, i + 1).reduce((a, b) => a + b, from))
      const celsius = running(
        steps.map(([dT]) => dT),
        -50,
      )
      const factor = running(
        steps.map(([, rise]) => rise),
        0.8,
      )
      return { kind: 'points', points: steps.map((_, i) => ({ celsius: celsius[i]!, factor: factor[i]! })) }
    })
    .filter(staysAboveZero),
)

const log = (from: number, to: number) =>
  fc.double({ min: Math.log(from), max: Math.log(to), noNaN: true }).map((x) => Math.exp(x))

const balances: fc.Arbitrary<Balance> = fc.record({
  T_a: fc.double({ min: -40, max: 90, noNaN: true }),
  R_th: log(1, 500),
  P_0: fc.double({ min: 0, max: 0.5, noNaN: true }),
  D: fc.double({ min: 0, max: 1, noNaN: true }),
  R_on: log(1e-3, 0.2),
  V: log(1, 20),
  r: log(0.2, 20),
  k: fc.constantFrom(0 as const, 1 as const),
})

/** Runaway is hotter than any balance. */
const heat = (x: Balance, text: LawText): number => {
  const found = solveJunction(x, lawOf(text))
  return found.kind === 'balance' ? found.T_j : Number.POSITIVE_INFINITY
}

describe('the junction', () => {
  it('never falls when current, ambient, thermal resistance, on-resistance or constant loss rises', () => {
    fc.assert(
      fc.property(balances, laws, fc.double({ min: 1, max: 3, noNaN: true }), (x, law, more) => {
        const base = heat(x, law)
        // A transistor as large as its load heats less when it grows: the law is about switches.
        fc.pre(x.k === 0 || base < siliconEnd)
        const warmer: Partial<Balance>[] = [
          { V: x.V * more },
          { T_a: x.T_a + 10 * (more - 1) },
          { R_th: x.R_th * more },
          { P_0: x.P_0 * more },
        ]
        if (x.k === 0) warmer.push({ R_on: x.R_on * more }, { D: Math.min(1, x.D * more) })
        for (const change of warmer) expect(heat({ ...x, ...change }, law)).toBeGreaterThanOrEqual(base - 1e-7)
      }),
      { numRuns: 400 },
    )
  })

  it('balances heating and cooling, and nothing below it does', () => {
    fc.assert(
      fc.property(balances, laws, (x, text) => {
        const law = lawOf(text)
        const T_j = heat(x, text)
        fc.pre(Number.isFinite(T_j))
        const excess = (T: number) => x.T_a + x.R_th * lossAt(x, law, T) - T
        expect(Math.abs(excess(T_j))).toBeLessThanOrEqual(1e-9 * (Math.abs(T_j) + 1))
        for (let i = 0; i < 40; i++) expect(excess(x.T_a + ((T_j - x.T_a) * i) / 41)).toBeGreaterThanOrEqual(-1e-9)
      }),
      { numRuns: 300 },
    )
  })

  it('is cooler in each of two devices that share than in one that carries all, and at equal currents the same', () => {
    fc.assert(
      fc.property(balances, laws, (x, law) => {
        fc.pre(x.k === 0)
        expect(heat({ ...x, V: x.V / 2 }, law)).toBeLessThanOrEqual(heat(x, law) + 1e-9)
        // A resistive load seen by one of n devices is n times as large.
        const alone: Balance = { ...x, k: 1 }
        const tenth: Balance = {
          ...alone,
          r: 10 * alone.r,
          V: 10 * alone.V,
          R_on: 10 * alone.R_on,
          R_th: x.R_th / 10,
          P_0: 10 * x.P_0,
        }
        const [a, b] = [heat(alone, law), heat(tenth, law)]
        if (Number.isFinite(a) || Number.isFinite(b)) expect(Math.abs(a - b)).toBeLessThan(1e-6 * (Math.abs(a) + 1))
      }),
    )
  })

  it('lies where the curve of current against temperature says', () => {
    fc.assert(
      fc.property(balances, laws, fc.double({ min: 0.01, max: 0.2, noNaN: true }), (x, text, s) => {
        fc.pre(x.k === 0 && x.D > 1e-3)
        const law = lawOf(text)
        const T = x.T_a + 40
        const I = currentAt({ ...x, s }, law, T)
        fc.pre(I > 0)
        const at: Balance = { ...x, V: I, r: 1, P_0: x.P_0 + s * I }
        const T_j = heat(at, text)
        // The lowest balance of that current is this temperature, or one below it.
        expect(T_j).toBeLessThanOrEqual(T + 1e-6)
        expect(Math.abs(at.T_a + at.R_th * lossAt(at, law, T) - T)).toBeLessThan(1e-6)
      }),
    )
  })
})

describe('transient impedance', () => {
  const points = [
    { seconds: 1e-3, kelvinPerWatt: 0.5 },
    { seconds: 0.1, kelvinPerWatt: 6 },
    { seconds: 10, kelvinPerWatt: 30 },
    { seconds: 300, kelvinPerWatt: 45 },
  ]

  it('never falls with time, and a train lies between its mean power and the steady state', () => {
    fc.assert(
      fc.property(
        log(1e-5, 1e3),
        log(1, 100),
        log(1e-3, 5),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        fc.integer({ min: 1, max: 3000 }),
        (t, more, period, d, count) => {
          expect(impedanceAt(points, t * more)).toBeGreaterThanOrEqual(impedanceAt(points, t))
          const train = burstImpedance(points, { on: d * period, period, count })
          expect(train).toBeLessThanOrEqual(45 + 1e-9)
          expect(train).toBeGreaterThanOrEqual(impedanceAt(points, d * period) - 1e-12)
          const next = burstImpedance(points, { on: d * period, period, count: count + 1 })
          // Between sum and mean the model changes over: half a percent.
          expect(next).toBeGreaterThanOrEqual(train * 0.995)
        },
      ),
    )
  })
})

const base: MosfetChoice = exampleChoice
const check = (changes: Partial<MosfetChoice>): MosfetAssessment =>
  checkMosfet({ ...base, ...changes }, exampleConditions, { simulation: false })
const junctionOf = ({ worst }: MosfetAssessment) =>
  worst.junction.kind === 'balance' ? worst.junction.T_j : Number.POSITIVE_INFINITY
const slackOf = ({ margins }: MosfetAssessment, id: string) => margins.find((margin) => margin.id === id)!.slack

describe('the check of a switch', () => {
  it('widening a tolerance never improves a worst case', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 20 }), fc.integer({ min: 0, max: 20 }), (narrow, more) => {
        const drive = (percent: number) =>
          ({ ...base.drive, pull: { at: 'gate', resistance: `1 kohm ±${percent} %` } }) as MosfetChoice['drive']
        const at = (percent: number) => check({ load: { resistance: `0.7 ohm ±${percent} %` }, drive: drive(percent) })
        const [a, b] = [at(narrow), at(narrow + more)]
        for (const { id, slack, limit } of a.margins) {
          // Runaway is told at one board's own current; it is a distance, no worst case of its own.
          if (id !== 'runaway')
            expect(slackOf(b, id), id).toBeLessThanOrEqual(slack + 1e-9 * (Math.abs(limit) + Math.abs(slack)))
        }
      }),
      { numRuns: 12 },
    )
  })

  it('the worst junction rises with ambient, frequency of a slow drive and thermal resistance', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 90, noNaN: true }),
        fc.double({ min: 1.01, max: 1.5, noNaN: true }),
        (theta, more) => {
          const at = (junctionToAmbient: number, frequency = 100) =>
            junctionOf(check({ thermal: { junctionToAmbient }, pwm: { frequency, duty: { from: 0.1, to: 0.9 } } }))
          expect(at(theta * more)).toBeGreaterThanOrEqual(at(theta) - 1e-9)
          expect(at(theta, 100 * more)).toBeGreaterThanOrEqual(at(theta) - 1e-9)
        },
      ),
      { numRuns: 12 },
    )
  })

  it('more duty heats a fast switch, but may cool a slow one near 1: the counterexample', () => {
    const slow: Partial<MosfetChoice> = {
      drive: {
        kind: 'inverting transistor',
        baseResistor: 4700,
        highLevel: 2.3,
        pull: { at: 'gate', resistance: '10 kohm' },
      },
    }
    const at = (duty: number) =>
      junctionOf(check({ ...slow, pwm: { frequency: '500 Hz', duty: { from: duty, to: duty } } }))
    expect(at(0.5)).toBeLessThan(at(0.9))
    expect(at(1)).toBeLessThan(at(0.99))
  })

  it('no simulated board is hotter or less driven than the extremes, all inputs being bounded', () => {
    const { budgets } = checkMosfet(
      { ...base, transistor: exampleTransistors['P-channel, driven from 1.8 V'] },
      exampleConditions,
    )
    for (const { simulation, extremes } of Object.values(budgets)) {
      const room = 1e-9 * (Math.abs(extremes.lower) + Math.abs(extremes.upper))
      expect(simulation!.minimum).toBeGreaterThanOrEqual(extremes.lower - room)
      expect(simulation!.maximum).toBeLessThanOrEqual(extremes.upper + room)
      expect(simulation!.trials).toBeGreaterThan(1000)
    }
  })
})
