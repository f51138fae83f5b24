import { describe, expect, it } from 'vitest'
import { impedanceAt, impedanceAtMost } from '../src/datasheet/impedance.js'
import { checkMosfet, type MosfetChoice } from '../src/index.js'
import { cell, driver, lowSide, nChannelLowVoltage } from './choice.js'

/** A thermal ladder in Foster's form: its step response is a sum of exponentials, known exactly. */
interface Rung {
  readonly R: number
  readonly tau: number
}
const board: readonly Rung[] = [
  { R: 0.3, tau: 5e-5 },
  { R: 0.7, tau: 6e-4 },
  { R: 2.2, tau: 6e-3 },
  { R: 5.5, tau: 6e-2 },
  { R: 10, tau: 0.6 },
  { R: 17, tau: 6 },
  { R: 12.3, tau: 50 },
]
const step = (t: number) => board.reduce((sum, { R, tau }) => sum - R * Math.expm1(-t / tau), 0)
const points = [1e-4, 1e-3, 1e-2, 0.1, 1, 10, 100, 1000].map((seconds) => ({ seconds, kelvinPerWatt: step(seconds) }))
const steady = board.reduce((sum, { R }) => sum + R, 0)

/** Highest junction of the ladder in periodic pulses, by small steps through many periods. */
function peakOf(power: (T: number) => number, frequency: number, duty: number, T_a: number): number {
  const steps = 200
  const state = board.map(() => 0)
  const rise = () => state.reduce((sum, T) => sum + T, 0)
  const walk = (time: number, P: () => number) => {
    const h = time / steps
    const decay = board.map(({ tau }) => Math.exp(-h / tau))
    for (let i = 0; i < steps; i++) {
      const p = P()
      board.forEach(({ R }, k) => {
        state[k] = R * p + (state[k]! - R * p) * decay[k]!
      })
    }
  }
  let peak = 0
  // Slow rungs stand at their mean, which is found by going round.
  for (let round = 0; round < 60; round++) {
    let energy = 0
    const before = rise()
    for (let period = 0; period < 3; period++) {
      energy = 0
      walk(duty / frequency, () => {
        const p = power(T_a + rise())
        energy += (p * duty) / frequency / steps
        return p
      })
      peak = rise()
      walk((1 - duty) / frequency, () => 0)
    }
    board.forEach(({ R, tau }, k) => {
      if (tau > 2 / frequency) state[k] = state[k]! + (R * energy * frequency - meanIn(state[k]!, tau)) * 0.5
    })
    if (round > 10 && Math.abs(rise() - before) < 1e-6) break
  }
  return T_a + peak

  /** Mean over a period of a rung that stands so at its end: it falls while the switch is off. */
  function meanIn(end: number, tau: number): number {
    const off = (1 - duty) / frequency / tau
    return end * (duty * (1 + off / 2) + (1 - duty) * (1 + off / 2))
  }
}

/** A bare switch: exact parts, a driver whose edges cost nothing worth naming. */
const choice = (frequency: number, duty: number, ohms: number): MosfetChoice =>
  lowSide({
    transistor: {
      ...nChannelLowVoltage,
      onResistance: [{ gateSource: 1.8, maximum: 0.06 }],
      temperatureLaw: { kind: 'linear', perKelvin: 0.004 },
      thresholdVoltage: 0.8,
      currentMaximum: 60,
      outputCapacitance: 0,
      transientImpedance: points,
    },
    drive: { ...driver, gateResistor: 0, resistance: 1, sinkResistance: 1, supply: { regulated: 5 } },
    load: { resistance: ohms },
    pwm: { frequency, duty: { from: duty / 2, to: duty } },
    thermal: { junctionToAmbient: steady },
    wiring: { inductance: 0 },
  })
const air = cell({ openCircuit: { from: 4, to: 4 }, sourceResistance: 0.05, ambientCelsius: { from: 40, to: 40 } })

describe('the junction in pulses', () => {
  it.each([
    [12, 0.1, 0.19],
    [12, 0.2, 0.25],
    [3, 0.3, 0.4],
    [50, 0.05, 0.15],
    [200, 0.5, 0.45],
    [1000, 0.1, 0.15],
    [2, 0.9, 0.6],
  ])('%d Hz, duty %d, %d ohm: no cooler than a ladder solved by small steps, and little warmer', (f, D, ohms) => {
    const { values, typical, margins } = checkMosfet(choice(f, D, ohms), air, { simulation: false })
    const power = (T: number) => {
      const R = 0.06 * (1 + 0.004 * (T - 25))
      return (4 / (0.05 + ohms + R)) ** 2 * R
    }
    const truth = peakOf(power, f, D, 40)
    const mean = 40 + steady * values['P']!
    if (typical.junction.kind !== 'balance') throw new Error('runaway')
    const { T_j } = typical.junction
    expect(T_j).toBeGreaterThan(truth)
    // The mean alone is too cool; the bound costs a part of the ripple, no more.
    expect(mean).toBeLessThan(truth)
    expect(T_j - 40).toBeLessThan((truth - 40) * 1.15)
    expect(margins.map(({ id }) => id)).not.toContain('mean-heat')
  })

  it('a curve is no more than 1 % below the network from which its points came, nor far above', () => {
    for (let i = 0; i <= 700; i++) {
      const t = 1e-4 * 10 ** (i / 100)
      // Rungs a decade apart leave dents in the ladder's curve, which the bound, bent one way only, cuts off.
      expect(impedanceAtMost(points, t) / step(t)).toBeGreaterThan(0.99)
      expect(impedanceAtMost(points, t) / step(t)).toBeLessThan(1.12)
      expect(impedanceAtMost(points, t)).toBeGreaterThanOrEqual(impedanceAt(points, t))
    }
  })

  it('without a curve the rise with the root of time stands for it, and a row says from which frequency that is good', () => {
    const { transientImpedance: _, ...bare } = choice(12, 0.2, 0.25).transistor
    const at = (frequency: number, spreadingTime?: number) => {
      const thermal = { junctionToAmbient: steady, ...(spreadingTime && { spreadingTime }) }
      return checkMosfet({ ...choice(frequency, 0.2, 1.5), transistor: bare, thermal }, air, { simulation: false })
    }
    const row = (frequency: number, spreadingTime?: number) =>
      at(frequency, spreadingTime).margins.find(({ id }) => id === 'mean-heat')!
    // (1 - D) sqrt(D / (f t)) / D = 1/5.
    expect(row(12).limit).toBeCloseTo((0.8 / 0.2 / 0.2) ** 2 * (0.2 / 0.3), 9)
    expect(row(12)).toMatchObject({ verdict: 'not sure', reason: expect.stringContaining('transient impedance') })
    expect(row(300).verdict).toBe('holds')
    expect(row(100, 1).verdict).toBe('holds')
    const { values } = at(300)
    const duty = values['D_on']!
    expect(duty).toBeCloseTo(0.2, 4)
    const Z = steady * Math.sqrt(duty / 300 / 0.3)
    expect(values['T_rip']! / ((1 - duty) * Z * values['P_on']!)).toBeCloseTo(1, 9)
    expect(at(300).assumptions.join()).toMatch(/spreadingTime = 300 ms/)
    expect(at(300, 1).assumptions.join()).not.toMatch(/spreadingTime/)
  })
})
