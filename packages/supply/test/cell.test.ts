import { InputError, schemaOf, takenFor } from '@ohmward/quantity'
import {
  type Cell,
  capacityAt,
  cellCondition,
  cellRecord,
  cellsAt,
  chargeAt,
  exampleCells,
  placeOf,
  publishedCurves,
  readCell,
  spreadAt,
  valueAt,
  voltageOver,
} from '@ohmward/supply'
import { describe, expect, it } from 'vitest'

const plain = {
  openCircuit: '0: 3 V, 0.5: 3.6 V, 1: 4.2 V',
  openCircuitSpread: 0,
  openCircuitSpreadEmpty: 0,
  capacity: '2000 mAh',
  resistance: '30 mohm ±20 %',
  continuousCurrent: 10,
  lowestVoltage: 3.1,
} as const satisfies Cell

const problem = (given: object): InputError => {
  try {
    readCell({ ...plain, ...given })
  } catch (error) {
    if (error instanceof InputError) return error
    throw error
  }
  throw new Error('nothing was refused')
}

describe('the published curves', () => {
  it.each(Object.entries(publishedCurves))(
    '%s rises from empty to full, and is as good as points of your own',
    (name, curve) => {
      expect([curve.x[0], curve.x[curve.x.length - 1]]).toEqual([0, 1])
      const list = curve.x.map((charge, i) => ({ charge, voltage: curve.y[i]! }))
      const read = readCell({ ...plain, openCircuit: list, lowestVoltage: 2.6 }).openCircuit
      expect(read.y).toEqual(curve.y)
      expect(readCell({ ...plain, openCircuit: name as 'NMC 21700', lowestVoltage: 2.6 }).openCircuit).toBe(curve)
      expect(curve.source).toMatch(/2025.*C\/32/)
    },
  )

  it.each([
    [0.1, 3.3311],
    [0.2, 3.4749],
    [0.5, 3.7427],
    [0.8, 4.0309],
  ])('of the nickel cell is at %s of its charge at %s V', (q, volts) => {
    expect(valueAt(publishedCurves['NMC 21700'], q)).toBeCloseTo(volts, 4)
  })

  it('are straight between their points, and go back to the charge', () => {
    const curve = { x: [0, 0.5, 1], y: [3, 3.6, 4.2] }
    expect(valueAt(curve, 0.25)).toBeCloseTo(3.3, 12)
    expect(valueAt(curve, 1)).toBe(4.2)
    for (let q = 0; q <= 1; q += 0.01) expect(placeOf(curve, valueAt(curve, q))).toBeCloseTo(q, 12)
    expect(placeOf(curve, 2)).toBe(0)
    expect(placeOf(curve, 5)).toBe(1)
  })
})

describe('a cell', () => {
  it('says what was taken by default, with its value', () => {
    const texts = takenFor(cellRecord, plain).map(({ text }) => text)
    const said = (word: string) => texts.find((text) => text.startsWith(`${word} = `))
    expect(said('temperatureFactor')).toContain('0 degC: 2.5, 25 degC: 1')
    expect(said('ageFactor')).toMatch(/= 2 .*common practice, no source/)
    expect(said('damageVoltage')).toContain('2.5 V')
    expect(said('hazardVoltage')).toContain('1.5 V')
    expect(said('lowestVoltage')).toBeUndefined()
    expect(said('selfDischarge')).toMatch(/1 % to 5 %|0.01 to 0.05|10 m to 50 m/)
  })

  it('is warm, half charged and new at its stated resistance, and follows its factors elsewhere', () => {
    const cell = readCell(plain)
    const at = (charge: number, celsius: number, age: number) => cellsAt(cell, { charge, celsius, age }).resistance
    expect(at(0.5, 25, 0)).toMatchObject({ nominal: 0.03, lower: 0.024, upper: 0.036 })
    expect(at(0.5, 0, 0).nominal).toBeCloseTo(0.03 * 2.5, 12)
    expect(at(0.1, 0, 1).upper).toBeCloseTo(0.036 * 2.5 * 1.6 * 2, 12)
    expect(at(0.5, 12.5, 0).nominal).toBeCloseTo(0.03 * 1.75, 12)
  })

  it('adds voltage and resistance of cells in series, not their charge', () => {
    const one = readCell({ ...plain, openCircuitSpread: 0.02 })
    const three = readCell({ ...plain, openCircuitSpread: 0.02, inSeries: 3 })
    const state = { charge: 0.5, celsius: 25, age: 0 }
    expect(cellsAt(three, state).voltage.lower).toBeCloseTo(3 * 3.58, 12)
    expect(cellsAt(three, state).resistance.upper).toBeCloseTo(3 * cellsAt(one, state).resistance.upper, 12)
    expect(capacityAt(three, 0)).toEqual(capacityAt(one, 0))
  })

  it('loses capacity in a straight line to the end of its life', () => {
    expect(capacityAt(readCell(plain), 0).nominal).toBe(7200)
    expect(capacityAt(readCell(plain), 0.5).nominal).toBeCloseTo(7200 * 0.9, 9)
  })

  it('rests at a charge that its spread about the curve widens', () => {
    const cell = readCell({ ...plain, openCircuitSpread: 0.06 })
    const { lower, nominal, upper } = chargeAt(cell, 3.6)
    expect([lower, nominal, upper].map((q) => Number(q.toFixed(9)))).toEqual([0.45, 0.5, 0.55])
  })

  it('is further off its curve in the last quarter of its charge, in a straight line to the last tenth', () => {
    const far = { ...plain, openCircuitSpread: 0.03, openCircuitSpreadEmpty: 0.06, lowestVoltage: 2.9 } as const
    const cell = readCell(far)
    const ends = (of: typeof cell, q: number) => {
      const { lower, upper } = spreadAt(of, q)
      return [lower, upper].map((volts) => Number(volts.toFixed(12)))
    }
    expect([1, 0.25, 0.2, 0.175, 0.1, 0.05].map((q) => ends(cell, q)[0])).toEqual([
      -0.03, -0.03, -0.05, -0.06, -0.09, -0.09,
    ])
    expect([1, 0.25, 0.2, 0.175, 0.1, 0].map((q) => ends(cell, q)[1])).toEqual([0.03, 0.03, 0.05, 0.06, 0.09, 0.09])
    expect(cellsAt(readCell({ ...far, inSeries: 3 }), { charge: 0.05, celsius: 25, age: 0 }).voltage).toMatchObject({
      lower: expect.closeTo(3 * (3.06 - 0.09), 12),
      upper: expect.closeTo(3 * (3.06 + 0.09), 12),
    })
    expect(() => spreadAt(cell, 1.1)).toThrow(/charge = 1.1/)
    // One that would rest below the cut-off was stopped before: at 3.12 V there are 20 mV left to 3.1 V, at 3.06 V none.
    const stopped = readCell({ ...far, lowestVoltage: 3.1 })
    expect([0.175, 0.1, 0.05].map((q) => ends(stopped, q))).toEqual([
      [-0.06, 0.06],
      [-0.05, 0.09],
      [-0.03, 0.09],
    ])
  })

  it('rests at a charge by how far it is off its curve there', () => {
    // At 3.21 V: a cell 60 mV above its curve is nearly empty, one below it is the fuller for it, in use or not.
    const { lower, upper } = chargeAt(readCell({ ...plain, openCircuitSpreadEmpty: 0.06 }), 3.21)
    const off = (q: number) => 0.06 * Math.min(1, Math.max(0, (0.25 - q) / 0.15))
    expect(3 + 1.2 * lower + off(lower)).toBeCloseTo(3.21, 12)
    expect(3 + 1.2 * upper - off(upper)).toBeCloseTo(3.21, 12)
  })

  it('may stand highest inside a range of its charge, where a flat curve rises less than its spread falls', () => {
    const flat = { openCircuit: '0: 3 V, 0.1: 3.3 V, 0.3: 3.301 V, 1: 3.6 V', lowestVoltage: 2.9 } as const
    const cell = readCell({ ...plain, ...flat, openCircuitSpreadEmpty: 0.08 })
    expect(voltageOver(cell, { from: 0.05, to: 0.25 }).to).toBeCloseTo(3.38, 12)
    expect(voltageOver(cell, { from: 0.05, to: 0.25 }).from).toBeCloseTo(3.15 - 0.08, 12)
    // It may have come to 3.36 V in any state between the first such cell and the last.
    const { lower, upper } = chargeAt(cell, 3.36)
    expect(lower).toBeCloseTo((0.1 * (3.36 - 3.08)) / 0.3, 12)
    expect(upper).toBeCloseTo(0.3 + (0.7 * (3.36 - 3.301)) / 0.299, 12)
  })

  it('K10: is never charged again below the hazard voltage, and gently below the damage voltage', () => {
    const cell = readCell(plain)
    expect([1.49, 1.5, 2.49, 2.5, 3.09, 3.1].map((volts) => cellCondition(cell, volts))).toEqual([
      'never charge again',
      'charge gently',
      'charge gently',
      'empty',
      'empty',
      'usable',
    ])
    expect(() => cellCondition(cell, Number.NaN)).toThrow(InputError)
  })

  it('gives its schema', () => {
    const { properties } = schemaOf(cellRecord, { title: 'cell' }) as { properties: Record<string, object> }
    expect(properties['openCircuit']).toMatchObject({ anyOf: [{ enum: Object.keys(publishedCurves) }, {}, {}] })
    expect(properties['temperatureFactor']).toMatchObject({ default: expect.stringContaining('25 degC: 1') })
  })

  it.each(Object.keys(exampleCells))('of the examples reads: %s', (name) => {
    expect(readCell(exampleCells[name as keyof typeof exampleCells]).inSeries).toBe(1)
  })
})

describe('a cell is refused', () => {
  it.each([
    [
      'that does not rise',
      { openCircuit: '0: 3 V, 0.4: 3.7 V, 0.5: 3.6 V, 1: 4.2 V' },
      /openCircuit.*voltage.*3\.6.*more than 3\.7 V/,
    ],
    [
      'with a flat piece',
      {
        openCircuit: [
          { charge: 0, voltage: 3.3 },
          { charge: 1, voltage: 3.3 },
        ],
      },
      /openCircuit\[1\]\.voltage/,
    ],
    [
      'whose charge goes back',
      {
        openCircuit: [
          { charge: 0, voltage: 3 },
          { charge: 0.5, voltage: 3.5 },
          { charge: 0.4, voltage: 3.6 },
          { charge: 1, voltage: 4 },
        ],
      },
      /openCircuit\[2\]\.charge/,
    ],
    ['that does not begin empty', { openCircuit: '0.1: 3 V, 1: 4.2 V' }, /openCircuit\[0\]\.charge.*0/],
    ['that does not end full', { openCircuit: '0: 3 V, 0.9: 4.2 V' }, /openCircuit\[1\]\.charge.*1/],
    ['with one point', { openCircuit: [{ charge: 0, voltage: 3 }] }, /2 to 500/],
    ['with an unknown curve', { openCircuit: 'zinc' }, /"NMC 21700" or "LFP cylindrical"/],
    [
      'with a point of other words',
      {
        openCircuit: [
          { charge: 0, volts: 3 },
          { charge: 1, volts: 4 },
        ],
      },
      /an object with charge, voltage/,
    ],
    ['with a volt of its own', { openCircuit: '0: 3 A, 1: 4.2 V' }, /voltage/],
    ['whose damage lies above its cut-off', { damageVoltage: 3.2 }, /damageVoltage.*at most the lowestVoltage, 3\.1 V/],
    ['whose hazard lies above its damage', { hazardVoltage: 2.6 }, /hazardVoltage/],
    ['whose cut-off is full', { lowestVoltage: 4.2 }, /lowestVoltage.*4\.2 V/],
    ['whose pulse is less than what it always gives', { pulseCurrent: 5 }, /pulseCurrent.*10 A/],
    ['with an unknown field', { capacty: 1 }, /capacty \(did you mean capacity\?\)/],
    [
      'with a factor of NaN',
      {
        chargeFactor: [
          { charge: 0, factor: Number.NaN },
          { charge: 1, factor: 1 },
        ],
      },
      /chargeFactor\[0\]\.factor/,
    ],
    ['with a half of a cell', { inSeries: 1.5 }, /inSeries.*whole/],
  ])('%s', (_, given, message) => {
    expect(problem(given).message).toMatch(message)
  })

  it('beyond what its curves state', () => {
    const cell = readCell(plain)
    const at = (more: object) => () => cellsAt(cell, { charge: 0.5, celsius: 25, age: 0, ...more })
    expect(at({ celsius: -21 })).toThrow(/celsius = -21 degC: allowed is from -20 to 60 degC/)
    expect(at({ celsius: Number.NaN })).toThrow(InputError)
    expect(at({ charge: 1.01 })).toThrow(/charge/)
    expect(at({ charge: Number.NaN })).toThrow(InputError)
    expect(at({ age: -0.1 })).toThrow(/age/)
  })
})
