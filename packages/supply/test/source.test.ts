import { exact, InputError, plusMinus } from '@ohmward/quantity'
import {
  cellChain,
  cellInputs,
  cornerOf,
  currentLimits,
  dutyFor,
  exampleSupplies,
  feed,
  followCell,
  followPort,
  pathAt,
  portChain,
  portInputs,
  powerLimit,
  readLoad,
  readSupply,
  type Supply,
  solveLoad,
  sourceAt,
  sourceOver,
  stretchOf,
} from '@ohmward/supply'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { plainSource } from '../src/source/at.js'

const cell = {
  kind: 'cell',
  openCircuit: '0: 3 V, 1: 4.2 V',
  openCircuitSpread: 0.02,
  capacity: 7200,
  resistance: '20 mohm ±25 %',
  chargeFactor: '0: 1, 1: 1',
  continuousCurrent: 20,
} as const
const supply = (path: Supply['path']) => readSupply({ source: cell, path })
const warm = { charge: 0.5, celsius: 20 }

describe('the source that a load sees', () => {
  it('is the cells less the diodes of the path, behind all resistances', () => {
    const found = sourceAt(
      supply([
        { name: 'contacts', resistance: '5 mohm ±2 mohm' },
        { name: 'polarity diode', drop: '0.4 V ±0.05 V' },
        { name: 'wiring', resistance: '10 mohm ±1 mohm' },
      ]),
      { charge: 0.5, celsius: 25, pathCelsius: 20 },
    )
    expect(found.openCircuit.nominal).toBeCloseTo(3.6 - 0.4, 12)
    expect(found.openCircuit.lower).toBeCloseTo(3.58 - 0.45, 12)
    expect(found.resistance.nominal).toBeCloseTo(0.035, 12)
    expect(found.resistance.upper).toBeCloseTo(0.025 + 0.018, 12)
    expect(found.resistance.lower).toBeCloseTo(0.015 + 0.012, 12)
  })

  it('K01: is of the state in which the cell is: cold, nearly empty, old', () => {
    const old = readSupply({ source: { ...cell, openCircuit: 'NMC 21700', chargeFactor: '0: 2, 0.2: 1.2, 1: 1' } })
    const fresh = cornerOf(sourceAt(old, { charge: 1, celsius: 25 }), 'nominal')
    const worst = cornerOf(sourceAt(old, { charge: 0.2, celsius: 0, age: 1 }), 'weakest')
    const load = { kind: 'current', I_set: 8 } as const
    // 4.1932 - 8 * 0.02, and 3.4749 - 0.02 - 0.05 / 3 - 8 * 0.025 * 2.5 * 1.2 * 2
    expect(solveLoad(fresh, load)).toMatchObject({ kind: 'possible', rail: expect.closeTo(4.0332, 4) })
    expect(solveLoad(worst, load)).toMatchObject({ kind: 'possible', rail: expect.closeTo(2.2382, 4) })
  })

  it('looks at a tap of the path, and refuses one that is not there', () => {
    const s = supply([
      { name: 'contacts', resistance: 0.005 },
      { name: 'wiring', resistance: 0.01, tap: 'board' },
      { name: 'switch', resistance: 0.006 },
    ])
    expect(sourceAt(s, { ...warm, tap: 'board' }).path.resistance.nominal).toBeCloseTo(0.015, 12)
    expect(stretchOf(s.path!, 20, { behind: 'board' }).resistance.nominal).toBeCloseTo(0.006, 12)
    expect(() => sourceAt(s, { ...warm, tap: 'bord' })).toThrow(/tap = "bord": allowed is board\. Did you mean board\?/)
  })

  it('is a port with its leads', () => {
    const port = readSupply(exampleSupplies['weak port on a cable'])
    const { openCircuit, resistance, currentLimit, inductance } = sourceAt(port, { celsius: 25 })
    expect([openCircuit.lower, resistance.upper, currentLimit?.lower]).toEqual([4.75, 0.3, 0.5])
    expect(inductance.nominal).toBeCloseTo(1.1e-6, 12)
  })

  it('refuses a state that says nothing, and a path that takes everything', () => {
    expect(() => sourceAt(supply([]), { celsius: 20 })).toThrow(/charge = nothing/)
    expect(() => sourceAt(supply([]), { charge: 0.5, celsius: Number.NaN })).toThrow(InputError)
    const diode = { drop: 1.9 } as const
    const s = supply([
      { name: 'one', ...diode },
      { name: 'two', ...diode },
    ])
    expect(() => sourceAt(s, warm)).toThrow(/diodes of the path/)
    expect(() => supply([{ name: 'one' }, { name: 'one' }])).toThrow(/supply\.path\[1\]\.name/)
    expect(() => supply([{ name: ' ' }])).toThrow(/1 to 60 characters/)
  })
})

describe('the chain of a source', () => {
  it('gives board by board what the extremes enclose', () => {
    const s = supply([{ name: 'contacts', resistance: '5 mohm ±2 mohm', drop: '0.1 V ±0.05 V' }])
    const at = sourceAt(s, { charge: 0.3, celsius: 0, age: 0.5 })
    const inputs = cellInputs(at.cells!, at.path)
    const board = (end: 'lower' | 'nominal' | 'upper') => {
      const y = cellChain.place()
      for (const symbol of cellChain.inputs) y[symbol] = inputs[symbol][end]
      followCell(y)
      return y
    }
    expect(board('nominal')).toMatchObject({ V_oc: at.openCircuit.nominal, R_s: at.resistance.nominal })
    expect(board('upper').R_s).toBeCloseTo(at.resistance.upper, 14)
    expect(board('lower').V_oc).toBeGreaterThan(at.openCircuit.lower)
    const port = readSupply(exampleSupplies['weak port on a cable'])
    const seen = sourceAt(port, { celsius: 25 })
    if (port.source.kind !== 'port') throw new Error('a port')
    const given = portInputs(port.source, seen.path)
    const y = portChain.place()
    for (const symbol of portChain.inputs) y[symbol] = given[symbol].lower
    followPort(y)
    expect(y).toMatchObject({ V_oc: seen.openCircuit.lower, R_s: seen.resistance.lower })
  })

  it('never gets better where a tolerance gets wider', () => {
    const share = fc.double({ min: 0, max: 0.5, noNaN: true })
    fc.assert(
      fc.property(share, share, fc.double({ min: 0, max: 1, noNaN: true }), (a, b, charge) => {
        const [narrow, wide] = [Math.min(a, b), Math.max(a, b)].map((w) =>
          sourceAt(
            readSupply({
              source: { ...cell, resistance: plusMinus(0.02, 0.02 * w), openCircuitSpread: 0.1 * w },
              path: [{ name: 'wiring', resistance: plusMinus(0.01, 0.01 * w) }],
            }),
            { charge, celsius: 10 },
          ),
        )
        expect(wide!.openCircuit.lower).toBeLessThanOrEqual(narrow!.openCircuit.lower)
        expect(wide!.resistance.upper).toBeGreaterThanOrEqual(narrow!.resistance.upper)
      }),
    )
  })
})

describe('a load', () => {
  const source = { V_oc: 3.7, R_s: 0.1 }

  it('K02: holds its power only where there is one', () => {
    const found = solveLoad(source, { kind: 'power', P_L: 30 })
    expect(found).toMatchObject({ kind: 'possible' })
    if (found.kind === 'possible') {
      expect(found.current).toBeCloseTo((3.7 - Math.sqrt(3.7 ** 2 - 12)) / 0.2, 9)
      expect(found.rail * found.current).toBeCloseTo(30, 9)
    }
    const not = solveLoad({ V_oc: 3.4, R_s: 0.1 }, { kind: 'power', P_L: 30 })
    expect(not).toMatchObject({ kind: 'impossible', largestPower: expect.closeTo(28.9, 9) })
    expect(not.kind === 'impossible' && not.reason).toBe('The load asks for 30 W: the source gives at most 28.9 W')
    expect(dutyFor(source, 0.5, 30)).toMatchObject({ kind: 'impossible', largestPower: expect.closeTo(19.01, 2) })
    expect(dutyFor(source, 0.5, 10)).toMatchObject({ kind: 'possible', duty: expect.closeTo(0.526, 3) })
  })

  it('never gives NaN at its very limit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 60, noNaN: true }),
        fc.double({ min: 1e-6, max: 10, noNaN: true }),
        (V_oc, R_s) => {
          for (const share of [1 - 1e-15, 1, 1 + 1e-15, 0.999]) {
            const found = solveLoad({ V_oc, R_s }, { kind: 'power', P_L: (share * V_oc * V_oc) / (4 * R_s) })
            if (found.kind === 'possible') expect(Object.values(found)).not.toContain(Number.NaN)
          }
        },
      ),
    )
  })

  it('K02: of a limited port falls to what the limit leaves, or is not fed', () => {
    const port = { V_oc: 5, R_s: 0.25, I_lim: 0.5 }
    expect(solveLoad(port, { kind: 'resistance', R_L: 4 })).toMatchObject({ isLimited: true, current: 0.5, rail: 2 })
    expect(solveLoad(port, { kind: 'resistance', R_L: 20 })).toMatchObject({ isLimited: false })
    expect(solveLoad(port, { kind: 'current', I_set: 0.6 })).toMatchObject({ kind: 'impossible' })
    expect(powerLimit(port)).toBeCloseTo((5 - 0.125) * 0.5, 12)
    expect(solveLoad(port, { kind: 'power', P_L: 2.5 })).toMatchObject({ kind: 'impossible' })
    expect(solveLoad(port, { kind: 'power', P_L: 2.4 })).toMatchObject({ kind: 'possible' })
    expect(solveLoad({ V_oc: 5, R_s: 1 }, { kind: 'current', I_set: 6 })).toMatchObject({ kind: 'impossible' })
  })

  it('in PWM draws its current while it is on', () => {
    const found = solveLoad(source, { kind: 'pwm', R_L: 0.5, d_on: 0.25 })
    expect(found).toMatchObject({ current: expect.closeTo(3.7 / 0.6, 12), mean: expect.closeTo(3.7 / 2.4, 12) })
    expect(found.kind === 'possible' && found.power).toBeCloseTo(0.25 * 0.5 * (3.7 / 0.6) ** 2, 12)
  })

  it('over tolerances has the extremes that no board within them passes', () => {
    const spread = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true })
    const made = fc.tuple(spread(2, 15), spread(0, 0.5), spread(0, 0.5), spread(0.1, 3), spread(0, 0.9))
    fc.assert(
      fc.property(made, fc.array(spread(0, 1), { minLength: 4, maxLength: 4 }), ([V, R, u, R_L, w], at) => {
        const source = {
          ...plainSource(plusMinus(V, 0.2 * V), plusMinus(R, R * u)),
          currentLimit: at[3]! > 0.5 ? plusMinus(V / R_L, (0.3 * V) / R_L) : undefined,
        }
        const load = readLoad({ kind: 'resistance', resistance: plusMinus(R_L, R_L * w) })
        const found = feed(source, load)
        if (found.kind === 'impossible') throw new Error('a resistance is always fed')
        const pick = ({ lower, upper }: { lower: number; upper: number }, share: number) =>
          lower + share * (upper - lower)
        const corner = { V_oc: pick(source.openCircuit, at[0]!), R_s: pick(source.resistance, at[1]!) }
        const limit = source.currentLimit && { I_lim: pick(source.currentLimit, at[3]!) }
        const one = solveLoad(
          { ...corner, ...limit },
          { kind: 'resistance', R_L: pick(plusMinus(R_L, R_L * w), at[2]!) },
        )
        if (one.kind === 'impossible') throw new Error('a resistance is always fed')
        for (const key of ['current', 'rail', 'power'] as const) {
          expect(one[key]).toBeGreaterThanOrEqual(found[key].lower * (1 - 1e-12))
          expect(one[key]).toBeLessThanOrEqual(found[key].upper * (1 + 1e-12))
        }
      }),
      { numRuns: 2000 },
    )
  })

  it('that one board cannot feed is said, though nominal parts could', () => {
    const weak = plainSource(plusMinus(3.7, 0.3), exact(0.1))
    expect(feed(weak, readLoad({ kind: 'power', power: 30 }))).toMatchObject({ kind: 'impossible' })
    expect(feed(plainSource(exact(3.7), exact(0.1)), readLoad({ kind: 'power', power: 30 })).kind).toBe('possible')
    expect(() => readLoad({ kind: 'resistance', resistance: 0 })).toThrow(InputError)
  })
})

describe('the power path', () => {
  it('K13: a diode in the path takes a tenth of one cell, a transistor hardly anything', () => {
    const [diode, transistor] = pathAt(
      supply([
        { name: 'diode', drop: 0.4 },
        { name: 'transistor', resistance: 0.025, temperatureCoefficient: 'none' },
      ]).path!,
      exact(5),
      25,
    )
    expect(diode!.drop.nominal / 3.7).toBeGreaterThan(0.1)
    expect(diode!.loss.nominal).toBeCloseTo(2, 12)
    expect(transistor!.drop.nominal).toBeCloseTo(0.125, 12)
    expect(transistor!.loss.nominal).toBeCloseTo(0.625, 12)
  })

  it('warms itself as its resistance rises, and says where there is no end to it', () => {
    const trace = { name: 'trace', resistance: 0.01, thermalResistance: 50, highestCelsius: 105 } as const
    const [at10] = pathAt(supply([trace]).path!, exact(10), 20)
    // T = 20 + 50 * 100 * 0.01 * (1 + 0.00393 (T - 20)), solved by hand
    const rise = 50 / (1 - 50 * 0.00393)
    expect((at10!.celsius as { nominal: number }).nominal).toBeCloseTo(20 + rise, 9)
    expect(at10!.resistance.nominal).toBeCloseTo(0.01 * (1 + 0.00393 * rise), 12)
    expect(at10!.temperatureSlack).toBeCloseTo(85 - 50 * (1 + 0.00393 * 85), 9)
    const [at30] = pathAt(supply([trace]).path!, exact(30), 20)
    expect(at30!.celsius).toBe('runs away')
    expect(at30!.temperatureSlack).toBeLessThan(0)
    // 5 A in 50 mohm ±10 % are 1.25 W ±10 %, 50 K ±10 % above 25 degC
    const wide = {
      name: 'wide',
      resistance: '50 mohm ±10 %',
      temperatureCoefficient: 'none',
      thermalResistance: 40,
    } as const
    const celsius = pathAt(supply([wide]).path!, exact(5), 25)[0]!.celsius as { lower: number; upper: number }
    expect([celsius.lower, celsius.upper]).toEqual([expect.closeTo(70, 9), expect.closeTo(80, 9)])
    const [plain] = pathAt(supply([{ name: 'trace' }]).path!, exact(10), 20)
    expect(plain).toMatchObject({ celsius: null, currentSlack: null, temperatureSlack: null, trip: null })
  })

  it('K03: a protection trips at its least voltage and warmest resistance, of which a burst uses 70 %', () => {
    const protection = {
      name: 'protection',
      resistance: 0.05,
      temperatureCoefficient: 'none',
      tripVoltage: 0.15,
    } as const
    const limits = (I: number) => currentLimits(supply([protection]), exact(1), exact(I), 25)
    const trip = (I: number) => limits(I).find(({ what }) => what === 'trip')!
    expect(trip(2)).toMatchObject({ limit: expect.closeTo(0.7 * 3, 12), slack: expect.closeTo(0.1, 12) })
    expect(trip(2.5).slack).toBeLessThan(0)
    const warm = supply([{ ...protection, temperatureCoefficient: 'copper', tripVoltage: '0.15 V ±10 %' }])
    const hot = currentLimits(warm, exact(1), exact(2), 85).find(({ what }) => what === 'trip')!
    expect(hot.limit).toBeCloseTo((0.7 * 0.135) / (0.05 * (1 + 0.00393 * 65)), 12)
  })

  it('K11: the weakest of cells, elements and trip stands first', () => {
    const s = supply([
      { name: 'contacts', currentLimit: 8 },
      { name: 'fuse', currentLimit: 6 },
    ])
    expect(currentLimits(s, exact(7), exact(15), 25).map(({ name, slack }) => [name, slack])).toEqual([
      ['fuse', -1],
      ['contacts', 1],
      ['cells', 5],
      ['cells', 13],
    ])
  })
})

describe('a source over a range of its states', () => {
  const knife = readSupply(exampleSupplies['hot knife, one cell'])
  const over = { charge: { from: 0.1, to: 1 }, celsius: { from: 0, to: 50 }, age: { from: 0, to: 1 } }

  it('is wider than that of any state in it', () => {
    const { openCircuit, resistance } = sourceOver(knife, over)
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 50, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (charge, celsius, age) => {
          const one = sourceAt(knife, { charge, celsius, age })
          expect(one.openCircuit.lower).toBeGreaterThanOrEqual(openCircuit.from - 1e-12)
          expect(one.openCircuit.upper).toBeLessThanOrEqual(openCircuit.to + 1e-12)
          expect(one.resistance.lower).toBeGreaterThanOrEqual(resistance.lower - 1e-12)
          expect(one.resistance.upper).toBeLessThanOrEqual(resistance.upper + 1e-12)
        },
      ),
    )
  })

  it('is by hand what cold, age and an empty cell leave: factors 2.5, 2 and 1.6 of the largest cell', () => {
    const { resistance, openCircuit } = sourceOver(knife, { ...over, tap: 'board' })
    const path = (4e-3 * 1.5 + 10e-3 * 1.2 + 6e-3 * 1.2) * (1 - 20 * 0.00393)
    expect(resistance.upper).toBeCloseTo(18e-3 * 1.25 * 2.5 * 2 * 1.6 + path, 12)
    expect(openCircuit.to).toBeCloseTo(4.1932 + 0.03, 12)
  })

  it('of a port is its own, and a cell must say its charge', () => {
    const port = sourceOver(readSupply(exampleSupplies['weak port on a cable']), { celsius: { from: 20, to: 20 } })
    expect(port.openCircuit).toEqual({ from: 4.75, to: 5.25 })
    expect(port.currentLimit?.lower).toBe(0.5)
    expect(() => sourceOver(knife, { celsius: { from: 20, to: 20 } })).toThrow(InputError)
    expect(() => sourceOver(knife, { ...over, charge: { from: 0.5, to: 0.2 } })).toThrow(InputError)
  })

  it.each([
    ['charge', { from: {}, to: 1 }],
    ['celsius', { from: 0, to: {} }],
    ['age', { from: Symbol('s'), to: 1 }],
  ])('is of numbers: %s', (field, range) => {
    const act = () => sourceOver(knife, { ...over, [field]: range as never })
    expect(act).toThrow(InputError)
    expect(act).toThrow(new RegExp(`${field}\\.(from|to) = .*a finite number`))
  })
})
