import { describe, expect, it } from 'vitest'
import { checkDecoupling, type DecouplingChoice } from '../src/index.js'
import { at, base, bulk } from './exact-rail.js'

describe('the derivation of several kinds', () => {
  it('has what is left of each, and of all together, and no time constant that would be neither', () => {
    const choice: DecouplingChoice = {
      ...base,
      capacitors: [
        { ...bulk, count: 2, seriesResistance: 0.012 },
        { ...bulk, name: 'ceramic', capacitance: 47e-6, seriesResistance: 3e-3, bias: '0 V: 1, 3 V: 0.7, 4 V: 0.5' },
      ],
      load: { resistance: 0.7 },
      limits: { brownOut: 3 },
    }
    const { derivation, values } = checkDecoupling(choice, at(3.5), { simulation: false })
    const one = (symbol: string) => derivation.find((step) => step.symbol === symbol)!
    expect(one('C_1').value).toBeCloseTo(2e-3, 12)
    expect(one('C_2').value).toBeCloseTo(47e-6 * 0.6, 12)
    expect(one('C')).toMatchObject({ expression: 'C_1 + C_2', value: one('C_1').value + one('C_2').value })
    expect(one('ESR').value).toBeCloseTo(1 / (1 / 0.006 + 1 / 0.003), 12)
    expect(values['ESR']).toBe(one('ESR').value)
    expect(derivation.map(({ symbol }) => symbol)).not.toContain('tau_R')
  })
})
