import { describe, expect, it } from 'vitest'
import { checkDivider, dividerOverRail, sizeDivider } from '../src/index.js'
import { cell, knife } from './design.js'

const load = { from: '0.1 ohm', to: '2 ohm', nominal: '0.5 ohm' }
const check = (error: unknown) => checkDivider({ ...knife, load, error } as never, cell, { simulation: false })

describe('an error wanted at each load', () => {
  const alike = check('2 %')
  const nominal = check({ nominal: '2 %' })
  const own = check({ smallest: '40 mohm', nominal: '2 %', largest: '10 %' })
  const limits = ({ margins }: typeof own) =>
    Object.fromEntries(margins.filter(({ id }) => id.startsWith('error-')).map(({ id, limit }) => [id, limit]))

  it('is held there, and where none is given nothing is', () => {
    expect(limits(alike)).toEqual({
      'error-smallest': 0.02 * 0.1,
      'error-nominal': 0.02 * 0.5,
      'error-largest': 0.02 * 2,
    })
    expect(limits(nominal)).toEqual({ 'error-nominal': 0.02 * 0.5 })
    expect(limits(own)).toEqual({ 'error-smallest': 0.04, 'error-nominal': 0.02 * 0.5, 'error-largest': 0.1 * 2 })
  })

  it('is no bare number, as text or not: that could be a share or ohms, and a slip would allow 5 ohm, or 50 %', () => {
    for (const error of ['5', ' 0.05 ', { nominal: '5' }, { largest: 0.1 }, '', 0.5, { nominal: 0.02 }])
      expect(() => check(error)).toThrow(
        /^error.* = .*: allowed is a share of the reading such as "3 %", or a resistance such as "20 mohm"/,
      )
    expect(limits(check(' 5% '))).toMatchObject({ 'error-nominal': 0.05 * 0.5 })
    expect(limits(check('10m ohm'))).toMatchObject({ 'error-nominal': 0.01 })
  })

  it('moves no error, and leaves the budgets of all three', () => {
    for (const one of [nominal, own]) {
      expect(Object.keys(one.budgets).sort()).toEqual(Object.keys(alike.budgets).sort())
      for (const [name, { extremes, linear }] of Object.entries(one.budgets)) {
        expect(extremes).toEqual(alike.budgets[name]!.extremes)
        expect(linear.u).toBe(alike.budgets[name]!.linear.u)
      }
    }
  })

  it('asks for a count that is fine enough where it is held', () => {
    // A count is coarser by (1 + R_x/R_ref)²; of 2 mohm, 10 mohm and 40 mohm the half is allowed.
    const count = ({ margins }: typeof own) => margins.find(({ id }) => id === 'resolution')!.limit
    expect(count(alike)).toBeCloseTo(0.002 / 2, 12)
    expect(count(nominal)).toBeCloseTo(0.01 / 2, 12)
    expect(count(own)).toBeCloseTo(0.01 / 2, 12)
  })

  it('tells an open load from the largest by what is held at the next, where none is held there', () => {
    const room = ({ margins }: typeof own) => margins.find(({ id }) => id === 'open-load')!.slack
    expect(room(nominal)).toBeCloseTo(room(alike), 12)
    expect(dividerOverRail({ ...knife, load, error: { largest: '30 mohm' } } as never, cell, 2).allowed).toBe(0.03)
  })

  it('may be a share of a load that may be 0 ohm, where it is not held there', () => {
    const none = { ...knife, load: { from: 0, to: '2 ohm' } }
    expect(() => checkDivider({ ...none, error: { smallest: '2 %' } }, cell)).toThrow(
      /^error\.smallest = "2 %": .*"20 mohm"/,
    )
    const { margins } = checkDivider({ ...none, error: { largest: '2 %' } }, cell, { simulation: false })
    expect(margins.filter(({ id }) => id.startsWith('error-')).length).toBe(1)
    expect(margins.every(({ slack, limit }) => Number.isFinite(slack) && Number.isFinite(limit))).toBe(true)
  })

  it('is what sizing looks for', () => {
    const { reference: _, gainResistors: __, ...rest } = knife
    const size = (error: unknown) =>
      sizeDivider({ ...rest, load, error, rail: cell.rail, tolerance: '0.1 %', most: 1 } as never)
    const { choices } = size({ nominal: '6 %' })
    expect(choices[0]!.choice.error).toEqual({ nominal: '6 %' })
    expect(choices[0]!.assessment.verdict).toBe('holds')
  })
})
