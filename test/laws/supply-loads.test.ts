import type { Spread } from '@ohmward/quantity'
import {
  dutyFor,
  feed,
  type LoadCorner,
  powerLimit,
  readLoad,
  readSupply,
  type SourceCorner,
  solveLoad,
  sourceAt,
} from '@ohmward/supply'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { boards, ends, possible, some, spread } from './boards.js'

/*
 * What feeds a rail against a model of its own: every board that the tolerances allow at their ends, by Ohm's law, a search
 * or a sum. Where each input goes one way, the limits that are said are those of the worst boards, neither less nor more.
 */

describe('a load on a source', () => {
  const corner = fc.tuple(some(1, 13), some(1e-3, 2), fc.option(some(0.05, 10), { nil: undefined }))
  const sourceOf = ([V_oc, R_s, I_lim]: [number, number, number | undefined]): SourceCorner => ({
    V_oc,
    R_s,
    ...(I_lim !== undefined && { I_lim }),
  })
  /** The most that any current may give, by trying ten thousand of them. */
  const most = ({ V_oc, R_s, I_lim = Infinity }: SourceCorner) => {
    const largest = Math.min(V_oc / R_s, I_lim)
    return Math.max(
      ...Array.from({ length: 10_001 }, (_, i) => (largest * i) / 10_000).map((I) => I * (V_oc - I * R_s)),
    )
  }

  it('stands where both laws meet: of a resistance, of a power, of a current, up to the limit of the source', () => {
    fc.assert(
      fc.property(corner, some(0.01, 20), some(0, 1), some(0, 1.2), (given, R_L, duty, share) => {
        const source = sourceOf(given)
        const { V_oc, R_s, I_lim = Infinity } = source
        const free = V_oc / (R_s + R_L)
        const on = possible(solveLoad(source, { kind: 'pwm', R_L, d_on: duty }))
        expect(on.current).toBeCloseTo(Math.min(free, I_lim), 9)
        expect(on.rail).toBeCloseTo(Math.min(free, I_lim) * R_L, 9)
        expect(on.mean).toBeCloseTo(on.current * duty, 9)
        expect(on.power).toBeCloseTo(on.current * on.rail * duty, 9)
        expect(on.isLimited).toBe(free > I_lim)
        expect(possible(solveLoad(source, { kind: 'resistance', R_L })).power).toBeCloseTo(on.current * on.rail, 9)

        const limit = most(source)
        expect(powerLimit(source) / limit).toBeCloseTo(1, 6)
        const P_L = share * limit
        const held = solveLoad(source, { kind: 'power', P_L })
        expect(held.kind).toBe(share <= 1 ? 'possible' : 'impossible')
        if (held.kind === 'possible') {
          expect(held.current * held.rail).toBeCloseTo(P_L, 9)
          expect(held.rail).toBeCloseTo(V_oc - held.current * R_s, 9)
          expect(held.current).toBeLessThanOrEqual(Math.min(I_lim, V_oc / R_s / 2) * (1 + 1e-9))
        } else expect(held.largestPower / limit).toBeCloseTo(1, 6)

        const part = dutyFor(source, R_L, P_L)
        const whole = on.current * on.rail
        if (P_L > whole) expect(part).toMatchObject({ kind: 'impossible', largestPower: expect.closeTo(whole, 9) })
        else expect(possible(part).duty).toBeCloseTo(P_L / whole, 9)

        const set = (share * V_oc) / R_s
        const forced = solveLoad(source, { kind: 'current', I_set: set })
        expect(forced.kind).toBe(share < 1 && set <= I_lim ? 'possible' : 'impossible')
        if (forced.kind === 'possible') expect(forced.rail).toBeCloseTo(V_oc - set * R_s, 9)
        else expect(forced.reason).toMatch(share < 1 ? /the source limits at/ : /nothing is left/)
      }),
    )
  })

  it('over tolerances spans every board, and no more than the worst of them', () => {
    fc.assert(
      fc.property(
        spread(3, 12),
        spread(0.02, 1),
        spread(0.3, 5),
        spread(0.2, 3),
        spread(0.2, 0.7),
        (V, R, I, R_L, d) => {
          const port = { kind: 'port', voltage: V, currentLimit: I, leadResistance: R } as const
          const source = sourceAt(readSupply({ source: port }), { celsius: 20 })
          const found = feed(source, readLoad({ kind: 'pwm', resistance: R_L, duty: d }))
          const inside = (s: Spread) => Array.from({ length: 9 }, (_, i) => s.lower + ((s.upper - s.lower) * i) / 8)
          const tried = boards(V, R, I).flatMap(([V_oc, R_s, I_lim]) =>
            // Matched to the source, and at the knee of its limit, a load takes most.
            [...inside(R_L), R_s!, V_oc! / I_lim! - R_s!]
              .filter((ohms) => ohms >= R_L.lower && ohms <= R_L.upper)
              .flatMap((ohms) =>
                ends(d).map((d_on) => {
                  const load: LoadCorner = { kind: 'pwm', R_L: ohms, d_on }
                  return possible(solveLoad({ V_oc: V_oc!, R_s: R_s!, I_lim: I_lim! }, load))
                }),
              ),
          )
          const { current, mean, rail, power, mayLimit } = possible(found)
          for (const [said, key] of [
            [current, 'current'],
            [mean, 'mean'],
            [rail, 'rail'],
            [power, 'power'],
          ] as const) {
            const values = tried.map((one) => one[key])
            expect(said.lower).toBeCloseTo(Math.min(...values), 9)
            expect(said.upper).toBeCloseTo(Math.max(...values), 9)
          }
          expect(mayLimit).toBe(tried.some(({ isLimited }) => isLimited))
        },
      ),
      { numRuns: 60 },
    )
  })
})
