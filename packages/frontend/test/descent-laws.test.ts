import { plainMargin } from '@ohmward/budget'
import { InputError } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { rowsOver } from '../src/answer/rows.js'
import { now } from '../src/answer/run.js'
import type { Span } from '../src/supply/place.js'
import type { Walk } from '../src/walk/walk.js'

const text = { id: 'a', name: 'rail', unit: 'V', sense: 'at least', catches: [] } as const
const charges = [1, 0.8, 0.6, 0.4, 0.2]
const states = [0, 20, 40].flatMap((celsius) => [0, 1].map((age) => ({ celsius, age })))

/**
 * A walk with one row, which at a state holds down to a charge of its own; less a doubt where several places are taken at once. Below
 * another charge its block refuses the supply.
 */
function walkOf(holdsDownTo: (celsius: number, age: number) => number, { doubt = 0, refusedBelow = -1 } = {}): Walk {
  const stage = { block: 'hall', state: 'load on' }
  const over = ({ charge, celsius, age }: Span) => {
    const isPlace = charge.from === charge.to && celsius.from === celsius.to && age.from === age.to
    const inside = states.filter(
      (one) => one.celsius >= celsius.from && one.celsius <= celsius.to && one.age >= age.from && one.age <= age.to,
    )
    const slack =
      charge.to - Math.max(...inside.map((one) => holdsDownTo(one.celsius, one.age))) - (isPlace ? 0 : doubt)
    const refused = charge.to < refusedBelow ? new InputError({ field: 'rail', value: 1, allowed: '2' }) : undefined
    const margin = refused ? plainMargin(text, 0, 1) : plainMargin(text, 3 + slack, 3)
    const row = { kind: 'plain', ...text, worst: margin.worst, limit: margin.limit }
    const id = refused ? 'hall/refused' : 'hall/a'
    return {
      solved: { source: { openCircuit: { lower: 3, upper: 4 } } },
      ready: () => [{ id, row, ...(refused && { refused }) }],
      margin: (_: unknown, of: string) => (of === id ? margin : undefined),
    }
  }
  const around = { celsius: { from: 0, to: 40 }, age: { from: 0, to: 1 } }
  return { charges, states, around, stages: [stage], over, forget: () => {}, design: {} } as unknown as Walk
}

const rows = (walk: Walk) => now(rowsOver(walk)).map(({ row }) => row)

describe('a row on the way down', () => {
  const thresholds = fc.array(fc.constantFrom(-1, 0.3, 0.5, 0.7, 0.9, 1.5), { minLength: 6, maxLength: 6 })
  const lowestHeld = (all: readonly number[]) => charges.filter((q) => all.every((one) => q >= one)).at(-1) ?? null

  it('is held down to the lowest charge above which it holds at every temperature and age (brute force)', () => {
    fc.assert(
      fc.property(thresholds, (all) => {
        const of = (celsius: number, age: number) =>
          all[states.findIndex((one) => one.celsius === celsius && one.age === age)]!
        const [row] = rows(walkOf(of))
        const held = lowestHeld(all)
        expect(row!.heldDownTo).toBe(held)
        expect(row!.margin.verdict).toBe(held === 0.2 ? 'holds' : 'fails')
        if (held === 0.2) return
        // Told at a place where it fails: the first charge below, or the emptiest.
        const { charge, celsius, age } = row!.place!
        expect(charge).toBeLessThan(of(celsius, age))
        expect(row!.margin.slack).toBeCloseTo(charge - of(celsius, age), 12)
      }),
    )
  })

  it('counts as failing where it is in doubt between places that hold', () => {
    // No place is below 0.5; all from full to 0.6 at once lack 0.05 of that, to 0.8 nothing.
    const [row] = rows(walkOf(() => 0.5, { doubt: 0.15 }))
    expect(row!.heldDownTo).toBe(0.8)
    expect(rows(walkOf(() => 0.2, { doubt: 0.1 }))[0]!.heldDownTo).toBe(0.4)
    expect(rows(walkOf(() => -1, { doubt: 0.1 }))[0]).toMatchObject({ heldDownTo: 0.2, margin: { verdict: 'holds' } })
    // Full, each temperature and age by itself is a place, and holds.
    expect(rows(walkOf(() => 0.95, { doubt: 0.1 }))[0]!.heldDownTo).toBe(1)
    expect(rows(walkOf(() => 1.1))[0]!.heldDownTo).toBeNull()
  })

  it('ends where its block refuses the supply, which is told at the first charge at which it does', () => {
    const found = rows(walkOf(() => -1, { refusedBelow: 0.5 }))
    expect(found.map(({ id, heldDownTo }) => [id, heldDownTo])).toEqual([
      ['hall/refused', 0.6],
      ['hall/a', 0.6],
    ])
    expect(found[0]!.place).toEqual({ charge: 0.4, celsius: 0, age: 0 })
    expect(found[1]!.margin.verdict).toBe('holds')
    expect(rows(walkOf(() => -1, { refusedBelow: 2 }))).toMatchObject([
      { id: 'hall/refused', heldDownTo: null, place: { charge: 1 } },
    ])
  })
})
