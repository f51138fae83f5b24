import { type Design, exampleDesign, readDesign, solveAt } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'

const withLoad = (load: Design['load']): Design => ({ ...exampleDesign, load })
const full = { charge: 1, celsius: 20, age: 0 }

describe('a load by its rating', () => {
  it('of 20 W ±5 % at 3.7 V is 0.6845 ohm, less 1/1.05, more 1/0.95', () => {
    const { resistance } = readDesign(withLoad({ ratedPower: '20 W ±5 %', ratedVoltage: '3.7 V' })).load
    expect(resistance.nominal).toBeCloseTo(3.7 ** 2 / 20, 12)
    expect(resistance.lower).toBeCloseTo(3.7 ** 2 / 21, 12)
    expect(resistance.upper).toBeCloseTo(3.7 ** 2 / 19, 12)
  })

  it('of 5 A at 3.5 V is 0.7 ohm, and draws what a resistance draws', () => {
    const rated = solveAt(readDesign(withLoad({ ratedCurrent: '5 A', ratedVoltage: '3.5 V', rise: '20 us' })), full)
    const plain = solveAt(readDesign(withLoad({ resistance: '0.7 ohm', rise: '20 us' })), full)
    expect(rated.current.nominal).toBeCloseTo(plain.current.nominal, 12)
    expect(rated.rail.lower).toBeCloseTo(plain.rail.lower, 12)
  })

  it('is that of the load at work: cold it has less, and the first current is larger', () => {
    const rating = { ratedPower: '20 W', ratedVoltage: '4 V', workingCelsius: 220, temperatureCoefficient: 1e-3 }
    const { own, current } = solveAt(readDesign(withLoad({ ...rating, rise: '20 us' })), full)
    // 0.8 ohm at 220 degC; 200 K colder a sixth less.
    expect(own.upper).toBeCloseTo(0.8, 12)
    expect(own.lower).toBeCloseTo(0.8 / 1.2, 12)
    const steady = solveAt(readDesign(withLoad({ resistance: '0.8 ohm', rise: '20 us' })), full)
    expect(current.upper).toBeGreaterThan(steady.current.upper)
  })

  it.each([
    [{}, /^load = "none of them": allowed is one of resistance, ratedPower, ratedCurrent/],
    [{ resistance: '1 ohm', ratedPower: '5 W' }, /^load = "resistance and ratedPower"/],
    [{ ratedPower: '5 W' }, /^load\.ratedVoltage = nothing/],
    [
      { resistance: '1 ohm', ratedVoltage: '3.7 V' },
      /^load\.ratedVoltage = 3\.7 V: allowed is nothing beside a resistance/,
    ],
    [{ power: '5 W' }, /^load = .*Unknown: power/],
    [
      { resistance: '1 ohm', workingCelsius: 220, temperatureCoefficient: -0.006 },
      /^load\.temperatureCoefficient = .*more than -0\.005/,
    ],
    [
      { resistance: '1 ohm', temperatureCoefficient: 0.015 },
      /^load\.temperatureCoefficient = .*less than 0\.0133.*-55 degC/,
    ],
  ])('%o is refused', (load, message) => {
    const design = { ...withLoad(load as Design['load']), ambientCelsius: { from: '-55 degC', to: '20 degC' } }
    expect(() => readDesign(design)).toThrow(message)
  })
})
