import { describe, expect, it } from 'vitest'
import { toTex } from '../../docs/.vitepress/math/typeset.js'
import { unitOver, unitText } from '../../docs/.vitepress/theme/numbers.js'

describe('a unit over another', () => {
  it.each([
    ['K', 'K/W', 'W'],
    ['A', 'V/K', 'A·K/V'],
    ['A', 'V/A', 'A²/V'],
    ['ohm', '1/K', 'Ω·K'],
    ['V/A', 'K', 'V/(A·K)'],
    ['K', 'V/Hz^0.5', 'K·√Hz/V'],
    ['V', '1', 'V'],
    ['1', 'V', '1/V'],
    ['V', 'V', ''],
  ])('%s over %s is %s', (unit, by, text) => expect(unitOver(unit, by)).toBe(text))

  it('raises powers', () => {
    expect(['s^-1', '1/K^2', '1/K^4'].map(unitText)).toEqual(['s⁻¹', '1/K²', '1/K⁴'])
  })
})

describe('a logarithm', () => {
  it.each([
    ['20 * log(a / b) / log(10)', '20\\,\\lg\\left(\\frac{a}{b}\\right)'],
    ['log(n) / log(4)', '\\log_{4}\\left(n\\right)'],
    ['20 * log(2) / log(10)', '20\\,\\lg\\left(2\\right)'],
    ['a * log(t / s) / log(10)', 'a\\,\\lg\\left(\\frac{t}{s}\\right)'],
    ['log(x) / log(y)', '\\frac{\\ln\\left(x\\right)}{\\ln\\left(y\\right)}'],
  ])('%s is set as in a handbook', (expression, tex) => expect(toTex(expression)).toBe(tex))
})
