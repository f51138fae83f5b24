import { describe, expect, it } from 'vitest'
import { inNumbers, inSymbols } from '../../docs/.vitepress/math/template.js'
import { toTemplate } from '../../docs/.vitepress/math/typeset.js'

/** What a reader sees of MathML: letters and signs, a fraction as `a/b` in brackets. */
const seen = (mathML: string) =>
  mathML
    .replace(/<mfrac>/g, '[')
    .replace(/<\/mfrac>/g, ']')
    .replace(/<mspace[^>]*><\/mspace>/g, ' ')
    .replace(/<[^>]*>/g, '')
    .replace(/\s+/g, ' ')

describe('a formula in a derivation', () => {
  it.each([
    ['(I_t + I_off) * R_span + V_stray', { I_off: 0, V_stray: 0 }, 'It Rspan'],
    ['(I_t + I_off) * R_span + V_stray', { V_stray: 0 }, '(It+Ioff) Rspan'],
    ['a - b + c * d', { b: 0 }, 'a+c d'],
    ['a - b', { a: 0 }, '−b'],
    ['c * (a - b)', { a: 0 }, 'c (−b)'],
    ['V * (1 + a)', { a: 0 }, 'V'],
    ['R + (1 - kappa) * W', { kappa: 1 }, 'R'],
    ['R + (1 - kappa) * W', { kappa: 0 }, 'R+W'],
    ['G / (1 + G * a)', { a: 0 }, 'G'],
    ['(a + b)^2', { b: 0 }, '(a)2'],
    ['x / (a + b)', { a: 0, b: 0 }, '[x0]'],
    ['a + b', {}, 'a+b'],
  ])('%s with %o known to be zero or one reads %s', (expression, values: Record<string, number>, wanted) => {
    expect(seen(inSymbols(toTemplate(expression), (symbol) => values[symbol]))).toBe(wanted)
  })

  it('leaves the same terms out where the numbers are put in', () => {
    const values: Record<string, number> = { I_t: 2, I_off: 0, R_span: 3, V_stray: 0 }
    const template = toTemplate('(I_t + I_off) * R_span + V_stray')
    expect(
      seen(
        inNumbers(
          template,
          (symbol) => [String(values[symbol]), ''],
          (symbol) => values[symbol],
        ),
      ),
    ).toBe('2·3')
    expect(seen(inSymbols(template))).toBe('(It+Ioff) Rspan+Vstray')
  })
})
