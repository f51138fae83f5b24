import { describe, expect, it } from 'vitest'
import { firstBelow, lastBelow, lowest } from '../src/waveform/signal/lowest.js'
import { at, negative, type Signal } from '../src/waveform/signal/signal.js'
import { uniform } from './reference.js'

/** Signals of one to five modes, real and ringing, of like size and up to four decades of speed, with and without a slope. */
function draw(random: () => number): { signal: Signal; duration: number } {
  const log = (from: number, to: number): number => from * (to / from) ** random()
  const n = 1 + Math.floor(5 * random())
  const rings = random() < 0.5
  // Fast modes are often small.
  const spread = random() < 0.5 ? 1 : 1e-6
  const modes = Array.from({ length: n }, () => {
    const size = log(1e2, 1e6)
    const angle = rings && random() < 0.5 ? Math.PI / 2 - log(0.01, 1) : 0
    const y = angle > 0 ? size * Math.sin(angle) : 0
    const share = (): number => (random() < 0.5 ? -1 : 1) * log(spread, 1)
    return { x: -size * Math.cos(angle), y, re: share(), im: y > 0 ? share() : 0 }
  }).sort((a, b) => a.x - b.x)
  const duration = log(1e-6, 3e-2)
  const signal: Signal = {
    constant: 4 * random(),
    slope: random() < 0.5 ? 0 : (2 * random() - 1) / duration,
    curve: random() < 0.8 ? 0 : (2 * random() - 1) / duration ** 2,
    roots: { re: modes.map(({ x }) => x), im: modes.map(({ y }) => y) },
    re: modes.map(({ re }) => re),
    im: modes.map(({ im }) => im),
  }
  return { signal, duration }
}

/** Times that are dense for every mode: equal steps, and as many in equal ratios. */
function grid(duration: number): number[] {
  const times = Array.from({ length: 1501 }, (_, i) => (i / 1500) * duration)
  for (let i = 0; i < 1500; i++) times.push(duration * 1e-9 ** (i / 1500))
  return times.sort((a, b) => a - b)
}

const random = uniform(2024)
const cases = Array.from({ length: 200 }, () => draw(random))

describe('a signal of exponentials', () => {
  it('has its lowest point where no sample of a dense grid is lower', () => {
    for (const { signal, duration } of cases) {
      for (const s of [signal, negative(signal)]) {
        const { time, value } = lowest(s, duration)
        const least = Math.min(...grid(duration).map((t) => at(s, t)))
        expect(time).toBeGreaterThanOrEqual(0)
        expect(time).toBeLessThanOrEqual(duration)
        expect(at(s, time)).toBeCloseTo(value, 12)
        expect(value, JSON.stringify({ s, duration })).toBeLessThanOrEqual(least + 1e-11)
      }
    }
  })

  it('creeping, has it where the slope of two slow modes hardly tells the way', () => {
    // Source current of a loop with two small capacitor inductances, its sign changed: 42.8 A at 0.1 ms.
    const roots = { re: [-16984985.466, -2597397.571, -19140.906, -5000.485], im: [0, 0, 0, 0] }
    const re = [1.927e-5, -0.001200879, 93.089790766, -93.088609]
    const s: Signal = { constant: 0, slope: 0, curve: 0, roots, re, im: [0, 0, 0, 0] }
    const { time, value } = lowest(s, Number.POSITIVE_INFINITY)
    expect(value).toBeLessThanOrEqual(Math.min(...grid(1e-2).map((t) => at(s, t))) + 1e-11)
    expect(value).toBeLessThan(-42)
    expect(lastBelow(s, -41, Number.POSITIVE_INFINITY, 0)).toBeGreaterThan(time)
  })

  it('without end, has its lowest point there too, and never below its modes', () => {
    for (const { signal } of cases) {
      const s = { ...signal, slope: 0, curve: 0 }
      const { value } = lowest(s, Number.POSITIVE_INFINITY)
      const slowest = -1 / Math.max(...s.roots.re)
      expect(value).toBeLessThanOrEqual(Math.min(...grid(40 * slowest).map((t) => at(s, t))) + 1e-11)
      expect(value).toBeLessThanOrEqual(s.constant)
    }
  })

  it('is first and last below a level where a dense grid has it', () => {
    let passed = 0
    for (const { signal: s, duration } of cases) {
      const values = grid(duration).map((t) => ({ t, v: at(s, t) }))
      const all = values.map(({ v }) => v)
      for (const part of [0.2, 0.5, 0.8]) {
        const level = Math.min(...all) + part * (Math.max(...all) - Math.min(...all))
        const low = values.filter(({ v }) => v < level)
        if (at(s, 0) >= level) {
          const first = firstBelow(s, level, duration, 0)
          expect(first).not.toBeNull()
          // The grid may be a step late, or miss a dip between its points.
          expect(first!).toBeLessThanOrEqual(low[0]!.t * (1 + 1e-9))
          expect(at(s, first!)).toBeCloseTo(level, 9)
          passed++
        }
        if (at(s, duration) >= level) {
          const last = lastBelow(s, level, duration, 0)
          expect(last).not.toBeNull()
          expect(last!).toBeGreaterThanOrEqual(low[low.length - 1]!.t * (1 - 1e-9))
          expect(at(s, last!)).toBeCloseTo(level, 9)
          passed++
        }
      }
      const beneath = lowest(s, duration).value - 1e-9
      expect(firstBelow(s, beneath, duration, 0)).toBeNull()
      expect(lastBelow(s, beneath, duration, 0)).toBeNull()
    }
    expect(passed).toBeGreaterThan(250)
  })
})
