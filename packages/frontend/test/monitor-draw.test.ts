import { type Design, readDesign, solveAt } from '@ohmward/frontend'
import { expect, it } from 'vitest'
import { drawOf } from '../src/supply/rails.js'
import { cutter } from './cutter.js'

const place = { charge: 1, celsius: 25, age: 0 }

/** The cutter with a divider so low that it is felt. */
const seen = (inDrawer: string, divided = true): Design => ({
  ...cutter,
  controller: { ...cutter.controller, internalReference: { voltage: '1.2 V ±0.5 %' } },
  monitor: {
    ...{ reads: 'at rest', pause: '2 ms', lacking: 0, warning: '6.6 V', stop: '6.4 V', hysteresis: '0.2 V' },
    divider: divided ? { upper: '300 ohm ±1 %', lower: '100 ohm ±1 %', inDrawer } : { ratio: '0.25 ±1 %' },
  } as NonNullable<Design['monitor']>,
})

it('counts what the divider of the cells draws among all that is on while the board is awake, whatever the drawer does with it', () => {
  const [apart, ...others] = [seen('on', false), seen('on'), seen('off above'), seen('off below')].map((given) => {
    const design = readDesign(given)
    return { draw: drawOf(design, 'main'), rest: solveAt(design, place).rest }
  })
  for (const { draw, rest } of others) {
    // Ohm: cells of at most 8.5 V over 396 ohm at least; the highest that is really there is in it.
    const more = draw.upper - apart!.draw.upper
    expect(more).toBeGreaterThan(rest.upper / 396)
    expect(more).toBeLessThan(8.6 / 396)
    // It takes some of the rail too, at the full resistance of cells and path.
    expect(rest.lower).toBeLessThan(apart!.rest.lower)
  }
})
