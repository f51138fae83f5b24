import type { Margin } from '@ohmward/budget'
import { plusMinus } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readDecoupling } from '../src/choice/read.js'
import { climb, followed } from '../src/search/climb.js'
import type { Plan } from '../src/search/plan.js'
import { at, base } from './exact-rail.js'

/* Worst cases of functions of two parts and of the loop's inductance, known on paper. */

const read = readDecoupling(base, at(3.7))
const inputs = { a: plusMinus(2, 0.5), b: plusMinus(-1, 0.25), L: plusMinus(3, 1) } as unknown as Plan['inputs']
type Parts = Readonly<Record<string, number>>
const withAll = (values: Parts) => ({ a: 2, b: -1, L: 3, ...values })
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const same = (x: number) => x

describe('a climb', () => {
  it('ends at the ends of what only rises or falls, and never outside any range', () => {
    fc.assert(
      fc.property(number(-2, 2), number(-2, 2), number(-2, 2), (x, y, z) => {
        const value = (values: Parts) => x * withAll(values).a! + y * withAll(values).b! + z * withAll(values).L!
        const found = climb({ read, inputs, at: value }, {}, same, same)
        const most = x * (2 + 0.5 * Math.sign(x)) + y * (-1 + 0.25 * Math.sign(y)) + z * (3 + Math.sign(z))
        // A step that is worth less than a millionth isn't gone.
        expect(Math.abs(found.worst - most)).toBeLessThan(4e-6 * (Math.abs(x) + Math.abs(y) + Math.abs(z)) * 4)
        for (const [name, from, to] of [
          ['a', 1.5, 2.5],
          ['b', -1.25, -0.75],
          ['L', 2, 4],
        ] as const) {
          expect(withAll(found.at)[name]).toBeGreaterThanOrEqual(from)
          expect(withAll(found.at)[name]).toBeLessThanOrEqual(to)
        }
      }),
    )
  })

  it('finds the top of a hill inside the spread of the inductance to an eighth of it, and says how far it stands out', () => {
    fc.assert(
      fc.property(number(2.1, 3.9), (top) => {
        const value = (values: Parts) => 10 - (withAll(values).L! - top) ** 2
        const found = climb({ read, inputs, at: value }, {}, same, same)
        expect(found.worst).toBeLessThanOrEqual(10)
        // Places lie a quarter apart: the nearest is an eighth away at most, and a step of a millionth isn't gone.
        expect(found.worst).toBeGreaterThan(10 - 0.125 ** 2 - 1e-4)
        if (found.turns > 0) expect(found.worst - found.turns).toBeGreaterThanOrEqual(value({}) - 1e-12)
      }),
    )
  })
})

describe('a margin that was searched by a value which is nearly right', () => {
  const plan = { read, inputs, conditions: [], at: (values: Parts) => withAll(values) } as unknown as Plan
  const near = (y: Parts) => y.a! - y.b!
  const exactBy = (shift: number) => (y: Parts) => near(y) + shift
  const searched = (limit: number, verdict: Margin['verdict'], sense: Margin['sense'] = 'at most'): Margin => {
    const [worst, sign] = sense === 'at most' ? [2.5 + 1.25, 1] : [1.5 + 0.75, -1]
    const place = sense === 'at most' ? { a: 2.5, b: -1.25 } : { a: 1.5, b: -0.75 }
    const slack = sign * (limit - worst)
    return {
      ...{ id: 'x', name: 'x', unit: 'V', sense, limit, nominal: 3, worst, slack, nominalSlack: sign * (limit - 3) },
      ...{ verdict, at: place, catches: [] },
    }
  }
  const asked = (margin: Margin, shift: number) => followed(plan, margin, near as never, exactBy(shift) as never)

  it('fails where the exact value breaks the limit, and holds where it keeps it, on either side', () => {
    fc.assert(
      fc.property(number(3, 4.5), number(-0.5, 0.5), (limit, shift) => {
        const margin = searched(limit, limit < 3.75 ? 'fails' : 'holds')
        const slack = limit - (3.75 + shift)
        fc.pre(Math.abs(slack) > 1e-9)
        const found = asked(margin, shift)
        expect(found.slack).toBeCloseTo(slack, 12)
        expect(found.worst).toBeCloseTo(3.75 + shift, 12)
        expect(found.nominal).toBeCloseTo(3 + shift, 12)
        expect(found.nominalSlack).toBeCloseTo(limit - 3 - shift, 12)
        expect(found.verdict).toBe(slack < 0 ? 'fails' : 'holds')
        expect(found.at).toEqual(margin.at)
      }),
    )
    fc.assert(
      fc.property(number(1.5, 3), number(-0.5, 0.5), (limit, shift) => {
        const slack = 2.25 + shift - limit
        fc.pre(Math.abs(slack) > 1e-9)
        const found = asked(searched(limit, limit > 2.25 ? 'fails' : 'holds', 'at least'), shift)
        expect(found.slack).toBeCloseTo(slack, 12)
        expect(found.verdict).toBe(slack < 0 ? 'fails' : 'holds')
      }),
    )
  })

  it('keeps what a probability decided, and a probability that is not certain, but none that the exact value denies', () => {
    // A limit that the worst case breaks and so many boards keep that it was accepted.
    const accepted = asked({ ...searched(3.5, 'holds'), probability: 0.999 }, 0.01)
    expect(accepted).toMatchObject({ verdict: 'holds', probability: 0.999 })
    expect(asked({ ...searched(3.9, 'holds'), probability: 1 }, 0.2)).not.toHaveProperty('probability')
    expect(asked({ ...searched(3.9, 'holds'), probability: 1 }, 0.2).verdict).toBe('fails')
  })
})
