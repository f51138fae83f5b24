import { type Design, exampleDesign, simulateBoards } from '@ohmward/frontend'
import { expect, it } from 'vitest'
import { Random } from '../../../test/sceptic/tools/random.js'

it('holds the current of each board to 70 % of its own trip, not to that of the worst', () => {
  const { board: _, monitor: __, bursts: ___, ...bare } = exampleDesign
  const { insertion: ____, ...decoupling } = exampleDesign.decoupling
  const design = {
    ...bare,
    decoupling,
    supply: {
      source: { kind: 'port', voltage: '4 V ±1 %', currentLimit: '40 A', leadResistance: '10 mohm' },
      path: [
        { name: 'protection', resistance: '20 mohm ±20 %', temperatureCoefficient: 0, tripVoltage: '0.16 V ±15 %' },
      ],
    },
    load: { resistance: '0.7 ohm ±5 %', temperatureCoefficient: 0, workingCelsius: 20 },
    ambientCelsius: { from: '20 degC', to: '20 degC' },
    pwm: { frequency: '100 Hz', duty: { from: 1, to: 1 } },
  } as Design
  const { rows } = simulateBoards(design, { boards: 4000 })
  const { fails } = rows.find(({ id }) => id === 'supply/trip-of-protection')!
  // Ohm, on boards at random: leads of 10 milliohm, a switch of 10 to 30 milliohm, what is always on beside the load.
  const random = new Random(12)
  let [least, most] = [0, 0]
  const count = 40_000
  for (let i = 0; i < count; i++) {
    const ohms = 0.02 * (1 + random.even(-0.2, 0.2))
    const trip = (0.7 * 0.16 * (1 + random.even(-0.15, 0.15))) / ohms
    const [volts, load] = [4 * (1 + random.even(-0.01, 0.01)), 0.7 * (1 + random.even(-0.05, 0.05))]
    if (volts / (0.01 + ohms + load + 0.03) > trip) least++
    if (volts / (0.01 + ohms + load + 0.01) + 0.05 > trip) most++
  }
  expect(least / count).toBeGreaterThan(0.2)
  expect(most / count).toBeLessThan(0.8)
  expect(fails).toBeGreaterThan(least / count - 0.02)
  expect(fails).toBeLessThan(most / count + 0.02)
})
