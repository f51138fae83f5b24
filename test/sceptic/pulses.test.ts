import { checkDecoupling, type DecouplingChoice } from '@ohmward/decoupling'
import { describe, expect, it } from 'vitest'
import { lowestFromRest, lowestRail, type Rail, ripples } from './decoupling/circuit.js'
import { type Box, type Limits, largest } from './tools/board.js'
import { count, seed } from './tools/designs.js'
import { Random } from './tools/random.js'
import { marginOf } from './tools/tally.js'

type Value = 'resistance' | 'inductance' | 'load' | 'capacitance' | 'series' | 'frequency' | 'duty'

const open = 3.3
const within = (nominal: number, percent: number): Limits => [
  nominal * (1 - percent / 100),
  nominal,
  nominal * (1 + percent / 100),
]
const ends = (from: number, to: number): Limits => [from, (from + to) / 2, to]

/** A loop that rings, and pulses whose frequencies and duties reach over its resonance. */
const drawn = (random: Random): Box<Value> => ({
  resistance: within(random.decades(0.02, 0.08), 10),
  inductance: within(random.decades(2e-7, 2e-6), 20),
  load: within(random.even(2, 4), 5),
  capacitance: within(random.decades(2e-5, 2e-4), 20),
  series: within(random.decades(0.003, 0.02), 20),
  frequency: ends(random.decades(1e3, 8e3), random.decades(4e4, 1e5)),
  duty: ends(0.1, 0.95),
})

const range = ([from, , to]: Limits) => ({ from, to })
const spread = ([lower, nominal, upper]: Limits) =>
  ({ nominal, lower, upper, distribution: { kind: 'rectangular' } }) as const

const choiceOf = (box: Box<Value>): DecouplingChoice => ({
  source: { resistance: spread(box.resistance), inductance: spread(box.inductance) },
  capacitors: [{ capacitance: spread(box.capacitance), seriesResistance: spread(box.series), ratedVoltage: 25 }],
  load: { current: spread(box.load), pwm: { frequency: range(box.frequency), duty: range(box.duty) } },
  limits: { brownOut: 0.5 },
})
const conditions = {
  openCircuit: { from: open, to: open },
  ambientCelsius: { from: 25, to: 25 },
  ageYears: { from: 0, to: 0 },
}

/** One board, as the check takes it and as the model does. */
function fixedOf(box: Box<Value>, isResistor: boolean): { readonly choice: DecouplingChoice; readonly rail: Rail } {
  const [resistance, inductance, load] = [box.resistance[1], box.inductance[1], box.load[1]]
  const [capacitance, series, frequency, duty] = [box.capacitance[1], box.series[1], box.frequency[1], box.duty[1]]
  const drawn = isResistor ? { resistance: open / load } : { current: load }
  return {
    choice: {
      source: { resistance, inductance },
      capacitors: [{ capacitance, seriesResistance: `${series} ohm ±0.000001 %`, ratedVoltage: 25 }],
      load: { ...drawn, pwm: { frequency, duty } },
      limits: { brownOut: 0.5 },
    },
    rail: {
      ...{ source: open, resistance, inductance, idle: 0, load: isResistor ? open / load : load, isResistor },
      branches: [{ capacitance, resistance: series }],
    },
  }
}

/** Lowest rail by the model's own search: corners and random places, then closer and closer about the best. */
function truth(box: Box<Value>, random: Random): number {
  const lowest = (b: Record<Value, number>) => {
    const { resistance, inductance, load, capacitance, series, frequency, duty } = b
    const r: Rail = {
      ...{ source: open, resistance, inductance, idle: 0, load, isResistor: false },
      branches: [{ capacitance, resistance: series }],
    }
    const pulses = { kinds: [], oldest: 0, load: 'current', rise: 0, duration: Infinity, limit: 0, surge: 0 } as const
    return lowestRail(r, { ...pulses, pwm: { frequency, duty } })
  }
  const rough = largest(box, (b) => -lowest(b), random, { starts: 6, inside: 12 })
  let { value, board } = rough
  for (let reach = 0.2; reach > 1e-4; reach *= 0.75) {
    for (let k = 0; k < 12; k++) {
      const moved = { ...board }
      for (const name of Object.keys(box) as Value[]) {
        const [lower, , upper] = box[name]
        if (random.now(0.4)) continue
        const step = reach * (upper - lower) * (2 * random.next() - 1)
        moved[name] = Math.min(upper, Math.max(lower, board[name] + step))
      }
      const there = -lowest(moved)
      if (there > value) [value, board] = [there, moved]
    }
  }
  return -value
}

describe('ranges of frequency and duty', () => {
  it.each(Array.from({ length: Math.ceil(count / 5) }, (_, i) => i))(
    'is as low as the model finds it, design %d',
    (i) => {
      const random = new Random(seed + 190 + i)
      const box = drawn(random)
      const answer = checkDecoupling(choiceOf(box), conditions, { simulation: false })
      const { worst } = marginOf(answer, 'rail-brown-out')!
      const model = truth(box, random)
      expect(worst).toBeLessThan(model + 1e-3)
      expect(Math.max(0, worst)).toBeGreaterThan(model - 0.05)
    },
  )

  it('sees a resonance between the ends of its range, and a duty that is worse than the largest', () => {
    const box: Box<Value> = {
      ...{ resistance: within(0.045, 0), inductance: within(6e-7, 0), load: within(8.4, 0) },
      ...{ capacitance: within(42.3e-6, 0), series: within(6.4e-3, 0) },
      ...{ frequency: ends(22e3, 60e3), duty: ends(0.3, 0.95) },
    }
    const lowestWith = (frequency: Limits, duty: Limits) =>
      marginOf(checkDecoupling(choiceOf({ ...box, frequency, duty }), conditions), 'rail-brown-out')!.worst
    const at = (x: number) => ends(x, x)
    const corners = [22e3, 60e3].flatMap((f) => [0.3, 0.95].map((d) => lowestWith(at(f), at(d))))
    const whole = lowestWith(box.frequency, box.duty)
    expect(whole).toBeLessThan(Math.min(...corners) - 0.3)
    // The loop rings at 1 / (2π √(LC)).
    const own = 1 / (2 * Math.PI * Math.sqrt(6e-7 * 42.3e-6))
    expect(lowestWith(at(own), at(0.5))).toBeLessThan(whole + 0.02)
    expect(whole).toBeLessThan(lowestWith(at(own), at(0.5)) + 1e-9)
  })
})

describe('the first periods from rest', () => {
  it.each(Array.from({ length: Math.ceil(count / 3) }, (_, i) => i))('are as low as the model goes, design %d', (i) => {
    const random = new Random(seed + 590 + i)
    const drawn: Box<Value> = {
      resistance: within(random.decades(0.02, 0.08), 0),
      inductance: within(random.decades(2e-7, 2e-6), 0),
      load: within(random.even(2, 4), 0),
      capacitance: within(random.decades(2e-5, 2e-3), 0),
      series: within(random.decades(0.002, 0.02), 0),
      frequency: ends(random.decades(1e3, 1e5), 0),
      duty: ends(random.one([0.1, 0.5, 0.9]), 0),
    }
    const [f, D] = [drawn.frequency[0], drawn.duty[0]]
    const isResistor = random.now(0.3)
    const { choice, rail } = fixedOf({ ...drawn, frequency: ends(f, f), duty: ends(D, D) }, isResistor)
    const { worst, verdict } = marginOf(checkDecoupling(choice, conditions, { simulation: false }), 'pwm-start')!
    const model = lowestFromRest(rail, { frequency: f, duty: D }, 400)
    expect(verdict).not.toBe('not sure')
    expect(worst).toBeLessThan(model + 1e-6)
    expect(worst).toBeGreaterThan(model - 2e-3)
  })
})

describe('a ring that is slower than the pulses that are followed', () => {
  it.each([{ current: 2 }, { resistance: 1.6 }])('holds nothing that it has not seen, %j', (load) => {
    // 100 uH and 10 mF ring at 160 Hz: a half of that are 3100 periods.
    const frequency = 1e6
    const choice = (brownOut: number): DecouplingChoice => ({
      source: { resistance: 0.03, inductance: 1e-4 },
      capacitors: [{ capacitance: 0.01, seriesResistance: '2 mohm ±0.0001 %', ratedVoltage: 25 }],
      load: { ...load, pwm: { frequency, duty: 0.5 } },
      limits: { brownOut },
    })
    const isResistor = 'resistance' in load
    const rail: Rail = {
      ...{ source: open, resistance: 0.03, inductance: 1e-4, idle: 0, isResistor },
      ...{ load: (isResistor ? load.resistance : load.current)!, branches: [{ capacitance: 0.01, resistance: 2e-3 }] },
    }
    const model = lowestFromRest(rail, { frequency, duty: 0.5 }, 3500)
    const rowAt = (brownOut: number) =>
      marginOf(checkDecoupling(choice(brownOut), conditions, { simulation: false }), 'pwm-start')!
    expect(model).toBeLessThan(open - 0.1)
    expect(rowAt(model + 2e-3).verdict).not.toBe('holds')
  })
})

describe('the ripple current of a range of duties', () => {
  const one = { source: open, inductance: 0, idle: 0, branches: [{ capacitance: 676e-6, resistance: 4.29e-3 }] }
  it.each([
    ['a resistor', { ...one, resistance: 0.0763, load: 0.667, isResistor: true }],
    ['a current', { ...one, resistance: 0.0763, load: 5, isResistor: false }],
  ] as const)('is the largest that any of them has, and sure where the limit is far, %s', (_, rail) => {
    const { resistance, load, isResistor, branches } = rail
    const { worst, verdict } = marginOf(
      checkDecoupling(
        {
          source: { resistance, inductance: 0 },
          capacitors: [
            { capacitance: 676e-6, seriesResistance: '4.29 mohm ±0.00001 %', ratedVoltage: 25, rippleCurrent: 20 },
          ],
          load: {
            ...(isResistor ? { resistance: load } : { current: load }),
            pwm: { frequency: 6900, duty: { from: 0.05, to: 0.95 } },
          },
          limits: { brownOut: 0.5 },
        },
        conditions,
        { simulation: false },
      ),
      'ripple-1',
    )!
    const largestOf = Array.from({ length: 901 }, (_, k) =>
      Math.max(...ripples({ ...rail, branches }, { frequency: 6900, duty: 0.05 + k / 1000 })),
    )
    expect(worst / Math.max(...largestOf)).toBeGreaterThan(1 - 1e-6)
    expect(worst / Math.max(...largestOf)).toBeLessThan(1 + 1e-4)
    expect(verdict).toBe('holds')
  })
})
