import { checkHall, exampleChoice, exampleConditions } from '@ohmward/hall'
import { describe, expect, it } from 'vitest'

/** A switch that is on only after the current is sampled. */
const late = checkHall({ ...exampleChoice, wait: '20 us', timing: { edge: '100 us' } }, exampleConditions)
const marginOf = (id: string) => late.margins.find((one) => one.id === id)!

describe('a sample before the edge of the switch is over', () => {
  it('reads what was before it, and its trip has an end that is too late', () => {
    expect(marginOf('settling')).toMatchObject({ verdict: 'fails', limit: 20e-6 })
    expect(marginOf('error-2').worst).toBeGreaterThan(0.9 * 6)
    expect(marginOf('trip-late').verdict).toBe('fails')
    expect(marginOf('trip-late').worst).toBeGreaterThan(100)
    expect(Number.isFinite(late.trip!.interval[1])).toBe(true)
  })

  it('leaves the pin as high as it comes in the end: zero and sensitivity on the highest rail', () => {
    // 0.33 V and 6.5 A at 200 mV/A, stated at 3.3 V and in proportion to the rail.
    const nominal = 0.33 + 6.5 * 0.2
    const share = marginOf('converter-high').worst / marginOf('converter-high').limit
    expect(share).toBeGreaterThan(nominal / 3.3)
    const inTime = checkHall(
      { ...exampleChoice, wait: '5 ms', pwm: undefined, timing: { edge: '100 us' } } as never,
      exampleConditions,
    )
    const settled = inTime.margins.find(({ id }) => id === 'converter-high')!
    expect(marginOf('converter-high').worst).toBeCloseTo(settled.worst, 3)
  })
})
