import { between } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { checkDecoupling, type DecouplingChoice } from '../src/index.js'

/*
 * A board has no scale of its own: with all impedances four times as large, all times twice as long or all voltages twice as high, every
 * margin is the same in its new unit. All factors are powers of two, so that not even a rounding differs.
 */

interface Scale {
  readonly ohm: number
  readonly second: number
  readonly volt: number
}

/** What a number of each unit is multiplied by. */
const factorsOf = ({ ohm, second, volt }: Scale): Readonly<Record<string, number>> => ({
  V: volt,
  ohm,
  s: second,
  A: volt / ohm,
  W: volt ** 2 / ohm,
  J: (volt ** 2 * second) / ohm,
  F: second / ohm,
  H: second * ohm,
  Hz: 1 / second,
  degC: 1,
  K: 1,
  '1': 1,
  h: 1,
  'K/W': ohm / volt ** 2,
  'V/K': volt,
})

type Of = (unit: string, value: number, share?: number) => number | ReturnType<typeof between>

/** The same design in other units; `share` is half the width of a spread, of its middle. */
const scaled =
  (scale: Scale): Of =>
  (unit, value, share = 0) => {
    const middle = value * factorsOf(scale)[unit]!
    return share === 0 ? middle : between(middle * (1 - share), middle * (1 + share))
  }

const bulkOf = (is: Of, share: number, more = {}) => ({
  name: 'bulk',
  capacitance: is('F', 440e-6, share),
  ratedVoltage: is('V', 10),
  seriesResistance: is('ohm', 0.02, share),
  seriesInductance: is('H', 8e-9),
  rippleCurrent: is('A', 1.5),
  thermalResistance: is('K/W', 60),
  lifeHours: 2000,
  ...more,
})
const ceramicOf = (is: Of) => ({
  name: 'ceramic',
  capacitance: is('F', 22e-6),
  ratedVoltage: is('V', 10),
  seriesResistance: is('ohm', 3e-3),
  bias: [0, 2.5, 5, 10].map((volts, k) => ({ volts: is('V', volts), factor: [1, 0.9, 0.6, 0.3][k]! })),
})
const insertion = (is: Of) => ({
  contactSurge: is('A', 60),
  railMaximum: is('V', 6),
})

const designs: readonly (readonly [name: string, make: (is: Of) => object, fixed: Partial<Scale>])[] = [
  [
    'a burst of current on a loop with inductance',
    (is) => ({
      source: { resistance: is('ohm', 0.06, 0.25), inductance: is('H', 0.5e-6, 0.1) },
      capacitors: [bulkOf(is, 0.1), ceramicOf(is)],
      load: { current: is('A', 5, 0.05), rise: is('s', 1e-6), duration: is('s', 300e-6) },
      idle: is('A', 0.02),
      limits: { brownOut: is('V', 2.6, 0.02), clock: is('V', 2.7) },
      insertion: insertion(is),
    }),
    {},
  ],
  [
    'a resistor in pulses',
    (is) => ({
      source: { resistance: is('ohm', 0.06, 0.25), inductance: is('H', 0.5e-6) },
      capacitors: [bulkOf(is, 0.1)],
      load: {
        resistance: is('ohm', 0.7, 0.05),
        rise: is('s', 1e-6),
        pwm: { frequency: is('Hz', 5e3), duty: { from: 0.2, to: 0.8 } },
        wantedPower: is('W', 8),
      },
      limits: { brownOut: is('V', 2.6, 0.02) },
      insertion: insertion(is),
    }),
    {},
  ],
  [
    'a constant power',
    (is) => ({
      source: { resistance: is('ohm', 0.1, 0.2) },
      capacitors: [bulkOf(is, 0.1, { seriesInductance: 0 })],
      load: { power: is('W', 9), rise: is('s', 20e-6), duration: is('s', 1e-3) },
      idle: is('A', 0.05),
      limits: { brownOut: is('V', 2.6, 0.02) },
      insertion: insertion(is),
    }),
    {},
  ],
  [
    'pulses of current on a port that limits',
    (is) => ({
      source: { resistance: is('ohm', 0.12), currentLimit: is('A', 2.5, 0.1), attachable: is('F', 10e-6) },
      capacitors: [bulkOf(is, 0.1)],
      load: { current: is('A', 3), pwm: { frequency: is('Hz', 1e3), duty: 0.5 } },
      limits: { brownOut: is('V', 2.6, 0.02) },
      insertion: insertion(is),
    }),
    {},
  ],
  [
    'a logic rail behind a diode, whose law has a voltage of its own',
    (is) => ({
      source: { resistance: is('ohm', 0.06, 0.25) },
      capacitors: [bulkOf(is, 0.1)],
      load: { resistance: is('ohm', 0.7), rise: is('s', 1e-6), pwm: { frequency: is('Hz', 20e3), duty: 0.6 } },
      logicRail: {
        behind: 'diode',
        forwardVoltage: is('V', 0.25),
        slopeResistance: is('ohm', 0.1),
        capacitance: is('F', 47e-6),
        current: is('A', 0.01),
      },
      limits: { brownOut: is('V', 2.4, 0.02), sensor: is('V', 2.7) },
      // Charged through its diode it has a least resistance, in ohm.
      insertion: {},
    }),
    { volt: 1 },
  ],
  [
    'a logic rail behind a resistor',
    (is) => ({
      source: { resistance: is('ohm', 0.06, 0.25), inductance: is('H', 0.2e-6) },
      capacitors: [bulkOf(is, 0.1)],
      load: { current: is('A', 5), rise: is('s', 2e-6), duration: is('s', 100e-6) },
      logicRail: {
        behind: 'resistor',
        resistance: is('ohm', 10, 0.05),
        capacitance: is('F', 47e-6),
        current: is('A', 0.01),
      },
      limits: { brownOut: is('V', 2.6, 0.02) },
      insertion: insertion(is),
    }),
    {},
  ],
]

const one: Scale = { ohm: 1, second: 1, volt: 1 }
const checked = (make: (is: Of) => object, scale: Scale) => {
  const is = scaled(scale)
  const conditions = {
    openCircuit: { from: is('V', 3.5) as number, to: is('V', 4.2) as number },
    ambientCelsius: { from: 0, to: 45 },
  }
  return checkDecoupling(make(is) as DecouplingChoice, conditions, { simulation: false })
}

describe.each(designs)('%s', (_, make, fixed) => {
  const usual = checked(make, one)
  it.each<Scale>([
    { ...one, ohm: 4 },
    { ...one, ohm: 0.25, second: 0.5 },
    { ...one, second: 2 },
    { ...one, volt: 2, ohm: 4 },
  ])('has the same margins in other units: %j', (given) => {
    const scale = { ...given, ...fixed }
    const there = checked(make, scale)
    const factors = factorsOf(scale)
    expect(there.verdict).toBe(usual.verdict)
    expect(there.margins.map(({ id, verdict }) => [id, verdict])).toEqual(
      usual.margins.map(({ id, verdict }) => [id, verdict]),
    )
    there.margins.forEach((margin, k) => {
      const before = usual.margins[k]!
      const factor = factors[margin.unit]!
      expect(factor, margin.unit).toBeDefined()
      for (const key of ['worst', 'limit', 'nominal', 'slack'] as const) {
        const size = Math.abs(before.limit) + Math.abs(before.worst)
        const apart = Math.abs(margin[key] / factor - before[key])
        expect(apart, `${margin.id} ${key}: ${margin[key] / factor} for ${before[key]}`).toBeLessThanOrEqual(
          1e-9 * size,
        )
      }
    })
    const [now, then] = [there.steady.capacitance, usual.steady.capacitance]
    if (then === null) expect(now).toBeNull()
    else expect(now! / factors['F']! / Math.max(then, 1e-30)).toBeCloseTo(then === 0 ? 0 : 1, 6)
  })
})
