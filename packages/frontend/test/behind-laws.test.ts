import { describe, expect, it } from 'vitest'
import { behindAfter } from '../src/pulse/coming-back.js'

/*
 * What an amplifier of one pole shows beside a rail that comes back through some equal time constants in a row, by small steps of time: the
 * bound is never below it, nor of no use.
 */

/** How far the pole is from the rail at a time, of what the rail fell by: both as it was under load at first. */
function byStepsOfTime(since: number, time: number, steps: number, lag: number): number {
  const left = new Float64Array(steps).fill(1)
  let shown = 1
  const count = Math.ceil((since / Math.min(time, lag)) * 400)
  const dt = since / count
  for (let k = 0; k < count; k++) {
    let from = 0
    for (let n = 0; n < steps; n++) {
      left[n]! += ((from - left[n]!) * dt) / time
      from = left[n]!
    }
    shown += ((left[steps - 1]! - shown) * dt) / lag
  }
  return Math.abs(shown - left[steps - 1]!)
}

describe.each([1, 2, 3])('behind a rail of %i time constants', (steps) => {
  it.each([0.02, 0.1, 0.3])('a pole %d times as slow shows no more than is said', (share) => {
    const time = 1e-3
    const lag = share * time
    let useful = 0
    for (const since of [0.5, 2, 4, 8, 12].map((x) => x * time)) {
      const seen = byStepsOfTime(since, time, steps, lag)
      const said = behindAfter(since, { time, steps }, lag, false)
      // What something else than a resistance charges is held to no less.
      expect(behindAfter(since, { time, steps }, lag, true)).toBeGreaterThanOrEqual(said)
      // Straight steps of time leave up to a hundredth of what is seen.
      expect(said).toBeGreaterThan(0.98 * seen)
      if (said < 0.5) useful++
    }
    expect(useful).toBeGreaterThan(0)
  })

  it('a pole shows nothing that has not been, and all of it before it had time', () => {
    expect(behindAfter(1e-3, { time: 1e-3, steps }, 0, true)).toBe(0)
    // As long as four of its own time constants nothing is known of it: at the moment itself, too.
    expect(behindAfter(4 * 2e-4, { time: 1e-3, steps }, 2e-4, true)).toBe(1)
  })
})
