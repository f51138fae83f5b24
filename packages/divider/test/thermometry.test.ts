import { InputError } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { checkDivider, type DividerChoice, platinumCelsius, platinumRatio, type Thermometry } from '../src/index.js'
import { cell, ideal, knife } from './design.js'

describe('platinum (IEC 60751)', () => {
  it('there and back to 1e-9 K', () => {
    for (let t = -200; t <= 850; t += 12.5) expect(platinumCelsius(platinumRatio(t))).toBeCloseTo(t, 9)
    expect(platinumRatio(0)).toBe(1)
    expect(platinumCelsius(1)).toBeCloseTo(0, 12)
  })
})

/** A platinum wire of 0.5 ohm at rest, ideal parts, one board temperature and one rail. */
const still = { rail: { from: 3.6, to: 3.6 }, ambientCelsius: { from: 25, to: 25 } }
const wire: DividerChoice = {
  ...ideal,
  load: { from: 0.4, to: 1.4, nominal: 0.5 },
  converter: { ...ideal.converter, bits: 24 },
  // Averaged until the resistors' noise is gone.
  timing: { filter: '10 ms', wait: '1 s', samples: 65536 },
}
const reading = (thermometry: Thermometry, choice: DividerChoice = wire, conditions = still) => {
  const { budgets, margins } = checkDivider({ ...choice, thermometry }, conditions, { simulation: false })
  const margin = margins.find(({ id }) => id === 'temperature')!
  return { budget: budgets['T_ind']!, margin, margins }
}

describe('a temperature from the load’s own resistance', () => {
  it('by the platinum curve reads what is there', () => {
    for (const hotCelsius of [-150, 100, 300, 800]) {
      const { budget, margin } = reading({ element: { platinum: 'calibrated' }, restCelsius: 25, hotCelsius, error: 5 })
      expect(Math.abs(budget.linear.nominal - hotCelsius)).toBeLessThan(1e-4)
      expect(margin.verdict).toBe('holds')
    }
  })

  it('by a linear coefficient of 3851 ppm/K reads 291 at 300 °C', () => {
    // The resistance of platinum at 300 °C is 2.1205 of that at 0 °C: (2.1205 - 1)/0.00385.
    expect((platinumRatio(300) - 1) / 0.003851).toBeGreaterThan(290.5)
    expect((platinumRatio(300) - 1) / 0.003851).toBeLessThan(291.5)
    // The element as points of the true curve, the reading by a line through 0 and 100 °C.
    const points = [0, 100, 200, 300].map((t) => [t, 1 + 3.9083e-3 * t - 5.775e-7 * t * t] as const)
    const { budget } = reading({ element: points, restCelsius: 0, hotCelsius: 300, error: 5 })
    expect(budget.linear.nominal).toBeCloseTo(300, 3)
    const chord = { coefficient: 0.003851, curvature: 0 }
    const line = reading({ element: chord, restCelsius: 0, hotCelsius: 300, error: 5 })
    // Both the element and the reading follow the line.
    expect(line.budget.linear.nominal).toBeCloseTo(300, 3)
  })

  it('by points goes through them and straight between', () => {
    const element = [
      [0, 1],
      [100, 1.4],
      [200, 2],
    ] as const
    for (const hotCelsius of [50, 100, 150, 200]) {
      expect(reading({ element, restCelsius: 20, hotCelsius, error: 5 }).budget.linear.nominal).toBeCloseTo(
        hotCelsius,
        3,
      )
    }
    // At 150 °C the slope is 0.006 of the value at 0 °C, at 50 °C 0.004: the same noise is worth less there.
    const u = (hotCelsius: number) => reading({ element, restCelsius: 0, hotCelsius, error: 5 }).budget.linear.u
    expect(u(150) / u(50)).toBeGreaterThan(0.8)
    expect(u(150) / u(50)).toBeLessThan(1.2)
  })

  it('contacts that moved between the two readings do not cancel', () => {
    const surroundings = { ...wire.surroundings, contactVariation: '10 mohm' }
    const element = { coefficient: '4000 ppm/K', curvature: 0 }
    const moved = reading(
      { element, restCelsius: 25, hotCelsius: 275, error: 20 },
      { ...wire, wires: 2, surroundings },
    ).margin
    // 1 ohm hot and 0.5 ohm at rest, each 10 mohm off the other way: (1.01/0.49 - 1)/0.004 - 250.
    expect(moved.worst).toBeCloseTo((1.01 / 0.49 - 1) / 0.004 - 250, 1)
  })

  it('what both readings share cancels: reference and gain', () => {
    const parts: DividerChoice = {
      ...wire,
      reference: '47 ohm ±5 %',
      gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %', ratioDrift: 0 },
    }
    const { margin } = reading(
      { element: { coefficient: 0.004, curvature: 0 }, restCelsius: 25, hotCelsius: 125, error: 5 },
      parts,
    )
    // 7 % of the resistance would be 98 / 4e-3 of a ratio of 1.4, some 25 K; only the curvature stays.
    expect(margin.worst).toBeLessThan(0.2)
  })

  it('an offset doesn’t: it adds to both', () => {
    const amplifier = { ...ideal.amplifier, offsetVoltage: '100 uV' }
    const { margin } = reading(
      { element: { coefficient: 0.004, curvature: 0 }, restCelsius: 25, hotCelsius: 125, error: 5 },
      { ...wire, amplifier },
    )
    // d = 100 uV over 75.8 mA = 1.32 mohm on 0.7 and 0.5 ohm.
    const d = 1e-4 / (3.6 / 47.5)
    expect(margin.worst / ((0.7 / 0.5 - (0.7 + d) / (0.5 + d)) / 0.004)).toBeCloseTo(1, 1)
  })

  it('the cold value as well as its temperature is known', () => {
    const t: Thermometry = {
      element: { coefficient: 0.004, curvature: 0 },
      restCelsius: '25 degC ±2 K',
      hotCelsius: 125,
      error: 5,
    }
    // A rest of 2 K more: (1.4/1.008 - 1)/0.004 instead of 100.
    expect(reading(t).margin.worst).toBeCloseTo(125 - 25 - (1.4 / 1.008 - 1) / 0.004, 1)
    // Without a word, 25 ± 2 °C is taken.
    const { restCelsius: _, ...usual } = t
    expect(reading(usual).margin.worst).toBeCloseTo(reading(t).margin.worst, 9)
  })

  it('the rest on a board as warm as it: its reference has drifted by all of that, and the element by what it is off (arithmetic)', () => {
    const element = { coefficient: 0.004, curvature: 0 }
    const referencePart = { temperatureCoefficient: '500 ppm/K' }
    const thermometry: Thermometry = { element, restCelsius: '45 degC ±10 K', hotCelsius: 145, error: 30 }
    const found = reading(thermometry, { ...wire, referencePart }).budget.extremes
    // Hot it is read on a board of 25 °C, at rest on one of 35 to 55 °C: a reference that has grown makes the cold value too small.
    const told = (off: number, drift: number) => 45 + ((1.4 * (1 + drift * (20 + off))) / (1 + 0.004 * off) - 1) / 0.004
    const all = [10, -10].flatMap((off) => [told(off, 5e-4), told(off, -5e-4)])
    expect(found.upper).toBeCloseTo(Math.max(...all), 1)
    expect(found.lower).toBeCloseTo(Math.min(...all), 1)
  })

  it('the rest at a board and a rail of its own: nothing of it comes in where the rail cancels', () => {
    const wide = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 25, to: 25 } }
    const t: Thermometry = { element: { platinum: 'calibrated' }, restCelsius: 25, hotCelsius: 200, error: 5 }
    expect(reading(t, wire, wide).margin.worst).toBeLessThan(0.05)
    const saturated = { ...wire, excitationSwitch: { saturation: '0.2 V' } }
    expect(reading(t, saturated, wide).margin.worst).toBeGreaterThan(3)
  })

  it('budgets and cautions come with it, and a real blade of platinum fails at a kelvin', () => {
    const thermometry: Thermometry = { element: 'platinum', hotCelsius: 200, error: 1 }
    const answer = checkDivider({ ...knife, thermometry }, cell, { simulation: { maximumTrials: 10_000 } })
    expect(answer.verdict).toBe('fails')
    expect(answer.budgets['T_ind']!.simulation!.trials).toBeGreaterThan(1000)
    expect(answer.budgets['T_ind']!.unit).toBe('degC')
    expect(answer.cautions.map(({ id }) => id)).toEqual(expect.arrayContaining(['hot-spot', 'cold-value']))
  })
})

describe('a thermometry that isn’t one', () => {
  const refusal = (thermometry: unknown): InputError => {
    try {
      checkDivider({ ...knife, thermometry: thermometry as Thermometry }, cell, { simulation: false })
    } catch (error) {
      if (error instanceof InputError) return error
      throw error
    }
    throw new Error('nothing was refused')
  }
  const t = { hotCelsius: 200, error: 5 }
  it.each([
    [{}, /^thermometry = an object.*Missing: element, hotCelsius, error/],
    [{ ...t, element: 'nickel' }, /^thermometry\.element = "nickel".*platinum/],
    [{ ...t, element: null }, /^thermometry\.element = null/],
    [{ ...t, element: {} }, /Missing: coefficient/],
    [{ ...t, element: { coefficient: 0 } }, /coefficient = 0 1\/K.*more than 0.*another sensor/],
    [{ ...t, element: { coefficient: '20 ppm/K ±50 ppm/K' } }, /another sensor/],
    [{ ...t, element: { coefficient: 1 } }, /coefficient = 1 1\/K/],
    [{ ...t, element: [[0, 1]] }, /two points or more/],
    [{ ...t, element: [[0, 1], [100]] }, /element\[1\] = a list: .*\[temperature in °C, ratio\]/],
    [{ ...t, element: [[0, 1], 5] }, /element\[1\] = 5/],
    [
      {
        ...t,
        element: [
          [0, 1],
          [0, 2],
        ],
      },
      /element\[1\]\[0\] = 0: .*point before, 0/,
    ],
    [
      {
        ...t,
        element: [
          [0, 1],
          [10, 1],
        ],
      },
      /element\[1\]\[1\] = 1: .*point before, 1/,
    ],
    [
      {
        ...t,
        element: [
          [0, 0],
          [10, 1],
        ],
      },
      /element\[0\]\[1\] = 0.*more than 0/,
    ],
    [
      {
        ...t,
        element: [
          [-300, 1],
          [10, 2],
        ],
      },
      /element\[0\]\[0\] = -300/,
    ],
    [
      {
        ...t,
        element: [
          [0, 1],
          [4000, 2],
        ],
      },
      /element\[1\]\[0\] = 4000/,
    ],
    [
      {
        ...t,
        element: [
          [0, 1],
          [10, 2000],
        ],
      },
      /element\[1\]\[1\] = 2000/,
    ],
    [{ ...t, element: 'platinum', hotCelsius: 900 }, /hotCelsius = 900 degC.*850/],
    [{ ...t, element: 'platinum', error: 0 }, /error = 0/],
    [
      {
        ...t,
        element: [
          [0, 1],
          [100, 2],
        ],
        hotCelsius: -150,
      },
      /hotCelsius = -150 degC.*from 0 to 100 degC \(its points\)/,
    ],
    [{ ...t, element: { coefficient: 0.01 }, hotCelsius: -100 }, /hotCelsius = -100 degC.*stays above 0 ohm/],
    [{ ...t, element: 'platinum', limitCelsius: 4000 }, /limitCelsius = 4000/],
    [{ ...t, element: 'platinum', hotSpotFactor: 0.9 }, /hotSpotFactor = 0\.9/],
    [{ ...t, element: 'platinum', hotSpotFactor: 6 }, /hotSpotFactor = 6/],
    [{ ...t, element: 'platinum', rest: 6 }, /Unknown: rest/],
  ])('%j', (given, message) => {
    expect(refusal(given).message).toMatch(message)
  })
})
