import { expect, it } from 'vitest'
import { checkHall } from '../src/index.js'
import { cell, knife } from './design.js'

it('says which parts of the filter have no tolerance', () => {
  const said = (filter: object) =>
    checkHall({ ...knife, filter } as never, cell, { simulation: false }).assumptions.filter((text) =>
      text.startsWith('No tolerance is stated'),
    )
  expect(said(knife.filter)).toEqual([])
  expect(said({ resistance: '330 ohm', capacitance: '1 nF ±10 %' })).toEqual([
    'No tolerance is stated, so taken as exact: filter.resistance.',
  ])
})
