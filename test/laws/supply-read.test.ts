import { InputError, type Spread } from '@ohmward/quantity'
import {
  burstsOf,
  cellCondition,
  chargeAt,
  exampleCells,
  exampleRails,
  exampleSupplies,
  readCell,
  readLoad,
  readRail,
  readStandby,
  readSupply,
  shelfLife,
  sourceAt,
  sourceOver,
  usableBetween,
  voltageOver,
} from '@ohmward/supply'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

/** The field that an error names, or nothing where there is none. */
function fieldOf(act: () => unknown): string | undefined {
  try {
    act()
  } catch (thrown) {
    if (thrown instanceof InputError) return thrown.field
    throw thrown
  }
  return undefined
}

const knife = readSupply(exampleSupplies['hot knife, one cell'])
const cell = readCell(exampleCells['high-drain cylindrical cell'])

describe('what was read', () => {
  it('reads the same again: cells with their curves, supplies, rails, loads, standby', () => {
    // A curve that is known by its name comes back as points, without its source.
    for (const one of Object.values(exampleCells)) expect(readCell(one)).toMatchObject(readCell(readCell(one)))
    for (const one of Object.values(exampleSupplies)) expect(readSupply(one)).toMatchObject(readSupply(readSupply(one)))
    for (const through of Object.values(exampleRails)) {
      const once = readRail({ name: 'logic', source: 'main', through })
      expect(readRail(once)).toEqual(once)
    }
    const load = readLoad({ kind: 'pwm', resistance: '0.7 ohm ±5 %', duty: 0.5 })
    expect(readLoad(load)).toEqual(load)
    const standby = readStandby([{ name: 'sensor', current: '13 mA' }])
    expect(readStandby(standby)).toEqual(standby)
  })

  it('is the same as points, as text and as the curve itself', () => {
    const given = exampleCells['high-drain cylindrical cell']
    const points = [
      { charge: 0, voltage: 2.9 },
      { charge: 0.4, voltage: 3.5 },
      { charge: 1, voltage: 4.2 },
    ]
    const { openCircuit } = readCell({ ...given, openCircuit: points })
    expect(openCircuit).toEqual({ x: [0, 0.4, 1], y: [2.9, 3.5, 4.2] })
    expect(readCell({ ...given, openCircuit: '0: 2.9 V, 0.4: 3500 mV, 1: 4.2' }).openCircuit).toEqual(openCircuit)
    const wrong = [
      { charge: 0, voltage: 2.9, more: 1 },
      { charge: 1, voltage: 4.2 },
    ]
    expect(fieldOf(() => readCell({ ...given, openCircuit: wrong as never }))).toBe('cell.openCircuit[0]')
    for (const none of [null, 5, { x: [0, 1], y: [3] }, { x: 1, y: 2 }, '0: 3 V']) {
      expect(fieldOf(() => readCell({ ...given, openCircuit: none as never }))).toBe('cell.openCircuit')
    }
  })
})

describe('a range of states', () => {
  it('is from new to old where no age is given, and as wide as its widest state', () => {
    const over = { charge: { from: 0.2, to: 0.9 }, celsius: { from: 0, to: 40 } }
    expect(sourceOver(knife, over)).toEqual(sourceOver(knife, { ...over, age: { from: 0, to: 1 } }))
    const { openCircuit, resistance } = sourceOver(knife, over)
    const states = [0.2, 0.5, 0.9].flatMap((charge) =>
      [0, 25, 40].flatMap((celsius) => [0, 1].map((age) => sourceAt(knife, { charge, celsius, age }))),
    )
    const most = (key: 'openCircuit' | 'resistance', end: keyof Spread) =>
      states.map((state) => state[key][end] as number).sort((a, b) => a - b)
    expect(openCircuit.from).toBe(most('openCircuit', 'lower')[0])
    expect(openCircuit.to).toBe(most('openCircuit', 'upper').at(-1))
    expect(resistance.lower).toBe(most('resistance', 'lower')[0])
    expect(resistance.upper).toBe(most('resistance', 'upper').at(-1))
  })
})

describe('what is refused', () => {
  const burst = { load: { kind: 'resistance', R_L: 0.7 }, time: 1, from: 1, to: 0.2, celsius: 20 } as const
  const range = { charge: { from: 0.2, to: 0.9 }, celsius: { from: 0, to: 40 } }
  const wrong: readonly (readonly [field: string, act: () => unknown])[] = [
    ['charge.from', () => voltageOver(cell, { from: -0.1, to: 1 })],
    ['charge.to', () => voltageOver(cell, { from: 0.5, to: 0.4 })],
    ['charge.to', () => sourceOver(knife, { ...range, charge: { from: 0.5, to: 1.1 } })],
    ['charge', () => voltageOver(cell, null as never)],
    ['charge', () => sourceOver(knife, { celsius: range.celsius })],
    ['celsius', () => sourceOver(knife, { charge: range.charge } as never)],
    ['age', () => sourceOver(knife, { ...range, age: null } as never)],
    ['range', () => sourceOver(knife, null as never)],
    ['time', () => burstsOf(knife, { ...burst, time: 0 })],
    ['time', () => burstsOf(knife, { ...burst, time: -1 })],
    ['time', () => burstsOf(knife, { ...burst, time: 2e6 })],
    ['from', () => burstsOf(knife, { ...burst, from: 1.1 })],
    ['to', () => burstsOf(knife, { ...burst, from: 0.5, to: 0.6 })],
    ['load', () => burstsOf(knife, { ...burst, load: { kind: 'power', P_L: 0 } })],
    ['source.kind', () => burstsOf(readSupply(exampleSupplies['weak port on a cable']), burst)],
    ['from', () => usableBetween(cell, { from: 3, to: 3 })],
    ['to', () => usableBetween(cell, { to: '3' as never })],
    ['volts', () => usableBetween(cell, null as never)],
    ['at', () => shelfLife(cell, [], null as never)],
    ['charge', () => shelfLife(cell, [], { charge: 1.1 })],
    ['age', () => shelfLife(cell, [], { age: -0.1 })],
    ['volts', () => cellCondition(cell, -1)],
    ['volts', () => chargeAt(cell, 11)],
  ]
  it.each(wrong.map(([field, act], i) => [i, field, act] as const))('%s names %s', (_, field, act) => {
    expect(fieldOf(act)).toBe(field)
  })
})

describe('bursts', () => {
  it('are the integral of the charge over the current that each state draws, for a resistance and a power', () => {
    const draws = fc.oneof(
      fc.double({ min: 0.3, max: 5, noNaN: true }).map((R_L) => ({ kind: 'resistance', R_L }) as const),
      fc.double({ min: 1, max: 12, noNaN: true }).map((P_L) => ({ kind: 'power', P_L }) as const),
    )
    const share = fc.double({ min: 0.15, max: 0.5, noNaN: true })
    fc.assert(
      fc.property(draws, share, fc.double({ min: 0.5, max: 60, noNaN: true }), (load, to, time) => {
        const found = burstsOf(knife, { load, time, from: 0.95, to, celsius: 25 })
        if (found.kind === 'impossible') throw new Error(found.reason)
        const ampere = (q: number) => {
          const { openCircuit: V, resistance: R } = sourceAt(knife, { charge: q, celsius: 25, age: 0 })
          if (load.kind === 'resistance') return V.nominal / (R.nominal + load.R_L)
          return (V.nominal - Math.sqrt(V.nominal ** 2 - 4 * R.nominal * load.P_L)) / (2 * R.nominal)
        }
        const n = 2000
        let coulombs = 0
        for (let i = 0; i < n; i++) coulombs += 1 / (ampere(to + ((0.95 - to) * (i + 0.5)) / n) * time)
        const count = (coulombs * cell.capacity.nominal * (0.95 - to)) / n
        expect(found.count.nominal / count).toBeCloseTo(1, 4)
        expect(found.count.lower).toBeLessThan(found.count.nominal)
        expect(found.count.upper).toBeGreaterThan(found.count.nominal)
        const first = load.kind === 'power' ? load.P_L : ampere(0.95) ** 2 * load.R_L
        expect(found.energy.first.nominal / (first * time)).toBeCloseTo(1, 9)
      }),
      { numRuns: 30 },
    )
  })
})
