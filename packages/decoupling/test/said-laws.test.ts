import { holdRow } from '@ohmward/budget'
import { InputError, preferredAtLeast } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  checkDecoupling,
  type DecouplingChoice,
  decoupling,
  sizeDecoupling,
  sizeHoldUp,
  sweepDecoupling,
} from '../src/index.js'
import { circuit as anyCircuit, plugInBiased, respondTo, voltageAt } from '../src/waveform/index.js'
import {
  effort,
  type Load,
  type Pwm,
  pwmStart,
  respondToPwm,
  plugInBiased as unchecked,
} from '../src/waveform/inside.js'
import { base, bulk, check, named, pulsed } from './usual-rail.js'

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })

describe('a hold-up capacitor', () => {
  it('is the smallest preferred value that, after what it loses, holds the current for the time: I t = C ΔV', () => {
    const given = fc.record({
      rest: number(2, 5),
      forwardVoltage: number(0.1, 1),
      limit: number(0.5, 4),
      current: number(1e-3, 0.1),
      time: number(1e-4, 0.1),
    })
    fc.assert(
      fc.property(given, number(0.3, 1), (x, left) => {
        const head = x.rest - x.forwardVoltage - x.limit
        const found = sizeHoldUp(x, { left })
        if (head <= 0) expect(found).toBeNull()
        else {
          expect(found!.needed).toBeCloseTo((x.current * x.time) / head, 12)
          expect(found!.value).toBe(preferredAtLeast((x.current * x.time) / head / left, 'E6'))
          expect((found!.value * left * head) / x.current).toBeGreaterThanOrEqual(x.time * (1 - 1e-9))
        }
      }),
    )
  })

  it('is refused where nothing of it would be left, or more than all', () => {
    const x = { rest: 3, forwardVoltage: 0.3, limit: 2, current: 0.01, time: 0.01 }
    expect(() => sizeHoldUp(x, { left: 1.1 })).toThrow(/left = 1\.1: allowed is more than 0, at most 1/)
    expect(() => sizeHoldUp({ ...x, time: 0 })).toThrow(/time = 0: allowed is finite and more than 0/)
    expect(sizeHoldUp({ ...x, limit: 2.7 })).toBeNull()
  })
})

describe('a sweep', () => {
  const conditions = {
    openCircuit: { from: 3.4, to: 4.2 },
    ambientCelsius: { from: -10, to: 50 },
    ageYears: { from: 0, to: 5 },
  }
  // Cold raises the resistances, age takes capacitance away, and both are looked at inside their ranges too.
  const choice = {
    ...base,
    source: { resistance: '0.1 ohm ±20 %', inductance: '0.3 uH' },
    capacitors: [{ ...bulk, cold: '-20 degC: 3, 60 degC: 1', ageing: '2 %' }],
    load: { current: 2, duration: 2e-3 },
  } as DecouplingChoice

  it('at one value of a condition is a check whose condition is that value', () => {
    const worstOf = (margins: readonly { id: string; worst: number }[]) =>
      Object.fromEntries(margins.map(({ id, worst }) => [id, worst]))
    for (const [name, value] of [
      ['openCircuit', 3.7],
      ['ambientCelsius', -10],
      ['ambientCelsius', 20],
      ['ageYears', 5],
    ] as const) {
      const [point] = sweepDecoupling(choice, conditions, [{ [name]: value }])
      const there = check(choice, { ...conditions, [name]: { from: value, to: value } })
      const [one, other] = [worstOf(point!.margins), worstOf(there.margins)]
      expect(Object.keys(one).sort()).toEqual(Object.keys(other).sort())
      for (const [id, worst] of Object.entries(one)) expect(worst, `${name} ${id}`).toBeCloseTo(other[id]!, 9)
    }
  })

  it('at the places of a range is nowhere worse than the whole range', () => {
    const whole = check(choice, conditions)
    const points = [-10, 20, 50].map((ambientCelsius) => ({ ambientCelsius }))
    for (const { margins } of sweepDecoupling(choice, conditions, points, ['rail-brown-out']))
      for (const { id, slack } of margins) expect(slack).toBeGreaterThan(named(whole, id).slack - 1e-6)
  })

  it('tells what it has spent: nothing before a row is held, then more, and no more than a check may take', () => {
    const { rows, spent } = decoupling.setup(decoupling.read(choice, conditions))
    const before = spent!()
    expect(before).toBeGreaterThanOrEqual(0)
    expect(before).toBeLessThan(5e7)
    let last = before
    for (const row of rows.slice(0, 3)) {
      holdRow(row)
      expect(spent!()).toBeGreaterThanOrEqual(last)
      last = spent!()
    }
    expect(last).toBeGreaterThan(before)
    expect(last).toBeLessThan(5e7)
  })
})

describe('the start of PWM', () => {
  const source = { voltage: 3.7, resistance: 0.1, inductance: 0 }
  const part = { capacitance: 1e-3, resistance: 0.01, inductance: 0 }
  const blade: Load = { kind: 'resistor', resistance: 1 }
  const pwm: Pwm = { frequency: 1e5, duty: 0.5, rise: 0, fall: 0 }
  const started = (c: ReturnType<typeof anyCircuit>, left = Number.POSITIVE_INFINITY, pulses = pwm, load = blade) => {
    const steady = respondToPwm(c, load, pulses)!
    return effort.watch({ left }, () => pwmStart(c, load, steady))
  }

  it('is sure of its lowest point where the rail settles, and where it only creeps towards it', () => {
    const quick = started(anyCircuit(source, [{ ...part, capacitance: 20e-6 }], 0))
    expect(quick).toMatchObject({ result: { isSettled: true }, isOpen: false })
    // 0.1 s of time constant, of which 400 periods are a twenty-fifth: but nothing rings, so nothing lower comes.
    const slow = started(anyCircuit(source, [{ ...part, capacitance: 1 }], 0))
    expect(slow).toMatchObject({ result: { isSettled: false }, isOpen: false })
  })

  it('is open where a ring outlasts the periods that are looked at, or where few can be looked at', () => {
    const ringing = anyCircuit(
      { voltage: 3.7, resistance: 1e-4, inductance: 1e-6 },
      [{ capacitance: 1e-3, resistance: 1e-4, inductance: 0 }],
      0,
    )
    expect(started(ringing)).toMatchObject({ result: { isSettled: false }, isOpen: true })
    // With the load on nothing rings: 3.3 S beside 1 uF and 1 uH is more than 2 S. But in each period that lasts 3 ns, which takes off it
    // half a hundredth: after 400 a seventh is left.
    const [loop, small] = [
      { voltage: 3.7, resistance: 1e-4, inductance: 1e-6 },
      { ...part, capacitance: 1e-6, resistance: 1e-4 },
    ]
    expect(
      started(anyCircuit(loop, [small], 0), 1e7, { ...pwm, duty: 3e-4 }, { kind: 'resistor', resistance: 0.3 }),
    ).toMatchObject({
      result: { isSettled: false },
      isOpen: true,
    })
    // Of a check that has hardly a step left, twenty periods are followed: nothing is sure of the others.
    expect(started(anyCircuit(source, [{ ...part, capacitance: 1 }], 0), 100).isOpen).toBe(true)
  })
})

describe('a waveform that users ask for', () => {
  it('has no edge of no time where every way to the rail has inductance, and may have one where any has none', () => {
    const parts = (...inductances: readonly number[]) =>
      inductances.map((inductance, k) => ({ capacitance: 1e-4 * (k + 1), resistance: 0.01, inductance }))
    const asked =
      (loop: number, ...inductances: readonly number[]) =>
      () =>
        respondTo(
          anyCircuit({ voltage: 3.7, resistance: 0.1, inductance: loop }, parts(...inductances), 0),
          { kind: 'current', current: 1 },
          { rise: 0, duration: 1e-3, fall: 0 },
        )
    expect(asked(1e-6, 1e-9, 2e-9)).toThrow(InputError)
    for (const free of [asked(0, 1e-9, 2e-9), asked(1e-6, 1e-9, 0), asked(1e-6, 0, 1e-9)]) {
      const { lowest } = free()
      expect(lowest.value).toBeGreaterThan(0)
      expect(lowest.value).toBeLessThan(3.7)
    }
  })

  const source = { voltage: 3.7, resistance: 0.1, inductance: 0 }
  const part = { capacitance: 1e-3, resistance: 0.01, inductance: 0 }

  it.each(['rise', 'duration', 'fall'])('lasts a time that is one, or is refused by its name: %s', (name) => {
    const c = anyCircuit(source, [part], 0)
    const timing = { rise: 1e-5, duration: 1e-3, fall: 1e-5 }
    for (const wrong of [-1, Number.NaN, '1 ms', undefined])
      expect(() => respondTo(c, { kind: 'current', current: 1 }, { ...timing, [name]: wrong } as never)).toThrow(
        new RegExp(`^timing\\.${name} = `),
      )
  })

  it('falls as one time constant says', () => {
    const timing = { rise: 0, duration: Number.POSITIVE_INFINITY, fall: 0 }
    const step = respondTo(anyCircuit(source, [part], 0), { kind: 'current', current: 2 }, timing)
    for (const t of [1e-5, 1e-4, 1e-3]) {
      const tau = 0.11e-3
      expect(voltageAt(step, t)).toBeCloseTo(3.7 - 0.2 + (0.2 - (2 * 0.1 * 0.01) / 0.11) * Math.exp(-t / tau), 9)
    }
    expect(voltageAt(step, -1)).toBe(3.7)
  })

  it('takes a capacitance that falls with its voltage where the voltages rise, and refuses any other curve', () => {
    const biased = (at: number[], factor: number[]) => [{ ...part, bias: { at, factor } }]
    const given = biased([0, 2, 4], [1, 0.8, 0.5])
    expect(plugInBiased(source, given).peak).toBe(unchecked(source, given).peak)
    const allowed = /bias = .*: allowed is voltages that rise, factors more than 0/
    for (const [at, factor] of [
      [
        [0, 0],
        [1, 1],
      ],
      [
        [0, 2, 1],
        [1, 1, 1],
      ],
      [
        [0, 2],
        [1, 0],
      ],
    ] as const) {
      expect(() => plugInBiased(source, biased([...at], [...factor]))).toThrow(allowed)
    }
    expect(() => plugInBiased(source, biased([0, 1], [1]))).toThrow(/allowed is lists at and factor/)
  })
})

describe('a logic rail behind a resistor', () => {
  const logic = (more: object) =>
    ({ behind: 'resistor', resistance: '10 ohm', capacitance: '1 nF', current: 1e-9, ...more }) as const
  const load = pulsed(20e3, 0.5, { resistance: 2, rise: '1 us' }) as DecouplingChoice['load']
  const inductive = { resistance: 0.05, inductance: '0.5 uH' }
  const part = { ...bulk, capacitance: '100 uF' }
  const choice = { ...base, source: inductive, capacitors: [part], load, limits: { brownOut: 2, sensor: 2.2 } }

  it('that draws and holds next to nothing leaves the rail as it is, its first periods among them', () => {
    const [without, beside] = [check(choice), check({ ...choice, logicRail: logic({}), onLogicRail: ['brownOut'] })]
    expect(named(beside, 'pwm-start').worst / named(without, 'pwm-start').worst).toBeCloseTo(1, 3)
    expect(named(without, 'pwm-start').worst).toBeLessThan(3.7)
    expect(named(beside, 'pwm-start').slack).toBeCloseTo(named(without, 'pwm-start').slack, 3)
  })

  it('ends at the steady rail less the drop of its resistor, against its own limit', () => {
    const answer = check({
      ...base,
      load: { current: 4 },
      logicRail: logic({ current: '10 mA' }),
      limits: { brownOut: 3 },
    })
    // 3.7 V less 0.1 ohm of 4 A, less 10 ohm of 10 mA; what the logic draws of the cell is in idle.
    expect(named(answer, 'steady-sag-logic').worst).toBeCloseTo(3.7 - 0.4 - 0.1, 2)
    expect(answer.margins.filter(({ id }) => id === 'steady-sag')).toEqual([])
  })
})

describe('the capacitance that is enough', () => {
  it('is none where the series resistance alone drops the rail below its limit', () => {
    // 8 A drop 80 mV in 10 mohm at once, and 73 mV beside 0.1 ohm: with 3.64 V no capacitance is enough, with 3.6 V one is.
    const capacitance = (brownOut: number) =>
      check({ ...base, load: { current: 8, duration: '1 ms' }, limits: { brownOut } }).steady.capacitance
    expect(capacitance(3.64)).toBeNull()
    expect(capacitance(3.6)!).toBeGreaterThan(1e-3)
  })
})

describe('a sizing', () => {
  it('takes numbers of parts and of answers that are whole, from 1 on', () => {
    const conditions = {
      openCircuit: { from: 3.7, to: 3.7 },
      ambientCelsius: { from: 25, to: 25 },
      ageYears: { from: 0, to: 0 },
    }
    const { capacitors: _, ...rest } = base
    const ask = (more: object) => () => sizeDecoupling({ ...rest, conditions, stock: [bulk], ...more } as never)
    for (const count of [0, -1, 1.5, 21, Number.NaN, '3']) {
      expect(ask({ most: count }), `${count}`).toThrow(/^most = .*: allowed is a whole number from 1 to 20$/)
    }
    expect(ask({ mostParts: 0 })).toThrow(/^mostParts = 0: allowed is a whole number from 1 to 100$/)
    expect(ask({ stock: [] })).toThrow(/^stock/)
    expect(ask({ most: 1, mostParts: 1 })).not.toThrow()
  })
})

describe('a load under PWM', () => {
  it('has no length of its own', () => {
    const ask = () =>
      checkDecoupling(
        { ...base, load: pulsed(1e3, 0.5, { current: 1, duration: '1 s' }) as never },
        { openCircuit: { from: 3, to: 4 }, ambientCelsius: { from: 0, to: 50 }, ageYears: { from: 0, to: 0 } },
      )
    expect(ask).toThrow(InputError)
    expect(ask).toThrow(/^load\.duration = 1: allowed is nothing beside load\.pwm/)
  })
})
