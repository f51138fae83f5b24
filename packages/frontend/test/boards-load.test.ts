import { type Design, exampleDesign, simulateBoards } from '@ohmward/frontend'
import { expect, it } from 'vitest'
import { Random } from '../../../test/sceptic/tools/random.js'

it('has the load of each board cold as well as at work, not at a temperature by chance', () => {
  // A load of 20 % more at 70 degC than at 20 degC, and a switch whose limit of current lies in between.
  const { board: _, monitor: __, bursts: ___, ...bare } = exampleDesign
  const { insertion: ____, ...decoupling } = exampleDesign.decoupling
  const design = {
    ...bare,
    decoupling,
    supply: {
      source: { kind: 'port', voltage: '4 V ±1 %', currentLimit: '20 A', leadResistance: '10 mohm' },
      path: [{ name: 'lead', resistance: '10 mohm', temperatureCoefficient: 0, currentLimit: '5.5 A' }],
    },
    load: { resistance: '0.7 ohm ±5 %', temperatureCoefficient: '4000 ppm/K', workingCelsius: 70 },
    ambientCelsius: { from: '20 degC', to: '20 degC' },
    pwm: { frequency: '100 Hz', duty: { from: 1, to: 1 } },
  } as Design
  const { rows } = simulateBoards(design, { boards: 2000 })
  const { fails } = rows.find(({ id }) => id === 'supply/current-limit-of-lead')!
  // Ohm, on boards at random: leads and path of 20 milliohm, the cold load, and a switch of 10 to 30 milliohm.
  const random = new Random(11)
  let [least, most] = [0, 0]
  for (let i = 0; i < 20_000; i++) {
    const volts = 4 * (1 + random.even(-0.01, 0.01))
    const cold = 0.7 * (1 + random.even(-0.05, 0.05))
    if (volts / (0.02 + cold + 0.03) > 5.5) least++
    if (volts / (0.02 + cold + 0.01) > 5.5) most++
  }
  expect(fails).toBeGreaterThan(least / 20_000 - 0.03)
  expect(fails).toBeLessThan(most / 20_000 + 0.03)
})
