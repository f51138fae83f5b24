import { type Design, exampleDesign, exampleDesigns, readDesign } from '@ohmward/frontend'
import { expect, it } from 'vitest'
import { toCutOff } from '../src/rows/supply-rows.js'
import { wholeRow } from './shared.js'

/** The hot knife on a cell whose curve is a straight line from 2.5 V to 4.5 V, 0.1 V off it. */
const straight = (lowestVoltage: string): Design => ({
  ...exampleDesign,
  supply: {
    ...exampleDesign.supply,
    source: {
      ...exampleDesign.supply.source,
      ...{ openCircuit: '0: 2.5 V, 1: 4.5 V', openCircuitSpread: 0.1, openCircuitSpreadEmpty: 0, lowestVoltage },
    },
  } as Design['supply'],
})

it('the charge down to the cut-off is that of the cells that come to it first; of a port it is all', () => {
  // 3 V of a cell that lies 0.1 V low: 0.6 V of 2 V above empty.
  expect(toCutOff(readDesign(straight('3 V')))).toBeCloseTo(0.7, 9)
  expect(toCutOff(readDesign(straight('3.2 V')))).toBeCloseTo(0.6, 9)
  expect(toCutOff(readDesign(exampleDesigns.mat as Design))).toBe(1)
})

it('the charge that must be usable is held to it', () => {
  const asked = (usableCharge: number) => {
    const design = straight('3 V')
    return wholeRow({ ...design, requirements: { ...design.requirements, usableCharge } }, 'supply/charge')
  }
  expect(asked(0.69)).toMatchObject({ verdict: 'holds', worst: expect.closeTo(0.7, 9), limit: 0.69 })
  expect(asked(0.71).verdict).toBe('fails')
})
