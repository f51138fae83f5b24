import { describe, expect, it } from 'vitest'
import { type DecouplingChoice, exampleCapacitors } from '../src/index.js'
import { flatConditions, flatKnife, flatSupply } from './flat-knife.js'
import { base, bulk, cell, check, named, pulsed } from './usual-rail.js'

describe('under PWM', () => {
  const ceramic = { ...exampleCapacitors.ceramic, count: 1 }
  const blade = { resistance: '0.7 ohm ±5 %', rise: '1 us' }

  it('finds the capacitance that is enough', () => {
    const choice = (capacitance: string): DecouplingChoice => ({
      ...flatKnife,
      source: { ...flatSupply, inductance: 0 },
      capacitors: [{ name: 'film', capacitance, seriesResistance: '3 mohm', ratedVoltage: 10 }],
      load: pulsed(20e3, 0.5, blade) as DecouplingChoice['load'],
      limits: { brownOut: '2.45 V ±2 %' },
      insertion: {},
    })
    const { steady, remedies } = check(choice('1 uF'), flatConditions)
    expect(steady.capacitance! * 1e6).toBeGreaterThan(160)
    expect(steady.capacitance! * 1e6).toBeLessThan(170)
    expect(remedies.find(({ id }) => id === 'more-capacitance')!.value).toBeCloseTo(steady.capacitance!, 7)
    const slack = (capacitance: string) => named(check(choice(capacitance), flatConditions), 'rail-brown-out').slack
    expect(slack('160 uF')).toBeLessThan(0)
    expect(slack('170 uF')).toBeGreaterThan(0)
  })

  it.each([20e3, 50e3, 100e3])('says the same in the summary as the margin does, at %d Hz', (frequency) => {
    const answer = check(
      {
        ...flatKnife,
        capacitors: [ceramic],
        load: pulsed(frequency, 0.5, blade) as DecouplingChoice['load'],
        limits: { brownOut: 2.129 },
        insertion: {},
      },
      flatConditions,
    )
    const { worst } = named(answer, 'rail-brown-out')
    expect(answer.budgets.V_min.extremes.lower).toBeCloseTo(worst, 6)
    expect(named(answer, 'pwm-start').worst).toBeLessThanOrEqual(worst + 1e-9)
  })

  it('sizes the hold-up capacitor on the board whose logic rail is lowest', () => {
    const plain = {
      ...flatKnife,
      capacitors: [ceramic],
      load: pulsed(50e3, 0.5, blade) as DecouplingChoice['load'],
      limits: { brownOut: 2.129 },
      insertion: {},
    }
    const { value } = check(plain, flatConditions).remedies.find(({ id }) => id === 'diode')!
    const withHeld = (capacitance: number) => {
      const logicRail = {
        behind: 'diode',
        capacitance,
        current: '5 mA',
        forwardVoltage: '0.35 V',
      } as const
      const answer = check(
        { ...plain, logicRail: logicRail as NonNullable<DecouplingChoice['logicRail']> },
        flatConditions,
      )
      return named(answer, 'logic-brown-out').slack
    }
    expect(withHeld(value! * 1.05)).toBeGreaterThan(0)
    expect(withHeld(value! * 0.9)).toBeLessThan(0)
  })
})

it('says what capacitance it takes only where the rail fails', () => {
  const { summary, verdict } = check({
    ...base,
    source: cell,
    capacitors: [{ ...bulk, capacitance: 4.7e-3, ratedVoltage: 3.5 }],
    load: { current: 10, duration: '100 us' },
  })
  expect(verdict).toBe('fails')
  expect(summary).not.toMatch(/It takes/)
})
