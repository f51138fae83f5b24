import { type Design, exampleDesign, readDesign, simulateBoards, solveAt } from '@ohmward/frontend'
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
  // Ohm, on boards at random: leads and path of 20 milliohm, up to one in the sensor, the cold load, and the switch as the walk has it.
  const { switch: on } = solveAt(readDesign(design), { charge: 1, celsius: 20, age: 0 })
  const random = new Random(11)
  let [cold, chance] = [0, 0]
  for (let i = 0; i < 20_000; i++) {
    const volts = 4 * (1 + random.even(-0.01, 0.01))
    const around = 0.02 + random.even(0, 0.001) + random.even(on.lower, on.upper)
    // At work it is of 1 + 0.004 * 50 times as much.
    const [own, any] = [0.7 * (1 + random.even(-0.05, 0.05)), random.even(0.7 * 0.95, 0.7 * 1.05 * 1.2)]
    if (volts / (around + own) > 5.5) cold++
    if (volts / (around + any) > 5.5) chance++
  }
  // Two simulations, one of 2000 boards: 0.011 (one sigma).
  expect(Math.abs(fails - cold / 20_000)).toBeLessThan(0.04)
  expect(Math.abs(fails - chance / 20_000)).toBeGreaterThan(0.15)
})
