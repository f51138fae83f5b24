import { expect, it } from 'vitest'
import { formulasByPlace } from '../../docs/.vitepress/build/catalogue.js'
import { own } from '../../docs/.vitepress/build/places.js'

it('names only formulas that are there behind a margin with physics of its own', async () => {
  const there = new Set((await formulasByPlace()).map(({ id }) => id))
  const named = Object.values(own).flatMap((margins) => Object.values(margins).flat())
  expect(named.length).toBeGreaterThan(20)
  expect(named.filter((id) => !there.has(id))).toEqual([])
})
