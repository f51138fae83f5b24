import { describe, expect, it } from 'vitest'
import { at, checked, marginNamed, perfect } from './design.js'

/** Every expected value here is plain arithmetic on the stated figures. */
describe('an averaged reading', () => {
  // 10 kohm · 1 µF, 1 kHz: a tenth of a time constant in a period.
  const choice = {
    ...perfect,
    reading: 'averaged',
    filter: { resistance: 9990, capacitance: '1 uF' },
    errors: [{ at: '3 A', allowed: '0.2 A' }],
    trip: { current: '5 A', normal: '3 A', withstand: '7 A' },
  } as const

  it('trips on the crest of its ripple, and late in its trough', () => {
    const { level, interval } = checked(choice, at(3.3)).trip!
    // Half duty: the crest stands tanh(1/40)/2 above the mean of one half.
    expect(interval[0]).toBeCloseTo(level / (1 + Math.tanh(1 / 40)), 3)
    // A tenth of duty, summed period by period: what 0.01 time constants put in decays by 0.09 until the next.
    let trough = 0
    for (let n = 0; n < 1000; n++) trough += (1 - Math.exp(-0.01)) * Math.exp(-0.09 - 0.1 * n)
    expect(interval[1]).toBeCloseTo((level * 0.1) / trough, 3)
    const [low, high] = checked({ ...choice, filter: { resistance: 330, capacitance: '1 nF' } }, at(3.3)).trip!.interval
    expect(low).toBeLessThan(level / 1.9)
    expect(high).toBeGreaterThan(1000)
  })

  it('has its crest held against the full scale', () => {
    const margin = marginNamed(checked(choice, at(3.3)), 'converter-high')
    let crest = 0
    for (let n = 0; n < 1000; n++) crest += (1 - Math.exp(-0.09)) * Math.exp(-0.1 * n)
    expect(margin.nominal).toBeCloseTo(0.33 + 0.9 * 6 * 0.2, 9)
    expect(margin.worst).toBeCloseTo(0.33 + crest * 6 * 0.2, 5)
  })
})
