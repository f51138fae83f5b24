import { between, exact, InputError, plusMinus, type Spread } from '@ohmward/quantity'
import {
  type Diode,
  exampleRails,
  forwardOf,
  heldThrough,
  holdUpFor,
  orderRails,
  pinAt,
  type Rail,
  railAt,
  readRail,
} from '@ohmward/supply'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const rail = (through: Rail['through']) => readRail({ name: 'logic', source: 'main', through })
const regulator = {
  kind: 'regulator',
  voltage: '3.0 V ±2 %',
  dropout: '0 A: 0 V, 10 mA: 0.05 V, 100 mA: 0.3 V',
  currentLimit: 0.15,
  quiescentCurrent: 5e-6,
} as const
const diode = {
  kind: 'diode',
  forwardVoltage: 0.3,
  forwardAt: 5e-3,
  emission: 1,
  drift: 0,
  reverseLeakage: 0,
  capacitance: 1e-3,
} as const
const use = (amperes: number, celsius = 25) => ({ current: exact(amperes), celsius })

describe('a linear regulator', () => {
  const at = (raw: Spread, amperes: number, more: object = {}) =>
    railAt(rail({ ...regulator, ...more }), raw, use(amperes))

  it('holds its voltage with its tolerance above the dropout of its largest', () => {
    const found = at(plusMinus(3.7, 0.5), 0.01)
    expect(found).toMatchObject({ kind: 'possible', voltage: { lower: 2.94, nominal: 3, upper: 3.06 } })
    expect(found.kind === 'possible' && found.regulator?.state).toBe('regulates')
    expect(found.kind === 'possible' && found.inputCurrent.nominal).toBeCloseTo(0.010005, 12)
  })

  it('follows its input in dropout: the lowest with the largest dropout, the highest with none', () => {
    const found = at(exact(2.9), 0.055)
    // halfway between 0.05 V and 0.3 V
    expect(found).toMatchObject({ voltage: { lower: expect.closeTo(2.9 - 0.175, 12), upper: 2.9 } })
    expect(found.kind === 'possible' && found.regulator?.state).toBe('drops out')
    expect(at(exact(2.8), 0.1)).toMatchObject({ regulator: { state: 'drops out' } })
    expect(at(between(2.5, 3.6), 0.1)).toMatchObject({ regulator: { state: 'may drop out' } })
    expect(at(exact(2.9), 0.1, { dropout: undefined, dropoutResistance: 2 })).toMatchObject({
      voltage: { lower: expect.closeTo(2.7, 12) },
    })
  })

  it('gives nothing that is sure below its lowest input', () => {
    expect(at(exact(2), 0.01, { lowestInput: 2.2 })).toMatchObject({
      voltage: { lower: 0 },
      regulator: { state: 'below its lowest input' },
    })
  })

  it('refuses more current than it gives, and guesses no dropout beyond the points', () => {
    expect(at(exact(3.7), 0.2)).toMatchObject({ kind: 'impossible', reason: expect.stringContaining('150 mA') })
    expect(at(exact(3.7), 0.12)).toMatchObject({ kind: 'impossible', reason: 'no dropout is stated at 120 mA' })
  })

  it('gets warm by what it takes away', () => {
    const found = at(exact(4.2), 0.1, { voltage: 3, thermalResistance: 200 })
    const loss = 1.2 * 0.1 + 4.2 * 5e-6
    expect(found.kind === 'possible' && found.regulator?.loss.nominal).toBeCloseTo(loss, 12)
    expect(found.kind === 'possible' && found.regulator?.rise.nominal).toBeCloseTo(200 * loss, 9)
  })

  it('droops at a step until it answers, and its output capacitor holds nothing while the input sags', () => {
    const given = { ...regulator, responseTime: 20e-6, outputCapacitance: 1e-6, outputSeriesResistance: 0.1 }
    const sag = { rest: exact(3.7), sag: exact(3.6), time: exact(1e-3), current: exact(0.01), celsius: 25 }
    const found = heldThrough(rail(given), { ...sag, step: exact(0.02) })
    expect(found).toMatchObject({ voltage: { lower: expect.closeTo(2.94 - 0.02 * (20 + 0.1), 9) } })
    expect(heldThrough(rail(given), { ...sag, sag: exact(2.5) })).toMatchObject({
      voltage: { lower: expect.closeTo(2.45, 9) },
    })
  })
})

describe('a diode', () => {
  const read = (more: object = {}) => rail({ ...diode, ...more }).through as Diode

  it('drops 60 mV more for ten times the current at 25 °C, an emission coefficient of 1', () => {
    const more = forwardOf(read(), exact(50e-3), 25).nominal - forwardOf(read(), exact(5e-3), 25).nominal
    expect(more).toBeCloseTo(0.0592, 4)
  })

  it('goes through both points where a second is stated', () => {
    const two = read({ secondVoltage: 0.5, secondAt: 0.5 })
    expect(forwardOf(two, exact(5e-3), 25).nominal).toBeCloseTo(0.3, 12)
    expect(forwardOf(two, exact(0.5), 25).nominal).toBeCloseTo(0.5, 12)
  })

  it('drops more when cold, and never less than nothing', () => {
    expect(forwardOf(read({ drift: 2e-3 }), exact(5e-3), -20).nominal).toBeCloseTo(0.3 + 0.09, 12)
    expect(forwardOf(read(), exact(0), 25).lower).toBe(0)
  })

  it('J05: its capacitor holds a logic rail, which the whole burst empties', () => {
    const five = (time: number) => ({
      rest: exact(3.4),
      time: exact(time),
      current: exact(5e-3),
      celsius: 25,
    })
    // 5 mA, 10 ms, 0.1 V above a brown-out of 3.0 V: 500 µF
    expect(holdUpFor(read(), five(10e-3), 3.0)).toBeCloseTo(500e-6, 9)
    expect(holdUpFor(read(), five(2), 3.0)).toBeCloseTo(0.1, 9)
    expect(holdUpFor(read(), five(10e-3), 3.2)).toBeNull()
    const held = (time: number, capacitance: number) =>
      heldThrough(rail({ ...diode, capacitance }), { ...five(time), sag: exact(0.5) })
    expect(held(10e-3, 500e-6)).toMatchObject({ voltage: { lower: expect.closeTo(3.0, 9) } })
    expect(held(2, 500e-6)).toMatchObject({ voltage: { lower: expect.closeTo(0.2, 9) } })
    expect(heldThrough(rail(diode), { ...five(2), sag: exact(3.3) })).toMatchObject({
      voltage: { lower: expect.closeTo(3.0, 9) },
    })
  })

  it('J06: turns the ratio of the two rails about, and drives a pin beyond its own', () => {
    const held = heldThrough(rail(diode), {
      rest: exact(3.7),
      sag: exact(2.9),
      time: exact(1e-3),
      current: exact(5e-3),
      celsius: 25,
    })
    const rest = railAt(rail(diode), exact(3.7), use(5e-3))
    if (held.kind === 'impossible' || rest.kind === 'impossible') throw new Error('a diode always conducts')
    expect(rest.voltage.nominal).toBeLessThan(3.7)
    expect(held.voltage.nominal).toBeGreaterThan(2.9)
    expect(pinAt(exact(3.7), plusMinus(3.3, 0.05), exact(1e4))).toMatchObject({
      overdrive: { nominal: expect.closeTo(0.1, 9), upper: expect.closeTo(0.15, 9) },
      current: { upper: expect.closeTo(15e-6, 12) },
    })
    expect(pinAt(exact(3.3), exact(3.3), exact(1e4)).current.upper).toBe(0)
  })
})

describe('a resistor', () => {
  const given = { kind: 'resistor', resistance: 10, capacitance: 100e-6 } as const

  it('J07: filters 1 ms, and takes 50 mV at 5 mA and 3 V at 300 mA', () => {
    expect(railAt(rail(given), exact(3.7), use(5e-3))).toMatchObject({ voltage: { nominal: expect.closeTo(3.65, 9) } })
    expect(railAt(rail(given), exact(3.7), use(0.3))).toMatchObject({ voltage: { nominal: expect.closeTo(0.7, 9) } })
    const sag = { rest: exact(3.7), sag: exact(2.7), time: exact(1e-3), current: exact(5e-3), celsius: 25 }
    const after = 2.7 + Math.exp(-1) - 0.05
    expect(heldThrough(rail(given), sag)).toMatchObject({ voltage: { nominal: expect.closeTo(after, 9) } })
    expect(heldThrough(rail(given), { ...sag, peak: exact(0.3) })).toMatchObject({
      voltage: { nominal: expect.closeTo(after - 2.95, 9) },
    })
  })

  it('J07: has back of sag after sag only what the time between leaves it, as followed one by one', () => {
    const sag = { rest: exact(3.7), sag: exact(2.7), time: exact(1e-3), current: exact(5e-3), celsius: 25 }
    for (const pause of [0, 2e-4, 1e-3, 0.1]) {
      let now = 3.7
      let low = now
      for (let n = 0; n < 60; n++) {
        low = 2.7 + (now - 2.7) * Math.exp(-1)
        now = 3.7 + (low - 3.7) * Math.exp(-pause / 1e-3)
      }
      const found = heldThrough(rail(given), { ...sag, pause: exact(pause) })
      expect(found).toMatchObject({ voltage: { nominal: expect.closeTo(low - 0.05, 9) } })
    }
    expect(() => heldThrough(rail(given), { ...sag, time: exact(0), pause: exact(0) })).toThrow(/sag\.pause/)
    expect(() => heldThrough(rail(given), { ...sag, pause: exact(-1) })).toThrow(/sag\.pause/)
  })

  it('never ends lower than it is said, wherever the resistor lies in its tolerance', () => {
    const within = (a: number, b: number) => fc.double({ min: a, max: b, noNaN: true })
    fc.assert(
      fc.property(
        within(1, 50),
        within(0, 0.9),
        within(0, 1),
        within(1e-5, 0.05),
        within(1e-5, 0.01),
        (R, w, at, I, t) => {
          const through = { kind: 'resistor', resistance: plusMinus(R, R * w), capacitance: 100e-6 } as const
          const sag = { rest: exact(3.7), sag: exact(2.7), time: exact(t), current: exact(I), celsius: 25 }
          const found = heldThrough(rail(through), sag)
          const R_one = R * (1 - w) + at * 2 * R * w
          const one = 2.7 - I * R_one + Math.exp(-t / (R_one * 100e-6))
          if (found.kind === 'impossible') throw new Error('a resistor always conducts')
          expect(Math.max(0, one)).toBeGreaterThanOrEqual(found.voltage.lower - 1e-12)
          expect(Math.max(0, one)).toBeLessThanOrEqual(found.voltage.upper + 1e-12)
        },
      ),
    )
  })
})

describe('rails behind one another', () => {
  const hang = (name: string, source: string) => ({ name, source })

  it('are computed each after the one that it hangs on', () => {
    const given = [hang('sensor', 'logic'), hang('logic', 'held'), hang('held', 'main')]
    expect(orderRails(given).map(({ name }) => name)).toEqual(['held', 'logic', 'sensor'])
  })

  it('are refused where one hangs on itself, on nothing, or two have one name', () => {
    expect(() => orderRails([hang('logic', 'sensor'), hang('sensor', 'logic')])).toThrow(
      /rails\[0\]\.source = "sensor".*feeds itself: logic from sensor/,
    )
    expect(() => orderRails([hang('logic', 'logic')])).toThrow(/feeds itself/)
    expect(() => orderRails([hang('logic', 'mian')])).toThrow(/Did you mean main\?/)
    expect(() => orderRails([hang('logic', 'main'), hang('logic', 'main')])).toThrow(/rails\[1\]\.name/)
    expect(() => orderRails([hang('main', 'main')])).toThrow(/rails\[0\]\.name/)
  })

  it.each(Object.keys(exampleRails))('of the examples read: %s', (name) => {
    const found = railAt(rail(exampleRails[name as keyof typeof exampleRails]), exact(3.7), use(5e-3))
    expect(found.kind).toBe('possible')
  })

  it.each([
    ['two dropouts', { ...regulator, dropoutResistance: 2 }, /rail\.through\.dropout/],
    ['no dropout', { ...regulator, dropout: undefined }, /rail\.through\.dropout/],
    [
      'a dropout that falls',
      { ...regulator, dropout: '0 A: 0.2 V, 0.1 A: 0.1 V' },
      /through\.dropout\.voltage.*at least 0\.2 V/,
    ],
    ['half a second point', { ...diode, secondVoltage: 0.4 }, /through\.secondAt/],
    ['a second point that falls', { ...diode, secondVoltage: 0.2, secondAt: 0.1 }, /through\.secondVoltage/],
    ['no capacitor', { ...diode, capacitance: 0 }, /through\.capacitance/],
  ] as const)('are refused with %s', (_, through, message) => {
    const read = () => rail(through)
    expect(read).toThrow(InputError)
    expect(read).toThrow(message)
  })
})
