import { checkMosfet } from '@ohmward/mosfet'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { mosfetChoices, mosfetConditions } from '../tools/choices/mosfet.js'

/** Places in an answer whose number isn't finite. */
function oddNumbers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} = ${value}`]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, one]) => oddNumbers(one, `${path}.${key}`))
}

describe('any switch that can be written down', () => {
  it('gets an answer of finite numbers whose parts agree with each other', () => {
    const verdicts = new Set<string>()
    fc.assert(
      fc.property(mosfetChoices, mosfetConditions, (choice, around) => {
        const assessment = checkMosfet(choice, around, { simulation: false })
        const { verdict, margins, values, typical, worst, derivation } = assessment
        verdicts.add(verdict)
        expect(oddNumbers(assessment)).toEqual([])
        for (const { id, worst: at, limit, slack, sense, verdict: one } of margins) {
          expect([at, limit, slack].every(Number.isFinite), id).toBe(true)
          expect(Math.abs((sense === 'at least' ? at - limit : limit - at) - slack), id).toBeLessThanOrEqual(
            1e-9 * (Math.abs(at) + Math.abs(limit)) + 1e-15,
          )
          if (one === 'holds') expect(slack, id).toBeGreaterThanOrEqual(0)
        }
        for (const [symbol, value] of Object.entries(values)) expect(Number.isFinite(value), symbol).toBe(true)
        expect(derivation.length).toBeGreaterThan(25)
        // The worst board is never cooler than the typical one.
        const heat = (report: typeof worst) =>
          report.junction.kind === 'balance' ? report.junction.T_j : Number.POSITIVE_INFINITY
        expect(heat(worst)).toBeGreaterThanOrEqual(heat(typical) - 1e-6)
        if (typical.limitCurrent !== null)
          expect(worst.limitCurrent).toBeLessThanOrEqual(typical.limitCurrent * (1 + 1e-9))
        expect(verdict === 'holds').toBe(margins.every((margin) => margin.verdict === 'holds'))
      }),
      { numRuns: 120 },
    )
    expect(verdicts.size).toBeGreaterThan(1)
  })
})
