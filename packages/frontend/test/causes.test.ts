import { expect, it } from 'vitest'
import { exampleCheck } from './shared.js'

it('tells a cause before what it brings about, and one that gives way further down behind it', () => {
  const { rows } = exampleCheck()
  const failing = rows.filter(({ margin }) => margin.verdict === 'fails')
  const place = (id: string) => {
    const found = failing.findIndex((row) => row.id === id)
    expect(found, id).toBeGreaterThanOrEqual(0)
    return found
  }
  const downTo = (id: string) => failing[place(id)]!.heldDownTo!
  // The output saturates where the error is exceeded; the amplifier's supply holds far below that, and can't be why.
  expect(downTo('divider/headroom')).toBeGreaterThanOrEqual(downTo('divider/error-largest'))
  expect(place('divider/headroom')).toBeLessThan(place('divider/error-largest'))
  expect(downTo('divider/supply-low')).toBeLessThan(downTo('divider/error-largest'))
  expect(place('divider/supply-low')).toBeGreaterThan(place('divider/error-largest'))
})
