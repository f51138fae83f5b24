import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { extremesOf } from '../src/answer/descend.js'
import { rowsOver } from '../src/answer/rows.js'
import { now } from '../src/answer/run.js'
import { spanOf } from '../src/supply/place.js'
import { cutter, lowSide } from './cutter.js'
import { rowOver } from './shared.js'

describe.each([
  ['hot knife', exampleDesign],
  ['foam cutter with its switch at ground', lowSide],
] as readonly (readonly [string, Design])[])('rows over the walk of the %s', (_, design) => {
  const walk = walkOf(readDesign(design), { charges: 3 })
  const rows = now(rowsOver(walk))

  it('of the rail are told where they have the least slack, full or empty, weakest or strongest: each corner held by itself', () => {
    const corners = [walk.charges[0]!, walk.charges.at(-1)!].flatMap((charge) =>
      extremesOf(walk).map((state) => ({ ...state, charge })),
    )
    const ofRail = rows.filter(({ row }) => row.block === 'decoupling' && row.margin.verdict === 'holds')
    for (const { row, stage } of ofRail) {
      const slacks = corners.map((place) => walk.over(spanOf(place)).margin(stage, row.id)!.slack)
      const told = walk.over(spanOf(row.place!)).margin(stage, row.id)!.slack
      expect(told, row.id).toBeLessThanOrEqual(Math.min(...slacks) + 1e-9 * Math.abs(told))
    }
    expect(ofRail.length).toBeGreaterThan(8)
  })

  it('have no more slack over all places at once than at any of them', () => {
    for (const { row, stage } of rows) {
      const { charge } = row.place!
      for (const state of walk.states) {
        const margin = walk.over(spanOf({ ...state, charge })).margin(stage, row.id)
        if (margin === undefined || row.margin.verdict !== 'holds') continue
        // The ripple's search over the duty stops within two thousandths, here as there.
        const spare = row.state === 'PWM' ? 4e-3 * Math.abs(margin.worst) : 1e-9 * Math.abs(margin.limit)
        expect(row.margin.slack, row.id).toBeLessThanOrEqual(margin.slack + spare)
      }
    }
  })
})

describe('a row that fails alike at every charge', () => {
  it('is told where it fails first: on full cells', () => {
    // A brown-out that may act below the lowest supply of the clock, wherever the cells are.
    const design: Design = {
      ...cutter,
      controller: { ...cutter.controller, brownOut: '2.5 V ±3 %', lowestSupply: '2.45 V' },
    }
    const row = rowOver(design, 'rails/clock-reset', 4)!
    expect(row.margin).toMatchObject({ verdict: 'fails', limit: 2.45 })
    expect(row.margin.worst).toBeCloseTo(2.5 * 0.97, 12)
    expect(row).toMatchObject({ heldDownTo: null, place: { charge: 1 } })
  })
})
