import { between, exact, type Spread } from '@ohmward/quantity'
import type { ReadElement } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'
import { at, uniformOf } from '../src/boards/draw.js'
import { Conductors } from '../src/boards/path.js'
import { type Boards, type Doubtful, failing } from '../src/boards/row.js'

describe('numbers drawn for a part', () => {
  it('fill the range evenly, and so does each with the next (chi-squared with 63 degrees, 99.9 %: 103.4)', () => {
    for (const seed of [0, 1, 12345, -7]) {
      const next = uniformOf(seed)
      const drawn = Array.from({ length: 64_001 }, next)
      const boxes = new Uint32Array(64)
      drawn.slice(1).forEach((x, i) => {
        boxes[8 * Math.floor(8 * x) + Math.floor(8 * drawn[i]!)]!++
      })
      expect(boxes.reduce((sum, n) => sum + (n - 1000) ** 2 / 1000, 0)).toBeLessThan(103.4)
    }
  })

  it('are never 0 nor 1, where a normal part would lie without end', () => {
    // This seed brings the generator to its state of all zeros first, which it makes its least number of.
    const first = uniformOf(-0x6d2b79f5)()
    expect(first).toBeGreaterThan(0)
    expect(first).toBeLessThan(2 ** -32)
    const of = { nominal: 5, lower: 4, upper: 6, distribution: { kind: 'normal', coverage: 2 } } as const
    expect(at(of, first)).toBeGreaterThan(5 - 4)
  })
})

describe('a value of a lot by its share of the distribution', () => {
  const of = (distribution: Spread['distribution']) => ({ nominal: 5.5, lower: 4, upper: 8, distribution })
  const kinds = [
    { kind: 'rectangular' },
    { kind: 'triangular' },
    { kind: 'arcsine' },
    { kind: 'normal', coverage: 2 },
  ] as const

  it('lies in the middle of its limits at one half, and rises (symmetry of all four)', () => {
    for (const kind of kinds) {
      const shares = [0.01, 0.2, 0.4, 0.5, 0.6, 0.8, 0.99]
      const values = shares.map((share) => at(of(kind), share))
      expect(values[3], kind.kind).toBeCloseTo(6, 12)
      expect([...values].sort((a, b) => a - b)).toEqual(values)
      values.forEach((x, i) => {
        expect(x - 6, kind.kind).toBeCloseTo(6 - values.at(-1 - i)!, 9)
      })
    }
  })

  it('is that of the inverse of each distribution function (JCGM 101, 6.4; by hand)', () => {
    expect(at(of({ kind: 'rectangular' }), 0.25)).toBe(5)
    // F(x) = ((x - 4) / 2)² / 2 up to the middle: an eighth at 5.
    expect(at(of({ kind: 'triangular' }), 0.125)).toBeCloseTo(5, 12)
    expect(at(of({ kind: 'triangular' }), 0.875)).toBeCloseTo(7, 12)
    // F(x) = 1/2 + asin((x - 6) / 2) / pi: a sixth at 6 - 2 · sin 60°.
    expect(at(of({ kind: 'arcsine' }), 1 / 6)).toBeCloseTo(6 - Math.sqrt(3), 12)
    // Limits are two standard deviations: one lies at 84.134 %.
    expect(at(of({ kind: 'normal', coverage: 2 }), 0.841344746)).toBeCloseTo(7, 8)
    for (const share of [0.1, 0.9]) expect(at(exact(5), share)).toBe(5)
  })
})

const element = (name: string, more: object): ReadElement =>
  ({ name, resistance: exact(0.02), temperatureCoefficient: 'copper', drop: exact(0), ...more }) as ReadElement

describe('a path on every board', () => {
  const nominal = (_: string, { nominal }: Spread) => Float64Array.of(nominal, nominal)
  const fuse = element('fuse', { thermalResistance: 50, drop: exact(0.05) })
  const wire = element('wire', { resistance: exact(0.03), temperatureCoefficient: 'none' })
  const path = new Conductors([fuse, wire], 40, nominal, 2)

  it('is as warm as its own heat makes it, and only where that has a way out (balance by hand)', () => {
    const copper = (celsius: number) => 0.02 * (1 + 0.00393 * (celsius - 20))
    expect(path.cold[0]).toBeCloseTo(copper(40) + 0.03, 12)
    expect(path.drop[1]).toBe(0.05)
    let celsius = 40
    for (let turn = 0; turn < 60; turn++) celsius = 40 + 50 * (4 * 0.05 + 16 * copper(celsius))
    expect(path.celsiusOf('fuse', Float64Array.of(4, 0))![0]).toBeCloseTo(celsius, 6)
    expect(path.celsiusOf('fuse', Float64Array.of(4, 0))![1]).toBe(40)
    expect(path.celsiusOf('wire', Float64Array.of(4, 0))).toBeUndefined()
    const warm = path.warm(Float64Array.of(4, 0))
    expect(warm[0]).toBeCloseTo(copper(celsius) + 0.03, 8)
    expect(warm[1]).toBeCloseTo(path.cold[1]!, 12)
  })

  it('goes with the air by copper, by a coefficient of its own, or not at all (straight line through 20 degC)', () => {
    const at = (temperatureCoefficient: unknown) =>
      new Conductors([element('one', { temperatureCoefficient })], 70, nominal, 2).cold[1]
    expect(at('copper')).toBeCloseTo(0.02 * (1 + 0.00393 * 50), 12)
    expect(at(between(0.001, 0.003))).toBeCloseTo(0.02 * (1 + 0.002 * 50), 12)
    expect(at('none')).toBeCloseTo(0.02, 12)
  })

  it('that no current warms stays as it is', () => {
    const still = new Conductors([wire], 40, nominal, 2)
    expect([path.isWarmed, still.isWarmed]).toEqual([true, false])
    expect([...still.warm(Float64Array.of(9, 9))]).toEqual([...still.cold])
  })

  it('that runs away has no temperature, and its resistance at the highest that is followed', () => {
    // The gain is 50 · 100 · 0.02 · 0.00393 = 0.39 at 10 A, and above one at 20 A.
    const away = new Conductors([{ ...fuse, highestCelsius: 120 }], 40, nominal, 2)
    expect(away.celsiusOf('fuse', Float64Array.of(10, 20))![0]).toBeGreaterThan(120)
    expect(away.celsiusOf('fuse', Float64Array.of(10, 20))![1]).toBe(Number.POSITIVE_INFINITY)
    expect(away.warm(Float64Array.of(0, 20))[1]).toBeCloseTo(0.02 * (1 + 0.00393 * 100), 12)
  })
})

describe('boards on which a row fails', () => {
  const column = (...values: number[]) => Float64Array.from(values)
  const design = {
    controller: { brownOut: between(2.4, 2.6) },
    parts: { sensor: { supplyMinimum: between(2.9, 3) } },
    supply: { path: [element('fuse', { thermalResistance: 50 })] },
  } as never
  const boards = {
    count: 3,
    shares: () => column(0.1, 0.5, 0.9),
    at: {
      rest: column(3.1, 3.2, 3.3),
      rail: column(2.5, 2.51, 2.5),
      current: column(4, 5, 6),
      celsiusOf: (name: string) => (name === 'fuse' ? column(80, 90, 100) : undefined),
    },
  } as unknown as Boards
  const marks = (block: string, row: object, margin: object) => {
    const solved = { rest: between(3.1, 3.3), rail: between(2.5, 2.52), current: between(4, 6) }
    const one = { stage: { block, state: 'load on' }, row: { kind: 'plain', ...row }, margin, solved }
    return [...failing(design, one as unknown as Doubtful, boards)]
  }
  const volts = { id: 'x', unit: 'V', sense: 'at least' }

  it('are those whose own rail is below their own threshold', () => {
    // Thresholds of the three: 2.42 V, 2.5 V, 2.58 V.
    expect(marks('decoupling', { ...volts, kind: 'own' }, { worst: 2.5, limit: 2.6 })).toEqual([0, 0, 1])
    // 40 mV more is lost to the inductance than on the steady rail.
    expect(marks('decoupling', { ...volts, kind: 'own' }, { worst: 2.46, limit: 2.6 })).toEqual([0, 1, 1])
    // At rest, against a limit that no part has.
    expect(marks('rails', volts, { worst: 3.1, limit: 3.2 })).toEqual([1, 0, 0])
  })

  it('are those whose own current is too much, in proportion', () => {
    const amperes = { id: 'fuse', unit: 'A', sense: 'at most' }
    expect(marks('supply', amperes, { worst: 6, limit: 5 })).toEqual([0, 0, 1])
    expect(marks('supply', amperes, { worst: 3, limit: 2.4 })).toEqual([0, 1, 1])
  })

  it('are those whose own element is too hot', () => {
    const hot = { id: 'temperature-of-fuse', unit: 'degC', sense: 'at most' }
    expect(marks('supply', hot, { worst: 100, limit: 85 })).toEqual([0, 1, 1])
  })

  it('are the share that the row itself states, and all where nominal parts fail', () => {
    const own = { id: 'junction', kind: 'own', unit: 'degC', sense: 'at most' }
    const margin = { worst: 160, limit: 150, verdict: 'fails', nominalSlack: 20 }
    expect(marks('mosfet', own, { ...margin, probability: 0.6 })).toEqual([0, 0, 1])
    expect(marks('mosfet', own, { ...margin, probability: 0.6, nominalSlack: -1 })).toEqual([1, 1, 1])
    expect(marks('mosfet', own, margin)).toEqual([1, 1, 1])
    expect(marks('mosfet', own, { ...margin, verdict: 'not sure', nominalSlack: -1, probability: 0.6 })).toEqual([
      0, 0, 1,
    ])
  })
})
