import {
  acceptanceLimits,
  conformity,
  globalRisks,
  guardBand,
  moments,
  normalDensity,
  normalProbability,
  normalQuantile,
  studentProbability,
  studentQuantile,
} from '@ohmward/budget/statistics'
import { plusMinus } from '@ohmward/quantity'

export const examples = [
  () => conformity({ estimate: 4.9, u: 0.1 }, { upper: 5 }),
  () => [guardBand(0.1, { multiple: 1 }), guardBand(0.1, { probability: 0.95 })],
  () => acceptanceLimits({ lower: 4, upper: 5 }, 0.1, { multiple: 1 }),
  () => globalRisks({ process: { mean: 4.5, u: 0.2 }, u: 0.05, tolerance: { lower: 4, upper: 5 } }),
  () => moments(plusMinus(12, 0.5)),
  () => [normalDensity(0), normalProbability(1.96), normalQuantile(0.975)],
  () => [studentProbability(2.78, 4), studentQuantile(0.975, 4)],
]
