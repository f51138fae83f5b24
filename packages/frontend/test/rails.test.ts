import { type Design, dividerAt, exampleDesign, hallAt, readDesign, solveAt, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { monitorOf } from '../src/answer/monitor.js'

const regulator = {
  kind: 'regulator',
  voltage: '3 V ±2 %',
  dropout: '0 A: 0.02 V, 10 mA: 0.1 V, 200 mA: 0.5 V',
  currentLimit: '200 mA',
  quiescentCurrent: '4 uA',
} as const

const logic: Design = {
  ...exampleDesign,
  rails: [{ name: 'logic', source: 'main', through: regulator }],
  lives: { controller: 'logic', converter: 'logic', sensor: 'logic', amplifier: 'logic', sensorCurrent: '10 mA' },
}

describe('rails behind the main one', () => {
  const place = { charge: 1, celsius: 25, age: 0 }
  const design = readDesign(logic)
  const solved = solveAt(design, place)

  it('a regulator holds its voltage over the step, and takes the currents of all that lives on it and its own', () => {
    expect(solved.rails['logic']!.rest).toMatchObject({ lower: 2.94, upper: 3.06 })
    expect(solved.rails['logic']!.sag.upper).toBeLessThanOrEqual(3.06)
    // 12 mA, 10 mA and 4 uA through the source.
    const { openCircuit, resistance } = solved.source
    expect(solved.rest.nominal).toBeCloseTo(openCircuit.nominal - 0.022004 * resistance.nominal, 12)
  })

  it('a raw rail in dropout leaves what the dropout leaves, by plain arithmetic', () => {
    const { rails, rail } = solveAt(design, { charge: 0.1, celsius: 0, age: 1 })
    // At 22 mA between 0.1 V at 10 mA and 0.5 V at 200 mA.
    const dropout = 0.1 + (0.4 * (0.022 - 0.01)) / 0.19
    expect(rails['logic']!.sag.lower).toBeCloseTo(rail.lower - dropout, 9)
  })

  it('a regulator in dropout is pulled lower by the test current, by plain arithmetic', () => {
    const { rails, test } = solveAt(design, { charge: 0.1, celsius: 0, age: 1 })
    const { rest, measuring } = rails['logic']!
    expect(test.upper).toBeCloseTo(rest.upper / (47 * 0.999 + 0.4 + 0.5), 9)
    // 0.4 V more for 190 mA more.
    const dropout = 0.1 + (0.4 * (0.022 + test.upper - 0.01)) / 0.19
    expect(measuring.lower).toBeCloseTo(Math.min(2.94, rails['main']!.measuring.lower - dropout), 9)
    const most = walkOf(design, { charges: 2 })
      .hold(place)
      .rows.find(({ id }) => id === 'rails/regulator-current-logic')
    expect(most!.margin.worst).toBeGreaterThan(0.022 + 3.06 / 48.5)
  })

  it('each block gets the rail of its parts', () => {
    const { firmware } = walkOf(design, { charges: 2 })
    // The test current takes hardly anything of a regulator in its range.
    const { from, to } = dividerAt(design, solved, firmware).conditions.rail
    expect(from).toBeCloseTo(2.94, 3)
    expect(to).toBeCloseTo(3.06, 3)
    expect(hallAt(design, solved, firmware).conditions.rail).toMatchObject({ to: 3.06 })
    const apart = readDesign({ ...logic, lives: { ...logic.lives, sensor: 'main', amplifier: 'main' } })
    const there = solveAt(apart, place)
    expect(hallAt(apart, there, firmware).choice.sensorSupply).toEqual(there.rail)
    expect(dividerAt(apart, there, firmware).choice.amplifierSupply).toEqual(there.rails['main']!.measuring)
  })

  it('behind a regulator the firmware does not see the cells: full ones stand a volt above what it reads', () => {
    // At least 4.15 V of a full cell less the little that the controller takes, at most 3.06 V behind the regulator.
    expect(monitorOf(walkOf(design, { charges: 2 }))!.unseen).toBeGreaterThan(4.1 - 3.06)
    expect(monitorOf(walkOf(readDesign(exampleDesign), { charges: 2 }))!.unseen).toBe(0)
  })

  it('what lives on a rail that is not there is refused with the nearest', () => {
    expect(() => readDesign({ ...logic, lives: { controller: 'logc' } })).toThrow(
      /lives\.controller.*did you mean logic/i,
    )
  })
})

describe('bad input', () => {
  it('what the design says for all blocks is refused in a block', () => {
    const hall = { ...exampleDesign.hall, pwm: { frequency: 1, duty: { from: 0.1, to: 0.2 } } }
    expect(() => readDesign({ ...exampleDesign, hall })).toThrow(/^hall\.pwm/)
  })
})
