import { describe, expect, it } from 'vitest'
import { checkDivider, exampleAmplifiers } from '../src/index.js'
import { cell, knife } from './design.js'

const check = (more: object) =>
  checkDivider({ ...knife, amplifier: { ...exampleAmplifiers.zeroDrift, ...more } }, cell, { simulation: false })
const noise = ({ budgets }: ReturnType<typeof check>) =>
  budgets.R_ind.linear.contributions.find(({ input }) => input === 'V_n')!.u

describe('how fast an amplifier may be', () => {
  it('stands among the assumptions with its value, twice the least', () => {
    const { assumptions } = check({ gainBandwidth: '1.5 MHz' })
    expect(assumptions.filter((text) => text.includes('as fast as 3 MHz'))).toHaveLength(1)
    const told = check({ fastestGainBandwidth: '2 MHz' }).assumptions
    expect(told.filter((text) => text.includes('as fast as'))).toEqual([])
  })

  it('may be given: noise goes with the root of the bandwidth', () => {
    expect(noise(check({ fastestGainBandwidth: '3 MHz' }))).toBe(noise(check({})))
    expect(noise(check({ fastestGainBandwidth: '12 MHz' })) / noise(check({}))).toBeCloseTo(2, 9)
  })

  it('is no less than the least', () => {
    expect(() => check({ fastestGainBandwidth: '1 MHz' })).toThrow(
      /^amplifier\.fastestGainBandwidth = .*at least .*1\.5 MHz/,
    )
  })
})
