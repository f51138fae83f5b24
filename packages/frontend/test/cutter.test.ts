import { type Design, dividerAt, readDesign, solveAt, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { atRail, cutter, lowSide } from './cutter.js'

const full = { charge: 1, celsius: 25, age: 0 }

describe('switch and reading on the same end of the load', () => {
  it('a switch at ground leaves the load at the rail, one at the rail leaves it at ground', () => {
    expect(() => readDesign(cutter)).not.toThrow()
    expect(() => readDesign(lowSide)).not.toThrow()
    expect(() => readDesign({ ...lowSide, divider: cutter.divider })).toThrow(
      /^divider\.topology = "load at ground": allowed is "load at rail"\. mosfet\.transistor\.channel is "N"/,
    )
    expect(() => readDesign({ ...cutter, divider: atRail })).toThrow(
      /^divider\.topology = "load at rail": allowed is "load at ground"\. mosfet\.transistor\.channel is "P"/,
    )
  })

  it('a load at the rail is driven by the main rail, not by that of the converter', () => {
    const design = readDesign(lowSide)
    const solved = solveAt(design, full)
    const { choice } = dividerAt(design, solved, walkOf(design, { charges: 2 }).firmware)
    expect(choice.excitation).toEqual(solved.rest)
    const divider = { ...atRail, excitation: '3 V' } as const
    const other: Design = { ...lowSide, divider }
    expect(() => readDesign(other)).toThrow(/^divider\.excitation = "3 V": allowed is "rail"/)
  })
})
