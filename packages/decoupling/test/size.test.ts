import { InputError } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { type Capacitor, type DecouplingRequirement, exampleStock, sizeDecoupling, sizeHoldUp } from '../src/index.js'
import { flatCell } from './source.js'

const polymer = (microfarads: number, volume?: number): Capacitor => ({
  name: `polymer ${microfarads}`,
  capacitance: microfarads * 1e-6,
  ratedVoltage: 6.3,
  seriesResistance: 0.01,
  lifeHours: 2000,
  ...(volume !== undefined && { volume }),
})

/** 8 A for 100 µs from 3.7 V behind 0.1 ohm, down to 3.4 V. */
const requirement: DecouplingRequirement = {
  source: flatCell(0.1),
  load: { current: 8, duration: 100e-6 },
  limits: { brownOut: 3.4 },
  conditions: {
    openCircuit: { from: 3.7, to: 3.7 },
    ambientCelsius: { from: 25, to: 25 },
    ageYears: { from: 0, to: 0 },
  },
  stock: [polymer(470, 300), polymer(1000, 500), polymer(100, 50)],
}

describe('sizing', () => {
  it('takes the smallest number that is enough, by the formula', () => {
    const { choices, rejected, impossible } = sizeDecoupling(requirement)
    expect(impossible).toBeNull()
    for (const { choice } of choices) {
      const { capacitance, count = 1 } = choice.capacitors[0]!
      // C needed with the series resistance of n parts; one part less is not enough.
      const needed = (n: number) => {
        const ESR = 0.01 / n
        return 100e-6 / ((0.1 + ESR) * Math.log((8 * 0.01) / ((0.1 + ESR) * (0.8 - 0.3))))
      }
      const n = Number(count)
      expect(n * Number(capacitance)).toBeGreaterThanOrEqual(needed(n))
      if (n > 1) expect((n - 1) * Number(capacitance)).toBeLessThan(needed(n - 1))
    }
    // 100 µF: 2.2 mF would need 22 of them.
    expect(rejected.map(({ choice }) => choice.capacitors[0]!.name)).toEqual(['polymer 100'])
    expect(rejected[0]!.reason).toContain('8 of them')
    expect(rejected[0]!.margin).toBe('rail-brown-out')
  })

  it('puts the smallest volume first where all say theirs, else the fewest parts', () => {
    const volumes = sizeDecoupling(requirement).choices.map(({ volume }) => volume)
    expect(volumes).toEqual([1500, 1500])
    const names = (stock: readonly Capacitor[]) =>
      sizeDecoupling({ ...requirement, stock }).choices.map(({ choice }) => choice.capacitors[0]!.name)
    expect(names([polymer(470, 200), polymer(1000, 500)])).toEqual(['polymer 470', 'polymer 1000'])
    expect(names([polymer(470), polymer(1000)])).toEqual(['polymer 1000', 'polymer 470'])
    expect(names([polymer(470), polymer(1000, 500)])).toEqual(['polymer 1000', 'polymer 470'])
  })

  it('counts what stands there in any case', () => {
    const beside = [{ ...polymer(2200, 900), seriesResistance: 0.005 }]
    const [first] = sizeDecoupling({ ...requirement, with: beside }).choices
    expect(first!.choice.capacitors.length).toBe(2)
    expect(first!.choice.capacitors[0]).toMatchObject({ name: 'polymer 100', count: 1 })
  })

  it('proves that none can do it for a step that stays', () => {
    const { choices, impossible } = sizeDecoupling({ ...requirement, load: { current: 8 } })
    expect(choices).toEqual([])
    expect(impossible).toMatchObject({ limit: 3.4 })
    expect(impossible!.voltage).toBeCloseTo(2.9, 9)
  })

  it('tells how many parts of the stock are settled, up to all of them', () => {
    const told: number[] = []
    const { rejected } = sizeDecoupling({
      ...requirement,
      progress: (settled, of) => {
        expect(of).toBe(3)
        told.push(settled)
      },
    })
    expect(told[0]).toBe(rejected.length)
    expect(told.at(-1)).toBe(3)
    expect(told).toEqual([...told].sort())
  })

  it('refuses what makes no sense', () => {
    const field = (more: object) => {
      try {
        sizeDecoupling({ ...requirement, ...more })
      } catch (error) {
        return (error as InputError).field
      }
      return 'nothing'
    }
    expect(field({ most: 0 })).toBe('most')
    expect(field({ mostParts: 1.5 })).toBe('mostParts')
    expect(field({ stock: [] })).toBe('stock')
    expect(field({ capacitors: [] })).toBe('requirement')
    expect(field({ conditions: {} })).toBe('conditions')
    expect(field({ cost: 1 })).toBe('cost')
    expect(field({ cost: () => Number.NaN })).toBe('cost')
    expect(field({ progress: true })).toBe('progress')
  })

  it('has a stock of preferred values by class, smaller parts with more series resistance', () => {
    const stock = exampleStock()
    expect(stock.length).toBe(13)
    for (let i = 1; i < stock.length; i++) {
      const [before, here] = [stock[i - 1]!, stock[i]!]
      if (before.name!.split(' ')[0] !== here.name!.split(' ')[0]) continue
      expect(Number(here.seriesResistance)).toBeLessThan(Number(before.seriesResistance))
      expect(Number(here.volume)).toBeGreaterThan(Number(before.volume))
    }
  })
})

describe('the hold-up capacitor', () => {
  const x = { rest: 3.3, forwardVoltage: 0.3, limit: 2.9, current: 5e-3, time: 10e-3 }

  it('is 500 µF for 5 mA, 10 ms and 0.1 V, and 1 mF of those of which 60 % are left', () => {
    const found = sizeHoldUp(x)!
    expect(found.needed).toBeCloseTo(500e-6, 12)
    expect(found.value).toBe(1e-3)
    expect(sizeHoldUp(x, { left: 1, series: 'E12' })!.value).toBe(560e-6)
  })

  it('does not exist where the diode takes all there is', () => {
    expect(sizeHoldUp({ ...x, forwardVoltage: 0.4 })).toBeNull()
  })

  it('refuses what is not above 0', () => {
    expect(() => sizeHoldUp({ ...x, time: 0 })).toThrow(InputError)
    expect(() => sizeHoldUp({ ...x, current: Number.NaN })).toThrow(InputError)
    expect(() => sizeHoldUp(x, { left: 1.2 })).toThrow(InputError)
  })
})
