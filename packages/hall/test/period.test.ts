import { describe, expect, it } from 'vitest'
import { hallOverCurrent, hallPeriod } from '../src/index.js'
import { cell, checked, knife } from './design.js'

const filter = { resistance: '10 kohm', capacitance: '10 nF' }
const sensor = { ...knife.sensor, outputResistance: 0 }

/** Both poles stepped in time over many periods, no closed form: the pin's share of the step at times of the last one. */
function stepped(...given: Parameters<typeof steppedBoth>) {
  return steppedBoth(...given).map(({ pin }) => pin)
}

/** The same with the sensor's. */
function steppedBoth(
  D: number,
  T: number,
  tau_s: number,
  tau: number,
  edge: number,
  times: readonly number[],
  periods = 4,
) {
  const steps = 200_000
  const dt = T / steps
  let [s, v] = [D, D]
  const found: { readonly sensor: number; readonly pin: number }[] = []
  for (let n = 0; n < periods; n++) {
    found.length = 0
    let next = 0
    for (let i = 0; i < steps; i++) {
      if (next < times.length && i * dt >= times[next]!) {
        found.push({ sensor: s, pin: v })
        next++
      }
      const t = (((i * dt - edge) % T) + T) % T
      s += ((t < D * T ? 1 : 0) - s) * (1 - Math.exp(-dt / tau_s))
      v += (s - v) * (1 - Math.exp(-dt / tau))
    }
  }
  return found
}

describe('the period', () => {
  it('follows sensor and filter in steady state, as two poles stepped in time do', () => {
    const { points, final, on, period } = hallPeriod({ ...knife, sensor, filter }, cell, 0.3)
    expect([on, period]).toEqual([0.0003, 0.001])
    const zero = 0.36
    const step = ((0.2 * 3.6) / 3.3) * 6
    expect(final).toBeCloseTo(zero + step, 9)
    const some = [10, 60, 100, 180].map((i) => points[i]!)
    const shares = stepped(
      0.3,
      1e-3,
      1 / (2 * Math.PI * 120e3),
      1e-4,
      1e-6,
      some.map(({ time }) => time),
    )
    shares.forEach((share, i) => {
      expect(some[i]!.pin).toBeCloseTo(zero + step * share, 2)
    })
    expect(points).toHaveLength(240)
    expect(points[100]!.sensor).toBeCloseTo(zero, 6)
    expect(points[60]!.sensor).toBeCloseTo(zero + step, 6)
  })

  it.each([
    ['the filter slower', 50e-6, 100e-6],
    ['the sensor slower', 100e-6, 40e-6],
    ['both alike', 80e-6, 80e-6],
  ])('follows two poles that are as long as the period: %s', (_, tau_s, tau) => {
    const [D, T] = [0.3, 200e-6]
    const choice = {
      ...knife,
      pwm: { frequency: 1 / T, duty: { from: 0.1, to: 0.9 } },
      sensor: { ...sensor, bandwidth: 1 / (2 * Math.PI * tau_s) },
      filter: { resistance: 1e3, capacitance: tau / 1e3 },
    }
    const { points } = hallPeriod(choice, cell, D)
    const some = [0, 20, 60, 73, 150, 239].map((i) => points[i]!)
    const found = steppedBoth(
      D,
      T,
      tau_s,
      tau,
      1e-6,
      some.map(({ time }) => Math.min(time, T * (1 - 1e-5))),
      12,
    )
    const step = ((0.2 * 3.6) / 3.3) * 6
    found.forEach((share, i) => {
      expect(Math.abs(some[i]!.sensor - 0.36 - step * share.sensor)).toBeLessThan(5e-4)
      expect(Math.abs(some[i]!.pin - 0.36 - step * share.pin)).toBeLessThan(5e-4)
    })
  })

  it('draws what the pin sees behind a divider, whose resistors are in the filter too', () => {
    const divider = { top: '10 kohm', bottom: '15 kohm' }
    const choice = { ...knife, sensor, divider, filter: { resistance: '1 kohm', capacitance: '10 nF' } }
    const { points, final } = hallPeriod(choice, cell, 0.5)
    const step = 0.6 * ((0.2 * 3.6) / 3.3) * 6
    expect(final).toBeCloseTo(0.6 * 0.36 + step, 9)
    // 10 kohm beside 15 kohm are 6 kohm: with the filter's own 70 µs.
    const some = [10, 40, 130, 170].map((i) => points[i]!)
    const times = some.map(({ time }) => time)
    stepped(0.5, 1e-3, 1 / (2 * Math.PI * 120e3), 70e-6, 1e-6, times).forEach((share, i) => {
      expect(Math.abs(some[i]!.pin - 0.6 * 0.36 - step * share)).toBeLessThan(1e-3)
    })
  })

  it('says when the pin stands, when the converter samples, and half a count', () => {
    const p = hallPeriod(knife, cell)
    expect(p.on).toBeCloseTo(1e-4, 12)
    expect(p.sampling![0]).toBeCloseTo(p.settled!, 12)
    expect(p.settled!).toBeCloseTo(1e-6 + 13 * Math.LN2 * (1 / (2 * Math.PI * 120e3) + (330 * 1.01 + 10) * 1.1e-9), 9)
    expect(p.sampling![1] - p.sampling![0]).toBeCloseTo(3e-6, 12)
    expect(p.halfCount).toBeCloseTo(3.6 / 8192, 12)
    // After the settling the pin is within half a count of its end.
    for (const { time, pin } of p.points) {
      if (time >= p.settled! && time < p.on) expect(Math.abs(pin - p.final)).toBeLessThan(p.halfCount)
    }
    expect(p.opening.at(-1)!.time).toBeCloseTo(1.25 * p.sampling![1], 12)
    expect(p.opening).toHaveLength(p.points.length)
    expect(p.duty).toMatchObject({ kind: 'possible', to: 1 })
  })

  it('has no sampling instant where the filter averages, and poles that are alike', () => {
    const p = hallPeriod({ ...knife, reading: 'averaged', filter }, cell)
    expect(p.sampling).toBeUndefined()
    expect(p.settled).toBeUndefined()
    expect(p.opening).toEqual(p.points)
    const tau = 1 / (2 * Math.PI * 120e3)
    const alike = hallPeriod({ ...knife, sensor, filter: { resistance: 1000, capacitance: tau / 1000 } }, cell, 0.5)
    for (const { pin } of alike.points) expect(Number.isFinite(pin)).toBe(true)
    expect(alike.points[60]!.pin).toBeCloseTo(alike.final, 4)
  })

  it('places the resistance in the off-window beside it', () => {
    const otherTasks = [
      { name: 'resistance', window: 'off', recovery: 50e-6, settling: 100e-6, acquisition: 2e-6, conversion: 1e-6 },
    ] as const
    const p = hallPeriod({ ...knife, otherTasks }, cell)
    expect(p.schedule.off.shortest).toBeCloseTo(153e-6, 12)
    expect(p.duty).toMatchObject({ kind: 'possible', to: 1 - 0.153 })
    // At 90 % the off-time is 100 µs: too short.
    const margins = checked({ otherTasks }).margins
    const off = margins.find(({ id }) => id === 'off-window')!
    expect(off).toMatchObject({ verdict: 'fails' })
    expect(off.slack).toBeCloseTo(-53e-6, 12)
    expect(margins.find(({ id }) => id === 'on-window')!.verdict).toBe('holds')
  })
})

describe('the error over the current', () => {
  it('is that of the check at the same current, and grows with it', () => {
    const points = hallOverCurrent(knife, cell)
    expect(points).toHaveLength(22)
    expect(points[0]).toMatchObject({ current: 0, celsius: 0 })
    expect(points.at(-1)).toMatchObject({ current: 6, celsius: 50 })
    for (let i = 1; i < 11; i++) expect(points[i]!.worstError).toBeGreaterThan(points[i - 1]!.worstError)
    const margin = checked().margins.find(({ id }) => id === 'error-2')!
    expect(Math.max(...points.filter(({ current }) => current === 6).map(({ worstError }) => worstError))).toBeCloseTo(
      margin.worst,
      12,
    )
    const [one] = hallOverCurrent(knife, cell, ['1 A'])
    expect(one!.expanded).toBeLessThan(one!.worstError)
  })
})
