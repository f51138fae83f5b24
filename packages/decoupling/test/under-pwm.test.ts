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
    const { steady } = check(choice('1 uF'), flatConditions)
    expect(steady.capacitance! * 1e6).toBeGreaterThan(160)
    expect(steady.capacitance! * 1e6).toBeLessThan(170)
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
