import { InputError } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { averaged, toCode, toVolts, transition } from '../src/index.js'

const scale = { bits: 3, reference: 8 }
const centred = { ...scale, transitions: 'centred' } as const

describe('codes of a three-bit converter over 8 V, one volt a count', () => {
  it.each([
    [0, 0, 'no'],
    [0.999, 0, 'no'],
    [1, 1, 'no'],
    [7, 7, 'no'],
    [7.999, 7, 'no'],
    [8, 7, 'above'],
    [9, 7, 'above'],
    [-0.001, 0, 'below'],
  ] as const)('truncating: %s V is code %s, clipped: %s', (volts, code, clipped) => {
    expect(toCode(volts, scale)).toEqual({ code, clipped })
  })

  it.each([
    [-0.6, 0, 'below'],
    [-0.5, 0, 'no'],
    [0.499, 0, 'no'],
    [0.5, 1, 'no'],
    [6.5, 7, 'no'],
    [7.499, 7, 'no'],
    [7.5, 7, 'above'],
  ] as const)('centred: %s V is code %s, clipped: %s', (volts, code, clipped) => {
    expect(toCode(volts, centred)).toEqual({ code, clipped })
  })

  it('stands for the middle of its step', () => {
    expect([0, 1, 7].map((code) => toVolts(code, scale))).toEqual([0.5, 1.5, 7.5])
    expect([0, 1, 7].map((code) => toVolts(code, centred))).toEqual([0, 1, 7])
  })

  it('has its transitions where the first is at one count, or at half', () => {
    expect([0, 1, 7].map((code) => transition(code, scale))).toEqual([null, 1, 7])
    expect([0, 1, 7].map((code) => transition(code, centred))).toEqual([null, 0.5, 6.5])
  })

  it.each([
    [() => toCode(NaN, scale), 'volts'],
    [() => toCode(Infinity, scale), 'volts'],
    [() => toCode(1, { ...scale, bits: 3.5 }), 'bits'],
    [() => toCode(1, { ...scale, bits: 33 }), 'bits'],
    [() => toCode(1, { ...scale, bits: 0 }), 'bits'],
    [() => toCode(1, { ...scale, reference: 0 }), 'reference'],
    [() => toCode(1, { ...scale, reference: Infinity }), 'reference'],
    [() => toCode(1, { ...scale, transitions: 'x' as 'centred' }), 'transitions'],
    [() => toVolts(8, scale), 'code'],
    [() => toVolts(-1, scale), 'code'],
    [() => transition(1.5, scale), 'code'],
    [() => averaged(-1, 4), 'noise'],
    [() => averaged(NaN, 4), 'noise'],
    [() => averaged(1, 0), 'samples'],
    [() => averaged(1, 2.5), 'samples'],
    [() => averaged(1, 2 ** 21), 'samples'],
  ] as const)('refuses bad input, case %#', (act, field) => {
    const error = (() => {
      try {
        return act()
      } catch (e) {
        return e
      }
    })()
    expect(error).toBeInstanceOf(InputError)
    expect((error as InputError).field).toBe(field)
  })
})

describe('averaging', () => {
  it('leaves one sample its half count and its noise', () => {
    expect(averaged(0.3, 1)).toEqual({ halfWidth: 0.5, noise: 0.3, dithered: false })
  })

  it('gains nothing without noise', () => {
    expect(averaged(0, 64)).toEqual({ halfWidth: 0.5, noise: 0, dithered: false })
  })

  it('leaves nearly nothing of the rounding with a count of noise', () => {
    const { halfWidth, noise, dithered } = averaged(1, 64)
    expect(dithered).toBe(true)
    expect(halfWidth).toBeLessThan(1e-8)
    expect(noise).toBeCloseTo(Math.sqrt((1 + 1 / 12) / 64), 12)
  })
})
