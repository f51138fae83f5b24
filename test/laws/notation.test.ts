import * as adc from '@ohmward/adc/formulas'
import * as decoupling from '@ohmward/decoupling/formulas'
import * as divider from '@ohmward/divider/formulas'
import * as hall from '@ohmward/hall/formulas'
import * as mosfet from '@ohmward/mosfet/formulas'
import * as supply from '@ohmward/supply/formulas'
import { describe, expect, it } from 'vitest'
import { displayInPieces, piecesOf } from '../../docs/.vitepress/math/pieces.js'
import { inSymbols } from '../../docs/.vitepress/math/template.js'
import { toTemplate, toTex } from '../../docs/.vitepress/math/typeset.js'
import { percent, signed, unitOver, unitText } from '../../docs/.vitepress/theme/numbers.js'

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

it('a slack is never shown as more than there is', () => {
  expect(signed(-0.25441, 'V')).toBe('−255\u00a0mV')
  expect(signed(0.25461, 'V')).toBe('+254\u00a0mV')
})

it('a share is rounded to the side that is asked for, and what is whole stays whole', () => {
  expect([percent(1), percent(0)]).toEqual(['100\u00a0%', '0\u00a0%'])
  expect([percent(0.3524), percent(0.3524, 'up'), percent(0.3529, 'down')]).toEqual([
    '35.2\u00a0%',
    '35.3\u00a0%',
    '35.2\u00a0%',
  ])
  // 0.29 times a hundred is a little less than 29.
  expect([percent(0.29, 'down'), percent(0.07, 'up')]).toEqual(['29.0\u00a0%', '7.0\u00a0%'])
})

const formulas = { adc, decoupling, divider, hall, mosfet, supply }

describe('an equation in pieces', () => {
  const said = (mathML: string) => mathML.replace(/<[^>]*>|\u2061/g, '')
  const piecesIn = (expression: string) => piecesOf(inSymbols(toTemplate(expression))).map(said)

  it.each([
    ['a - b * (d + e)', ['a', '−b', '(d', '+e)']],
    ['-a + b / (c + d)', ['−a', '+bc+d']],
    ['min(a, b) - 1', ['min(a,', 'b)', '−1']],
    ['max(0, -a)', ['max(0,', '−a)']],
    ['a * (1 - b / c) + d', ['a', '(1−bc)', '+d']],
    ['exp(-t / (a + b)) + c', ['e−t/(a+b)', '+c']],
    ['sqrt(a + b)', ['a+b']],
  ])('may end its lines between the terms of %s', (expression, pieces) => expect(piecesIn(expression)).toEqual(pieces))

  it('says of every formula what it says in one piece, each piece with all of its ends', () => {
    const all = Object.values(formulas).flatMap((one) =>
      Object.values(one).filter((f) => typeof f === 'function' && 'expression' in f),
    )
    expect(all.length).toBeGreaterThan(300)
    for (const { expression } of all as readonly { readonly expression: string }[]) {
      const body = inSymbols(toTemplate(expression))
      const pieces = piecesOf(body)
      expect(pieces.map(said).join('')).toBe(said(body))
      for (const piece of pieces) {
        const open: string[] = []
        for (const [, end, name] of piece.matchAll(/<(\/?)(\w+)[^>]*>/g))
          if (end) expect(open.pop()).toBe(name)
          else open.push(name!)
        expect(open).toEqual([])
      }
      expect(displayInPieces('', body).match(/<math /g)).toHaveLength(pieces.length)
    }
  })
})
