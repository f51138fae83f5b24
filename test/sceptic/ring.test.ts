import { checkDecoupling } from '@ohmward/decoupling'
import { describe, expect, it } from 'vitest'
import { count, seed } from './tools/designs.js'
import { Random } from './tools/random.js'
import { marginOf } from './tools/tally.js'

interface Branch {
  readonly capacitance: number
  readonly resistance: number
  readonly inductance: number
}

interface Loop {
  readonly resistance: number
  readonly inductance: number
  readonly load: number
  readonly rise: number
  readonly duration: number
  readonly branches: readonly Branch[]
}

const open = 4.2

/** One board with two kinds of capacitors, each with its inductance, on a loop with its own. */
const drawn = (random: Random): Loop => ({
  resistance: random.decades(0.05, 0.3),
  inductance: random.decades(5e-8, 4e-7),
  load: random.even(3, 8),
  rise: random.decades(1e-7, 3e-6),
  duration: 2e-4,
  branches: [
    {
      capacitance: random.decades(2e-5, 5e-4),
      resistance: random.decades(5e-3, 4e-2),
      inductance: random.decades(2e-9, 5e-8),
    },
    {
      capacitance: random.decades(1e-6, 1e-5),
      resistance: random.decades(2e-3, 1e-2),
      inductance: random.decades(1e-9, 5e-9),
    },
  ],
})

/**
 * Highest rail while the load comes on, is on, and goes, by the classical Runge-Kutta method on Kirchhoff's laws. Where every branch has
 * an inductance, the rail follows from the slopes of the currents, which add up to that of the load.
 */
function highest({ resistance, inductance, load, rise, duration, branches }: Loop): number {
  const n = branches.length
  const size = 1 + 2 * n
  const wanted = 1 / inductance + branches.reduce((sum, b) => sum + 1 / b.inductance, 0)
  const railOf = (x: Float64Array, slope: number) => {
    let sum = (open - resistance * x[0]!) / inductance - slope
    for (let k = 0; k < n; k++) sum += (x[1 + k]! - branches[k]!.resistance * x[1 + n + k]!) / branches[k]!.inductance
    return sum / wanted
  }
  /** Slopes of a state, left in `y`. */
  const slopes = (y: Float64Array, x: Float64Array, slope: number) => {
    const volts = railOf(x, slope)
    y[0] = (open - resistance * x[0]! - volts) / inductance
    for (let k = 0; k < n; k++) {
      const b = branches[k]!
      y[1 + k] = -x[1 + n + k]! / b.capacitance
      y[1 + n + k] = (x[1 + k]! - b.resistance * x[1 + n + k]! - volts) / b.inductance
    }
    return y
  }
  const made = () => new Float64Array(size)
  const [a, b, c, d, between] = [made(), made(), made(), made(), made()]
  const moved = (x: Float64Array, y: Float64Array, h: number) => {
    for (let j = 0; j < size; j++) between[j] = x[j]! + h * y[j]!
    return between
  }
  const x = Float64Array.from([0, ...branches.map(() => open), ...branches.map(() => 0)])
  let most = open
  const quickest = Math.min(
    ...branches.map((b) => Math.sqrt(b.inductance * Math.min(...branches.map((c) => c.capacitance)))),
  )
  for (const [length, slope] of [
    [rise, load / rise],
    [duration - rise, 0],
    [rise, -load / rise],
    [duration, 0],
  ] as const) {
    const steps = Math.ceil(length / (quickest / 40))
    const h = length / steps
    most = Math.max(most, railOf(x, slope))
    for (let i = 0; i < steps; i++) {
      slopes(a, x, slope)
      slopes(b, moved(x, a, h / 2), slope)
      slopes(c, moved(x, b, h / 2), slope)
      slopes(d, moved(x, c, h), slope)
      for (let j = 0; j < size; j++) x[j] = x[j]! + (h / 6) * (a[j]! + 2 * b[j]! + 2 * c[j]! + d[j]!)
      most = Math.max(most, railOf(x, slope))
    }
  }
  return most
}

function claimed({ resistance, inductance, load, rise, duration, branches }: Loop): number {
  const capacitors = branches.map((b) => ({
    capacitance: b.capacitance,
    seriesResistance: `${b.resistance} ohm ±0.0001 %`,
    seriesInductance: b.inductance,
    ratedVoltage: 25,
  }))
  const answer = checkDecoupling(
    {
      ...{ source: { resistance, inductance }, capacitors, limits: { brownOut: 0.5 } },
      load: { current: load, rise, duration, fall: rise },
    },
    { openCircuit: { from: open, to: open }, ambientCelsius: { from: 25, to: 25 }, ageYears: { from: 0, to: 0 } },
    { simulation: false },
  )
  return marginOf(answer, 'rated-voltage')!.worst
}

describe('a rail whose capacitors have inductance', () => {
  it('is never higher than the check says, not even when the load comes on', () => {
    const random = new Random(seed + 4711)
    let above = 0
    for (let i = 0; i < count; i++) {
      const loop = drawn(random)
      const found = highest(loop)
      expect(claimed(loop), JSON.stringify(loop)).toBeGreaterThan(found - 1e-4)
      if (found > open + 0.05) above++
    }
    expect(above).toBeGreaterThan(count / 20)
  })

  it('rings to 4.78 V on a source of 4.2 V while 7.9 A rise in 0.39 µs', () => {
    const loop: Loop = {
      ...{ resistance: 0.149, inductance: 0.172e-6, load: 7.91, rise: 0.386e-6, duration: 230e-6 },
      branches: [
        { capacitance: 67.1e-6, resistance: 15.1e-3, inductance: 41e-9 },
        { capacitance: 1.313e-6, resistance: 2.5e-3, inductance: 1.555e-9 },
      ],
    }
    expect(highest(loop)).toBeCloseTo(4.78, 2)
    expect(claimed(loop)).toBeCloseTo(highest(loop), 3)
  })
})
