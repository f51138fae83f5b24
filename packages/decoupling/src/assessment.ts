import type { Assessment, Budget } from '@ohmward/budget'
import type { RailLimit } from './rail/limits.js'
import type { RailPicture } from './rail/picture.js'
import type { PwmSummary } from './rail/pwm-summary.js'
import type { SteadySag } from './rail/sag.js'

/** Budgets of a decoupling check. */
export interface DecouplingBudgets extends Readonly<Record<string, Budget>> {
  /** The lowest rail voltage at the worst conditions. */
  readonly V_min: Budget
}

/** What a rail check answers beside its margins. */
export interface DecouplingAssessment extends Assessment<DecouplingBudgets> {
  /** The steady sag of the worst board, which no capacitor changes. */
  readonly steady: SteadySag
  /** Values of the inputs on the worst board, by symbol. */
  readonly worst: Readonly<Record<string, number>>
  /** Nominal lowest point at the worst conditions. */
  readonly lowest: { readonly time: number | null; readonly value: number; readonly kind: string }
  /** The limits at their largest, the highest first. */
  readonly limits: readonly RailLimit[]
  readonly picture: RailPicture
  /** Steady PWM with nominal parts at the worst conditions; `null` without PWM or without a steady state. */
  readonly pwm: PwmSummary | null
}
