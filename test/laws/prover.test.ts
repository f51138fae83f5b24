import type { AnyFormula } from '@ohmward/budget'
// Bare, as the packages take it: what the other one refuses comes to the proof here.
import { formula } from '@ohmward/budget/formula'
import { describe, expect, it } from 'vitest'
import { math } from '../tools/prove/math.js'
import { faultsOf } from '../tools/prove/prove.js'
import { typeset } from '../tools/prove/typeset.js'

const right = {
  symbol: 'V_x',
  quantity: 'sense voltage',
  unit: 'V',
  inputs: { V_exc: ['V', 1, 5], R_ref: ['ohm', 10, 1000], R_x: ['ohm', 0.01, 10] },
  expression: 'V_exc * R_x / (R_ref + R_x)',
  compute: (x: Readonly<Record<string, number>>) => (x.V_exc! * x.R_x!) / (x.R_ref! + x.R_x!),
  source: 'Kirchhoff',
} as const

const faults = (more: Record<string, unknown>) => faultsOf(wrap({ ...right, ...more }), typeset)

/** `formula` marks the function that it is given: each case needs a function of its own. */
const wrap = (text: any): AnyFormula => formula({ ...text, compute: (x: any) => text.compute(x) }) as AnyFormula

describe('the proof of formulas lets a right one pass', () => {
  it.each([
    ['a quotient', {}],
    [
      'a constant',
      {
        inputs: { R_x: ['ohm', 1, 10] },
        unit: 'ohm',
        expression: '2 * pi * R_x',
        compute: (x: any) => 2 * Math.PI * x.R_x,
      },
    ],
    [
      'temperatures and their difference',
      {
        symbol: 'R_T',
        unit: 'ohm',
        inputs: { R_0: ['ohm', 0.1, 1], alpha: ['1/K', 1e-4, 5e-3], T_a: ['degC', -20, 60], T_0: ['degC', 20, 25] },
        expression: 'R_0 * (1 + alpha * (T_a - T_0))',
        compute: (x: any) => x.R_0 * (1 + x.alpha * (x.T_a - x.T_0)),
      },
    ],
    [
      'a temperature',
      {
        symbol: 'T_j',
        unit: 'degC',
        inputs: { T_a: ['degC', -20, 60], R_th: ['K/W', 1, 100], P: ['W', 0, 3] },
        expression: 'T_a + R_th * P',
        compute: (x: any) => x.T_a + x.R_th * x.P,
      },
    ],
    [
      'counts',
      {
        symbol: 'N',
        unit: 'count',
        inputs: { V_in: ['V', 0, 3], V_LSB: ['V/count', 1e-4, 1e-2] },
        expression: 'V_in / V_LSB',
        compute: (x: any) => x.V_in / x.V_LSB,
      },
    ],
    [
      'a decibel',
      {
        symbol: 'k',
        unit: '1',
        inputs: { CMRR_dB: ['dB', 40, 120] },
        expression: '10^(-CMRR_dB / 20)',
        compute: (x: any) => 10 ** (-x.CMRR_dB / 20),
      },
    ],
    [
      'noise over a root of hertz',
      {
        symbol: 'V_n',
        unit: 'V',
        inputs: { e_n: ['V/Hz^0.5', 1e-9, 1e-6], B: ['Hz', 1, 1e6] },
        expression: 'e_n * sqrt(B)',
        compute: (x: any) => x.e_n * Math.sqrt(x.B),
      },
    ],
    [
      'a clipped value that says so',
      {
        symbol: 'V_out',
        smooth: false,
        inputs: { V_want: ['V', 0, 6], V_max: ['V', 2, 5] },
        expression: 'min(V_want, V_max)',
        compute: (x: any) => Math.min(x.V_want, x.V_max),
      },
    ],
    [
      'a difference that cancels in doubles, computed the better way',
      {
        symbol: 'q',
        unit: '1',
        inputs: { t: ['s', 1e-9, 1], tau: ['s', 1e-2, 1] },
        expression: '1 - exp(-t / tau)',
        compute: (x: any) => -Math.expm1(-x.t / x.tau),
      },
    ],
  ])('%s', (_, more) => {
    expect(faults(more)).toEqual([])
  })
})

describe('the proof of formulas catches', () => {
  it.each([
    ['a wrong sign', { compute: (x: any) => (x.V_exc * x.R_x) / (x.R_ref - x.R_x) }, /expression .* at/],
    [
      'a difference in the eighth digit',
      { compute: (x: any) => ((x.V_exc * x.R_x) / (x.R_ref + x.R_x)) * (1 + 1e-8) },
      /expression .* at/,
    ],
    ['a wrong unit', { unit: 'A' }, /^units: comes out in V, declared A/],
    ["a unit that isn't coherent", { unit: 'mV' }, /not coherent/],
    ['a plain number with a unit', { unit: '1' }, /^units: comes out in V/],
    [
      'volts added to amperes',
      {
        inputs: { V_exc: ['V', 1, 5], R_x: ['A', 1, 5] },
        expression: 'V_exc + R_x',
        compute: (x: any) => x.V_exc + x.R_x,
      },
      /^units: /,
    ],
    [
      'a missing symbol that is the name of a unit',
      { inputs: { V_exc: ['V', 1, 5] }, expression: 'V_exc * A', compute: (x: any) => x.V_exc },
      /symbol A is no input/,
    ],
    [
      'a missing symbol that is a constant',
      { inputs: { V_exc: ['V', 1, 5] }, expression: 'V_exc * e', compute: (x: any) => x.V_exc * Math.E },
      /symbol e is no input/,
    ],
    ['an input that is never read', { inputs: { ...right.inputs, I: ['A', 0, 1] } }, /input I isn't in the expression/],
    ['no source', { source: ' ' }, /source is empty/],
    ['a word of the language as a symbol', { symbol: 'in' }, /symbol in is a word/],
    ['a symbol with two underscores', { symbol: 'V_x_y' }, /symbol V_x_y isn't/],
    ['an implicit multiplication', { expression: 'V_exc R_x / (R_ref + R_x)' }, /implicit multiplication/],
    [
      'a call that was meant as a product',
      { expression: 'V_exc (R_x / (R_ref + R_x))' },
      /function V_exc isn't allowed/,
    ],
    ['a number with a unit', { expression: '5 A * V_exc * R_x / (R_ref + R_x)' }, /implicit multiplication/],
    ['a transposition', { expression: "V_exc' * R_x / (R_ref + R_x)" }, /operator ctranspose/],
    ['a percentage', { expression: 'V_exc * R_x / (R_ref + R_x) + V_exc * 5%' }, /or a %/],
    ['an assignment', { expression: 'a = V_exc * R_x / (R_ref + R_x)' }, /AssignmentNode isn't allowed/],
    ['a comment', { expression: 'V_exc * R_x / (R_ref + R_x) # loaded' }, /comment/],
    ['two statements', { expression: 'V_exc * R_x\nR_ref' }, /newline/],
    ['what does not parse', { expression: 'V_exc * (R_x' }, /does not parse/],
    [
      'a pole inside the ranges',
      {
        compute: (x: any) => Math.sqrt(x.R_x - x.V_exc),
        expression: 'sqrt(R_x - V_exc)',
        inputs: { V_exc: ['V', 1, 5], R_x: ['V', 1, 5] },
      },
      /compute gives NaN/,
    ],
    [
      'a kink that is kept quiet',
      {
        inputs: { V_a: ['V', 1, 5], V_b: ['V', 1, 5] },
        expression: 'min(V_a, V_b)',
        compute: (x: any) => Math.min(x.V_a, x.V_b),
      },
      /say smooth: false/,
    ],
    ["a kink that isn't there", { smooth: false }, /has no kink/],
    ['a range upside down', { inputs: { ...right.inputs, R_x: ['ohm', 10, 1] } }, /range of R_x/],
  ] as [string, Record<string, unknown>, RegExp][])('%s', (_, more, fault) => {
    expect(faults(more).join('\n')).toMatch(fault)
  })

  it("an expression that does not typeset, or typesets with the reader's escapes", () => {
    const f = wrap(right)
    expect(
      faultsOf(f, () => {
        throw new Error('no')
      }),
    ).toEqual(['does not typeset: no'])
    expect(faultsOf(f, (expression) => math.parse(expression).toTex())[0]).toMatch(/^typesets badly/)
  })
})
