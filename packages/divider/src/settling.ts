import { missedCounts } from '@ohmward/adc'
import { acquisitionError, unsettledShare } from '@ohmward/adc/formulas'
import type { ReadChoice } from './choice.js'
import { amplifierTimeConstant } from './formulas/index.js'

type Chosen = Pick<
  ReadChoice,
  'topology' | 'gainResistors' | 'amplifier' | 'amplifierSupply' | 'rail' | 'timing' | 'converter'
>

/** Gain that the firmware takes: nominal resistors, ideal amplifier. */
export function nominalGain({ topology, gainResistors: { feedback, ground } }: Chosen): number {
  return feedback.nominal / ground.nominal + (topology === 'load at ground' ? 1 : 0)
}

/** Largest time constant of the closed loop, whose noise gain is one more than the ratio of the resistors. */
export function loopTimeConstant({ gainResistors: { feedback, ground, ratioTolerance }, amplifier }: Chosen): number {
  const ratio = ratioTolerance
    ? (feedback.nominal / ground.nominal) * (1 + ratioTolerance.upper)
    : feedback.upper / ground.lower
  return amplifierTimeConstant({ G_noise: ratio + 1, GBW: amplifier.gainBandwidth.lower })
}

/** Counts that the sampling capacitor misses behind a filter's capacitor at the pin; undefined without one. */
export function missedBehindFilter({ timing, converter }: Chosen): number | undefined {
  const { spreads, bits } = converter
  const { filter, filterResistance, wait, samples } = timing
  if (!(filter.upper > 0 && filterResistance.lower > 0)) return undefined
  const t_acq = spreads.t_acq.lower
  const missed = missedCounts({
    R_sw: spreads.R_sw.upper,
    C_sh: spreads.C_sh.upper,
    R_src: filterResistance.upper,
    capacitance: { lower: filter.lower / filterResistance.upper, upper: filter.upper / filterResistance.lower },
    bits,
    t_acq,
    T_s: samples.nominal > 1 ? t_acq + spreads.t_conv.lower : Math.max(wait.lower, t_acq),
  })
  return Math.min(missed, 2 ** bits)
}

/** What is below this share of a step is nothing beside any count. */
const NOTHING = 1e-10

/**
 * Largest share that is still missing when the reading is taken, of the highest voltage that stood there before, either way:
 * of the step of amplifier and filter, and of the sampling capacitor's. Averaging is taken to leave it: the first sample
 * misses most of the step, and every one the same of the capacitor's.
 */
export function unsettledOf(choice: Chosen): number {
  const { amplifier: a, timing, converter, amplifierSupply, rail } = choice
  const t_off = timing.wait.lower - timing.edge.upper
  const t_left = t_off - a.recovery.upper - (amplifierSupply?.upper ?? rail.to) / a.slewRate.lower
  const [tau_a, tau_f] = [loopTimeConstant(choice), timing.filter.upper]
  // Without a filter the amplifier is alone.
  const tau_s = Math.max(tau_f, 1e-9 * tau_a)
  const step = t_left > 0 ? unsettledShare({ t_set: t_left, tau_f: tau_a, tau_s }) : 1
  const { spreads, bits } = converter
  const missed = missedBehindFilter(choice)
  const sample =
    missed !== undefined
      ? missed / 2 ** bits
      : acquisitionError({
          t_acq: spreads.t_acq.lower,
          R_s: timing.filterResistance.upper,
          R_sw: spreads.R_sw.upper,
          C_sh: spreads.C_sh.upper,
        })
  const share = Math.min(step + (1 - step) * sample, 1)
  return share < NOTHING ? 0 : share
}
