import { describe, expect, it } from 'vitest'
import { checked } from './design.js'

describe('a trip', () => {
  const text = (more: object) =>
    checked({ trip: { current: 8, normal: 6.5, withstand: 10 }, ...more }).cautions.find(({ id }) => id === 'slow-trip')

  it('says how late it is: the next on-window, and all its samples', () => {
    // 64 windows of 1 ms, and some 16 µs of settling in the first.
    expect(text({ timing: { samples: 64 } })!.text).toContain('64 ms')
    expect(text({})!.text).toContain('1 ms')
    // On direct current the filter alone: 13·ln 2 time constants of 330 ohm · 100 µF until half a count of 12 bits is left.
    const slow = { resistance: '330 ohm', capacitance: '100 uF' }
    const [, seconds] = /up to ([\d.]+) ms/.exec(text({ pwm: undefined, filter: slow })!.text)!
    expect(Number(seconds) / (13 * Math.LN2 * 33)).toBeCloseTo(1, 1)
  })
})
