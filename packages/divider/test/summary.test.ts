import { format } from '@ohmward/quantity'
import { expect, it } from 'vitest'
import { checkDivider, type DividerChoice } from '../src/index.js'
import { cell, ideal } from './design.js'

it('the summary tells the simulated interval where the linear one is not valid', () => {
  // One rectangular error alone: its 95 % are 0.95 of its limits, and not the 1.96/1.73 of them that a normal law says.
  const choice: DividerChoice = { ...ideal, reference: '47 ohm ±1 %', gainResistors: ideal.gainResistors }
  const { budgets, summary } = checkDivider(choice, cell, { simulation: { maximumTrials: 200_000 } })
  const { comparison, simulation } = budgets.R_ind
  expect(comparison!.agrees).toBe(false)
  const [lower, upper] = simulation!.interval
  expect(Math.max(upper - 0.7, 0.7 - lower)).toBeLessThan(0.97 * 0.007)
  expect(summary).toContain(`±${format(Math.max(upper - 0.7, 0.7 - lower), 'ohm', { digits: 2 })} (95 %)`)
})
