import { exampleAmplifiers } from '@ohmward/divider'
import { checkDesign, type Design, designChanges, exampleDesign } from '@ohmward/frontend'
import { remembered } from '../../../test/tools/remembered.js'

const checkOnce = remembered(checkDesign)
const changesOnce = remembered(designChanges)

/** The check of the hot knife: one for all tests. */
export const exampleCheck = () => checkOnce(exampleDesign, { charges: 12 })

/** What can be done about the hot knife: one search for all tests. */
export const exampleChanges = () => changesOnce(exampleDesign, { checks: 60, walked: 1 })

const supply = exampleDesign.supply

/**
 * The hot knife with both faults mended: a zero-drift amplifier, and two cells side by side, which are half the resistance. They
 * push more current through the protection, so that it has two transistors side by side too.
 */
export const mended: Design = {
  ...exampleDesign,
  divider: { ...exampleDesign.divider, amplifier: exampleAmplifiers.zeroDrift },
  supply: {
    ...supply,
    source: { ...supply.source, resistance: '9 mohm ±25 %' },
    path: supply.path.map((one) => (one.name === 'protection' ? { ...one, resistance: '5 mohm ±20 %' } : one)),
  },
}
