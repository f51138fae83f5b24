import { between, plusMinus } from '@ohmward/quantity'
import { cutOffAt, readCell, readStandby, shelfLife } from '@ohmward/supply'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { boards, some, spans, spread } from './boards.js'

/*
 * What feeds a rail against a model of its own: every board that the tolerances allow at their ends, by Ohm's law, a search
 * or a sum. Where each input goes one way, the limits that are said are those of the worst boards, neither less nor more.
 */

describe('a drawer and a cut-off, board by board', () => {
  const given = { openCircuit: '0: 2.4 V, 1: 4.2 V', temperatureFactor: '-20 degC: 1, 60 degC: 1' } as const
  /** Of a cell that is off its curve by one error at any charge, and by another as it empties: by halving. */
  const charge = (volts: number, mid = 0, low = 0) => {
    const rest = (q: number) => 2.4 + 1.8 * q + mid + low * Math.min(1, Math.max(0, (0.25 - q) / 0.15))
    let [from, to] = [0, 1]
    for (let i = 0; i < 60; i++) {
      const middle = (from + to) / 2
      if (rest(middle) < volts) from = middle
      else to = middle
    }
    return to
  }

  it('lasts as long as the charge over all that draws, each board for itself', () => {
    fc.assert(
      fc.property(
        fc.tuple(spread(1000, 9000), some(0.005, 0.05), spread(0.01, 0.04), some(0.005, 0.15)),
        spread(1e-5, 1e-3),
        spread(1e5, 1e7),
        fc.tuple(some(0.4, 1), some(0, 1), fc.integer({ min: 1, max: 3 })),
        ([Q, off, s, empty], I, R, [start, age, inSeries]) => {
          const more = {
            capacity: Q,
            openCircuitSpread: off,
            openCircuitSpreadEmpty: empty,
            selfDischarge: s,
            capacityLeft: 0.7,
            inSeries,
          }
          const cell = readCell({
            ...given,
            ...more,
            resistance: 0.03,
            continuousCurrent: 9,
            lowestVoltage: 3,
            damageVoltage: 2.6,
          })
          const standby = readStandby([
            { name: 'part', current: I },
            { name: 'divider', resistance: R },
          ])
          const { daysToCutOff, daysToDamage, current, drains } = shelfLife(cell, standby, { charge: start, age })
          const month = 365.25 / 12
          const days = (coulombs: number, from: number, to: number, amperes: number, share: number) =>
            (coulombs * Math.max(0, from - to)) / (amperes * 86400 + (coulombs * share) / month)
          const [errors, last] = [between(-off, off, 0), between(-empty, empty, 0)]
          const full = (e: number) => inSeries * (4.2 + e)
          const aged = 1 - 0.3 * age
          // The divider counts with the full cells, whatever the cell at hand.
          const drawn = boards(I, R, errors).map(([A, ohms, e]) => A! + full(e!) / ohms!)
          const [least, most] = [Math.min(...drawn), Math.max(...drawn)]
          const all = boards(Q, errors, last, s).flatMap(([c, e, l, share]) =>
            [least, most].map((A) => days(c! * aged, start, charge(3, e, l), A, share!)),
          )
          spans(
            daysToCutOff,
            all,
            days(Q.nominal * aged, start, charge(3), I.nominal + full(0) / R.nominal, s.nominal),
            8,
          )
          if (daysToCutOff.lower < daysToCutOff.upper) expect(daysToCutOff.distribution.kind).toBe('rectangular')
          const later = boards(Q, errors, last, s).flatMap(([c, e, l, share]) =>
            [least, most].map((A) => days(c! * aged, charge(3, e, l), charge(2.6, e, l), A, share!)),
          )
          expect(daysToDamage.lower / Math.max(...later)).toBeCloseTo(Math.min(...later) / Math.max(...later), 8)
          expect(daysToDamage.upper / Math.max(...later)).toBeCloseTo(1, 8)
          expect(current.upper).toBeCloseTo(most + (Q.upper * aged * s.upper) / month / 86400, 9)
          const names = I.upper >= full(off) / R.lower ? ['part', 'divider'] : ['divider', 'part']
          expect(drains.map(({ name }) => name)).toEqual([...names, 'self-discharge'])
        },
      ),
    )
  })

  it('lands where the threshold is reached: at rest, under load, or under load made up for', () => {
    const cell = readCell({
      ...given,
      capacity: 7200,
      resistance: 0.03,
      openCircuitSpread: 0,
      openCircuitSpreadEmpty: 0,
      continuousCurrent: 9,
      damageVoltage: 2.5,
    })
    fc.assert(
      fc.property(
        spread(2.8, 3.4),
        spread(1, 10),
        spread(0.01, 0.08),
        spread(0.1, 0.4),
        some(0, 1),
        (V, I, R, H, share) => {
          const used = { current: 8, resistance: share * R.upper }
          const brownOut = plusMinus(2.4, 0.1)
          const rest = { threshold: V, current: I, resistance: R, hysteresis: H, noise: 0.01, brownOut }
          const lands = { 'at rest': [0, 0], 'under load': [0, 1], 'made up': [8 * used.resistance, 1] } as const
          for (const [name, [added, loaded]] of Object.entries(lands)) {
            const reads = name === 'made up' ? used : (name as 'at rest' | 'under load')
            const found = cutOffAt(cell, { ...rest, reads })
            const stop = boards(V, I, R).map(([v, A, ohms]) => v! - added + loaded * A! * ohms!)
            spans(found.rest, stop, V.nominal - added + loaded * I.nominal * R.nominal)
            expect(found.charge.lower).toBeCloseTo(charge(Math.min(...stop)), 9)
            expect(found.charge.upper).toBeCloseTo(charge(Math.max(...stop)), 9)
            spans(
              found.rebound,
              boards(I, R).map(([A, ohms]) => A! * ohms!),
              I.nominal * R.nominal,
            )
            expect(found.hysteresisSlack).toBeCloseTo(H.lower - I.upper * R.upper - 0.01, 9)
            expect(found.aboveDamage).toBeCloseTo(Math.min(...stop) - 2.5, 9)
            const rail = name === 'at rest' ? V.lower - I.upper * R.upper : V.lower - added
            expect(found.aboveReset).toBeCloseTo(rail - 2.5, 9)
            if (name === 'made up') expect(found.compensationSlack).toBeCloseTo(R.lower - used.resistance, 9)
            else expect(found.compensationSlack).toBeNull()
          }
        },
      ),
    )
  })
})
