import fc from 'fast-check'
import { expect, it } from 'vitest'
import { largestShare } from '../src/needed.js'

it('the largest share that works is found to a hundredth from below, wherever it lies', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1.2, noNaN: true }), (most) => {
      const found = largestShare((share) => share <= most)
      if (most >= 1) expect(found).toBe(1)
      else {
        expect(found).toBeLessThanOrEqual(most)
        expect(found).toBeGreaterThan(most - 0.01)
      }
    }),
  )
})
