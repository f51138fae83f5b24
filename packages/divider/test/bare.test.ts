import { expect, it } from 'vitest'
import { checkDivider } from '../src/index.js'
import { cell, knife } from './design.js'

const said = (more: object) =>
  checkDivider({ ...knife, ...more } as never, cell, { simulation: false }).assumptions.filter((text) =>
    text.startsWith('No tolerance is stated'),
  )

it('says which resistors have no tolerance, but of a matched network none', () => {
  expect(said({})).toEqual([])
  const gainResistors = { feedback: '22 kohm', ground: 1000 }
  expect(said({ reference: '47 ohm', gainResistors })).toEqual([
    'No tolerance is stated, so taken as exact: reference, gainResistors.feedback, gainResistors.ground.',
  ])
  expect(said({ gainResistors: { ...gainResistors, ratioTolerance: '0.05 %' } })).toEqual([])
})
