import { exact, plusMinus } from '@ohmward/quantity'
import { heldThrough, pathAt, railAt, readRail, readSupply } from '@ohmward/supply'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { boards, ends, possible, some, spans, spread } from './boards.js'

/*
 * What feeds a rail against a model of its own: every board that the tolerances allow at their ends, by Ohm's law, a search
 * or a sum. Where each input goes one way, the limits that are said are those of the worst boards, neither less nor more.
 */

const railOf = (through: object) => readRail({ name: 'logic', source: 'main', through })

describe('a rail behind another, board by board', () => {
  it('is the other itself, or what a resistor leaves of it, never below 0', () => {
    fc.assert(
      fc.property(spread(2, 5), spread(1e-4, 0.2), spread(1, 40), (raw, I, R) => {
        const at = { current: I, celsius: 25 }
        spans(possible(railAt(railOf({ kind: 'direct' }), raw, at)).voltage, ends(raw), raw.nominal)
        const found = possible(railAt(railOf({ kind: 'resistor', resistance: R, capacitance: 1e-6 }), raw, at))
        const left = (V: number, A: number, ohms: number) => Math.max(0, V - A * ohms)
        spans(
          found.voltage,
          boards(raw, I, R).map(([V, A, ohms]) => left(V!, A!, ohms!)),
          left(raw.nominal, I.nominal, R.nominal),
        )
        expect(found.inputCurrent).toEqual(I)
      }),
    )
  })

  /** Shockley's law from one stated point, k/q = 86.17333 µV/K, and a drift from 25 °C. */
  const forward = (V: number, n: number, I: number, drift: number, celsius: number) =>
    Math.max(0, V + n * 8.617333262e-5 * (celsius + 273.15) * Math.log(I / 5e-3) - drift * (celsius - 25))

  it('is what a diode leaves, and its capacitor holds it through a sag until the sagged rail feeds it again', () => {
    fc.assert(
      fc.property(
        spread(3, 4.5),
        spread(0.2, 0.5),
        spread(1e-4, 0.05),
        fc.tuple(some(1e-3, 1e-2), some(1e-6, 1e-3)),
        some(-20, 60),
        (raw, V_f, I, [time, farads], celsius) => {
          const [n, drift] = [plusMinus(1.2, 0.1), plusMinus(1.5e-3, 5e-4)]
          const leak = plusMinus(1e-4, 5e-5)
          const given = { kind: 'diode', forwardVoltage: V_f, forwardAt: 5e-3, emission: n, drift }
          const rail = railOf({ ...given, reverseLeakage: leak, capacitance: farads })
          const left = (V: number, v: number, m: number, A: number, k: number) =>
            Math.max(0, V - forward(v, m, A, k, celsius))
          const parts = [raw, V_f, n, I, drift] as const
          const all = boards(...parts).map((b) => left(b[0]!, b[1]!, b[2]!, b[3]!, b[4]!))
          const [V, v, m, A, k] = parts.map(({ nominal }) => nominal) as [number, number, number, number, number]
          const rest = left(V, v, m, A, k)
          spans(possible(railAt(rail, raw, { current: I, celsius })).voltage, all, rest)

          const sag = plusMinus(raw.nominal * 0.7, 0.05)
          const held = possible(heldThrough(rail, { rest: raw, sag, time: exact(time), current: I, celsius })).voltage
          const fed = boards(sag, V_f, n, I, drift).map((b) => left(b[0]!, b[1]!, b[2]!, b[3]!, b[4]!))
          const sagged = (volts: number, amperes: number) => volts - (amperes * time) / farads
          const lowest = Math.max(0, sagged(Math.min(...all), I.upper + leak.upper), Math.min(...fed))
          const highest = Math.max(0, sagged(Math.max(...all), I.lower + leak.lower), Math.max(...fed))
          expect(held.lower).toBeCloseTo(lowest, 9)
          expect(held.upper).toBeCloseTo(highest, 9)
          expect(held.nominal).toBeCloseTo(
            Math.max(0, sagged(rest, A + leak.nominal), left(sag.nominal, v, m, A, k)),
            9,
          )
        },
      ),
    )
  })

  it('is what a regulator holds, or its dropout leaves; its loss is that of what comes in and goes not out', () => {
    const points: readonly (readonly [number, number])[] = [
      [0, 0.02],
      [0.01, 0.05],
      [0.1, 0.3],
    ]
    const dropped = (I: number) => {
      const i = I <= 0.01 ? 1 : 2
      const [[a, u], [b, v]] = [points[i - 1]!, points[i]!]
      return u + ((v - u) * (I - a)) / (b - a)
    }
    fc.assert(
      fc.property(spread(2, 5), spread(2.5, 3.3), spread(1e-4, 0.07), spread(1e-6, 1e-3), (raw, set, I, I_q) => {
        const dropout = points.map(([current, voltage]) => ({ current, voltage }))
        const given = { kind: 'regulator', voltage: set, dropout, currentLimit: 0.1, quiescentCurrent: I_q }
        const rail = railOf({ ...given, lowestInput: 2.2, thermalResistance: 150 })
        const { voltage, inputCurrent, regulator } = possible(railAt(rail, raw, { current: I, celsius: 25 }))
        const out = (volts: number, held: number, drop: number) => Math.max(0, Math.min(held, volts - drop))
        const lower = raw.lower < 2.2 ? 0 : out(raw.lower, set.lower, dropped(I.upper))
        expect(voltage.lower).toBeCloseTo(lower, 9)
        expect(voltage.upper).toBeCloseTo(out(raw.upper, set.upper, 0), 9)
        const middle = raw.nominal < 2.2 ? lower : out(raw.nominal, set.nominal, dropped(I.nominal))
        expect(voltage.nominal).toBeCloseTo(middle, 9)
        expect(inputCurrent.upper).toBeCloseTo(I.upper + I_q.upper, 12)
        const needed = Math.max(2.2, set.upper + dropped(I.upper))
        expect(regulator!.inputNeeded).toBeCloseTo(needed, 9)
        const state = raw.lower >= needed ? 'regulates' : raw.upper < set.lower ? 'drops out' : 'may drop out'
        expect(regulator!.state).toBe(raw.lower < 2.2 ? 'below its lowest input' : state)
        const lost = (volts: number, v: number, A: number, q: number) => (volts - Math.min(v, volts)) * A + volts * q
        expect(regulator!.loss.upper).toBeCloseTo(lost(raw.upper, voltage.lower, I.upper, I_q.upper), 9)
        expect(regulator!.loss.lower).toBeCloseTo(lost(raw.lower, voltage.upper, I.lower, I_q.lower), 9)
        expect(regulator!.rise.upper).toBeCloseTo(150 * regulator!.loss.upper, 6)
      }),
    )
  })
})

describe('an element of the path, board by board', () => {
  it('settles where its loss and its resistance agree, keeps what its limits leave, and trips at its voltage', () => {
    fc.assert(
      fc.property(spread(2e-3, 0.05), spread(0.2, 12), some(1, 60), some(-10, 45), some(0, 0.3), (R, I, K, T, V) => {
        const drop = plusMinus(V, V / 10)
        const trip = plusMinus(0.15, 0.02)
        const element = { name: 'one', resistance: R, drop, thermalResistance: K, tripVoltage: trip }
        const given = { ...element, currentLimit: 10, highestCelsius: 110 }
        const source = { kind: 'port', voltage: 12, currentLimit: 20, leadResistance: 0 }
        const { path } = readSupply({ source, path: [given] })
        const [found] = pathAt(path!, I, T)
        /** Warmer and warmer, until nothing moves. */
        const settled = (ohms: number, amperes: number, volts: number) => {
          let celsius = T
          for (let i = 0; i < 5000 && celsius < 1e6; i++) {
            celsius = T + K * (amperes ** 2 * ohms * (1 + 0.00393 * (celsius - 20)) + amperes * volts)
          }
          return celsius
        }
        const all = boards(R, I, drop).map(([ohms, amperes, volts]) => settled(ohms!, amperes!, volts!))
        const gain = K * I.upper ** 2 * R.upper * 0.00393
        fc.pre(Math.abs(gain - 1) > 0.01 && gain < 1.2)
        if (gain > 1) return expect(found!.celsius).toBe('runs away')
        if (typeof found!.celsius !== 'object' || found!.celsius === null) throw new Error('it has a temperature')
        // Loss and gain are taken each at its worst.
        expect(found!.celsius.upper).toBeGreaterThanOrEqual(Math.max(...all) - 1e-6)
        expect(found!.celsius.lower).toBeLessThanOrEqual(Math.min(...all) + 1e-6)
        expect(found!.celsius.nominal).toBeCloseTo(settled(R.nominal, I.nominal, drop.nominal), 4)
        expect(found!.celsius.upper).toBeCloseTo(settled(R.upper, I.upper, drop.upper), 4)
        expect(found!.currentSlack).toBeCloseTo(10 - I.upper, 9)
        const hot = (R.upper * (1 + 0.00393 * 90) * I.upper + drop.upper) * I.upper
        expect(found!.temperatureSlack).toBeCloseTo(110 - T - K * hot, 6)
        const warm = (celsius: number) => 1 + 0.00393 * (celsius - 20)
        expect(found!.trip!.lower).toBeCloseTo(trip.lower / (R.upper * warm(found!.celsius.upper)), 6)
        expect(found!.drop.upper).toBeCloseTo(I.upper * R.upper * warm(found!.celsius.upper) + drop.upper, 9)
      }),
    )
  })
})
