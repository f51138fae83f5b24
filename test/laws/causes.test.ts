import { exampleConverters } from '@ohmward/adc'
import type { Margin } from '@ohmward/budget'
import { checkDecoupling, exampleChoice as rail, exampleConditions as railConditions } from '@ohmward/decoupling'
import { checkDivider, exampleAmplifiers, exampleConditions } from '@ohmward/divider'
import { checkHall, exampleSensors } from '@ohmward/hall'
import { checkMosfet, exampleChoice, exampleConditions as switchConditions } from '@ohmward/mosfet'
import { describe, expect, it } from 'vitest'

/*
 * What a reader must mend comes before what follows from it: an amplifier at its limit before the error of its reading, a
 * junction that is too hot before the ratings that its temperature takes away, a rail that ends too low before its
 * lowest point. Plain reasoning, no source.
 */

const quick = { simulation: false } as const

/** Places of failing rows, by id. */
function failing(margins: readonly Margin[]): (id: string) => number {
  const ids = margins.filter(({ verdict }) => verdict === 'fails').map(({ id }) => id)
  return (id) => {
    expect(ids).toContain(id)
    return ids.indexOf(id)
  }
}

describe('causes before consequences', () => {
  it('a saturated amplifier comes before the error of its reading', () => {
    const choice = {
      load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
      error: '6 %',
      reference: '47 ohm ±0.1 %',
      gainResistors: { feedback: '22 kohm ±0.1 %', ground: '1 kohm ±0.1 %' },
      converter: exampleConverters['12-bit controller converter'],
      amplifier: exampleAmplifiers.bipolarSingleSupply,
    }
    const place = failing(checkDivider(choice, exampleConditions, quick).margins)
    for (const size of ['smallest', 'nominal', 'largest'])
      expect(place('headroom')).toBeLessThan(place(`error-${size}`))
    // What saturates within the range saturates beyond it too.
    expect(place('headroom')).toBeLessThan(place('open-load'))
  })

  it('a sensor below its rated supply, or beyond its span, comes before the error of its reading', () => {
    const choice = {
      sensor: exampleSensors.wideSupplyOneWay,
      converter: exampleConverters['12-bit controller converter'],
      current: { from: 0, to: '60 A' },
      errors: [{ at: '60 A', allowed: '0.1 %' }],
    }
    const place = failing(
      checkHall(choice, { rail: { from: 2, to: 4.2 }, ambientCelsius: { from: 25, to: 25 } }, quick).margins,
    )
    for (const id of ['supply-low', 'span-high']) expect(place(id)).toBeLessThan(place('error-1'))
  })

  it('a junction that is too hot comes before what its temperature takes of the ratings', () => {
    const hot = { ...exampleChoice, thermal: { junctionToAmbient: '600 K/W' } }
    const place = failing(checkMosfet(hot, switchConditions, quick).margins)
    expect(place('junction')).toBeLessThan(place('safe-area'))
  })

  it('a rail that ends too low comes before its lowest point', () => {
    const low = { ...rail, limits: { ...rail.limits, brownOut: '3.9 V ±1 %' } }
    const place = failing(checkDecoupling(low, railConditions, quick).margins)
    expect(place('steady-sag')).toBeLessThan(place('rail-brown-out'))
  })
})
