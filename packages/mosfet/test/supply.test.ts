import { InputError } from '@ohmward/quantity'
import { exampleSupply } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'
import { checkMosfet, exampleChoice, type MosfetConditions, sweepMosfet } from '../src/index.js'

const quick = { simulation: false } as const
const around = { supply: exampleSupply, charge: { from: 0.1, to: 1 }, ambientCelsius: { from: 0, to: 50 } } as const
const refused = (conditions: object): InputError => {
  try {
    checkMosfet(exampleChoice, conditions as MosfetConditions, quick)
  } catch (error) {
    expect(error).toBeInstanceOf(InputError)
    return error as InputError
  }
  throw new Error('nothing was refused')
}

describe('a switch on a supply', () => {
  // By hand: 18 mohm ±25 % at a tenth of the charge (1.6), at 0 °C (2.5), old (2), path 25 mohm;
  // least new and full at 25 °C: warmer, copper gains more than the cell loses.
  const [least, most] = [
    18e-3 * 0.75 + (2e-3 + 8e-3 + 4.8e-3 + 2.5e-3) * (1 + 5 * 0.00393),
    18e-3 * 1.25 * 1.6 * 2.5 * 2 + (6e-3 + 12e-3 + 7.2e-3 + 7.5e-3) * (1 - 20 * 0.00393),
  ]

  it('is held as with the voltages and resistances that the supply has over its states', () => {
    const told = checkMosfet(exampleChoice, around, quick)
    const [worst, nominal] = [told.margins.map((one) => one.worst), 0.1]
    const distribution = { kind: 'rectangular' } as const
    const plain = checkMosfet(
      exampleChoice,
      {
        openCircuit: {
          from: 3.3231 + ((0.1 - 0.0955) * (3.4218 - 3.3231)) / (0.1508 - 0.0955) - 0.03 - 0.05,
          to: 4.1932 + 0.03,
        },
        sourceResistance: { nominal, lower: least, upper: most, distribution },
        ambientCelsius: { from: 0, to: 50 },
      },
      quick,
    )
    const hot = (a: typeof told) => a.margins.find(({ id }) => id === 'gate-drive')!.worst
    expect(hot(told)).toBeCloseTo(hot(plain), 9)
    expect(worst.every(Number.isFinite)).toBe(true)
  })

  it('is held at single charges: the fuller the cell, the more the gate has', () => {
    const points = [0.1, 0.4, 1].map((charge) => ({ charge }))
    const drive = sweepMosfet(exampleChoice, around, points, ['gate-drive']).map(({ margins }) => margins[0]!.worst)
    expect(drive[0]).toBeLessThan(drive[1]!)
    expect(drive[1]).toBeLessThan(drive[2]!)
  })

  it('is held at single voltages too, with every resistance that the supply has', () => {
    const at = (volts: number) =>
      sweepMosfet(exampleChoice, around, [{ openCircuit: volts }], ['gate-drive', 'junction'])[0]!.margins
    const plain = checkMosfet(
      exampleChoice,
      {
        openCircuit: { from: 3.6, to: 3.6 },
        sourceResistance: { nominal: least, lower: least, upper: most, distribution: { kind: 'rectangular' } },
        ambientCelsius: around.ambientCelsius,
      },
      quick,
    ).margins
    for (const { id, worst } of at(3.6)) expect(worst).toBeCloseTo(plain.find((one) => one.id === id)!.worst, 9)
  })

  it('refuses points of a sweep that say nothing, or what can’t be', () => {
    const sweptAt = (points: unknown, conditions: unknown = around) => {
      try {
        sweepMosfet(exampleChoice, conditions as MosfetConditions, points as never, ['gate-drive'])
      } catch (error) {
        expect(error).toBeInstanceOf(InputError)
        return (error as InputError).message
      }
      throw new Error('nothing was refused')
    }
    expect(sweptAt([{ openCircut: 3 }])).toContain('Unknown: openCircut')
    expect(sweptAt([{ openCircuit: -3 }])).toMatch(/^points\[0\]\.openCircuit = -3 V/)
    expect(sweptAt([{ charge: 0.5 }, { charge: 2 }])).toMatch(/^points\[1\]\.charge = 2/)
    expect(sweptAt([{ ambientCelsius: 1e9 }])).toMatch(/^points\[0\]\.ambientCelsius/)
    expect(sweptAt([null])).toMatch(/^points\[0\] = null/)
    expect(sweptAt(5)).toMatch(/^points = 5/)
    const plain = { openCircuit: { from: 3, to: 4 }, sourceResistance: 0.1, ambientCelsius: { from: 0, to: 50 } }
    expect(sweptAt([{ charge: 0.5 }], plain)).toMatch(/nothing without a supply/)
  })

  it('refuses what is said twice or not at all', () => {
    expect(refused({ ...around, openCircuit: { from: 3, to: 4 } }).field).toBe('openCircuit')
    expect(refused({ ...around, sourceResistance: 0.1 }).field).toBe('sourceResistance')
    expect(refused({ ...around, charge: undefined }).field).toBe('charge')
    expect(refused({ ...around, tap: 'bord' }).message).toContain('board')
    expect(refused({ ambientCelsius: around.ambientCelsius }).field).toBe('openCircuit')
    expect(
      refused({ ambientCelsius: around.ambientCelsius, openCircuit: { from: 3, to: 4 }, age: { from: 0, to: 1 } })
        .field,
    ).toBe('age')
  })
})
