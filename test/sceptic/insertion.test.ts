import { checkDecoupling, type DecouplingChoice } from '@ohmward/decoupling'
import { describe, expect, it } from 'vitest'
import { highestInserted, type Inserted } from './decoupling/insertion.js'
import { marginOf } from './tools/tally.js'

/** Boltzmann constant times 298.15 K over the elementary charge, V. */
const THERMAL = (1.380649e-23 * 298.15) / 1.602176634e-19

const volts = 4.2
const bias = [
  [0, 1],
  [2, 0.6],
  [4, 0.3],
  [6.3, 0.15],
] as const
const conditions = {
  openCircuit: { from: volts, to: volts },
  ambientCelsius: { from: 25, to: 25 },
  ageYears: { from: 0, to: 0 },
}
const known = { volts, resistance: 0.03, inductance: 1e-6, capacitance: 10e-6, series: 3e-3 }

/** What the check says of it; without a hold-up capacitor where there is none. */
function claimed(logicRail?: DecouplingChoice['logicRail']): number {
  const { resistance, inductance, capacitance } = known
  const ceramic = {
    ...{ capacitance, seriesResistance: '3 mohm ±0.1 %', ratedVoltage: 25 },
    bias: bias.map(([at, factor]) => ({ volts: at, factor })),
  }
  const choice: DecouplingChoice = {
    source: { resistance, inductance },
    capacitors: [ceramic],
    load: { current: 0.1, rise: '10 us' },
    limits: { brownOut: 2 },
    ...(logicRail && { logicRail }),
  }
  return marginOf(checkDecoupling(choice, conditions, { simulation: false }), 'rated-voltage')!.worst
}

describe('the peak of plugging in, with a hold-up capacitor behind a diode', () => {
  const alone = claimed()
  it.each([
    ['100 uF', 100e-6, 0.1],
    ['22 uF', 22e-6, 0.1],
    ['4.7 uF and little resistance', 4.7e-6, 0.02],
    ['1 uF', 1e-6, 0.1],
  ] as const)('%s clamps it, and no further than the exponential law lets it', (_, hold, slope) => {
    const law = { drop: 0.35, at: 5e-3, scale: 1.5 * THERMAL, slope }
    const x: Inserted = { ...known, ...law, bias, hold, holdSeries: 0 }
    const worst = claimed({
      ...{ behind: 'diode', forwardVoltage: 0.35, forwardDrift: 0, emission: 1.5, slopeResistance: slope },
      ...{ capacitance: hold, current: 5e-3 },
    })
    const found = [0, 0.1, 0.3, 1].map((holdSeries) => highestInserted({ ...x, holdSeries }))
    expect(worst).toBeGreaterThan(Math.max(...found) - 1e-3)
    expect(worst).toBeLessThan(Math.max(...found) + 0.5)
    expect(worst).toBeLessThan(alone - 0.5)
  })
})
