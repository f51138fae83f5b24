import { averaged } from '@ohmward/adc'
import * as f from '../formulas/index.js'
import type { ReadChoice } from '../read-choice.js'

/** What noise is counted in: the sensor's sensitivity as the firmware assumes it, and the current of one count. */
type Scale = Readonly<Record<'S_n' | 'A_count', number>>

/** Noise and rounding of a reading. */
export interface Graininess {
  /** Sensor noise, root mean square, in volts at its output. */
  readonly sensorNoise: number
  /** Rounding that averaging leaves: half-width in counts. */
  readonly halfWidth: number
  /** The converter's noise, root mean square, in counts. */
  readonly converterNoise: number
  /** All noise together, root mean square, in counts. */
  readonly noise: number
}

/** Noise and rounding of a mean of samples, of which some are taken one after another in the same window. */
export function graininessOf(
  choice: ReadChoice,
  { S_n, A_count }: Scale,
  { tauMost, tauLeast }: { readonly tauMost: number; readonly tauLeast: number },
  M_avg: number,
  M_w: number,
): Graininess {
  const { sensor, converter } = choice
  const { n_rms } = converter.spreads
  const within = f.sampleCorrelation({ T_s: conversionOf(choice), tau_f: tauMost })
  const between = f.sampleCorrelation({ T_s: intervalOf(choice), tau_f: tauMost })
  const q_n = f.meanVariance({ M_w, rho_n: Math.min(within, 0.9999) })
  const q_w = f.windowVariance({ N_win: M_avg / M_w, rho_w: Math.min(between, 0.9999) })
  const once = (end: 'lower' | 'upper', tau_f: number) => {
    const BW_n = f.noiseBandwidth({ BW_s: sensor.bandwidth[end], f_3: f.filterCorner({ tau_f }) })
    return f.outputNoise({ e_d: sensor.noiseDensity[end], BW_n })
  }
  // Only noise that is sure to be there, and that is new with each sample, dithers the rounding away.
  const fresh = f.ditherNoise({
    n_rms: n_rms.lower,
    n_s: f.noiseCounts({ V_nrms: once('lower', tauMost), S_n, A_count }),
    rho_n: M_w > 1 ? within : between,
  })
  // Of a million counts of noise nothing dithers better than the first.
  const n_dith = Math.min(fresh, 1e6)
  const { halfWidth, noise: n_mean } = averaged(n_dith, M_avg)
  const converterNoise = f.converterNoise({ n_rms: n_rms.upper, M_avg, n_mean, n_dith })
  const sensorNoise = f.meanNoise({ V_nrms: once('upper', tauLeast), q_n, q_w })
  const n_s = f.noiseCounts({ V_nrms: sensorNoise, S_n, A_count })
  return { sensorNoise, halfWidth, converterNoise, noise: f.totalNoise({ n_conv: converterNoise, n_s }) }
}

/** Acquisition and conversion of one sample, at their shortest. */
const conversionOf = ({ converter: { spreads } }: ReadChoice) => spreads.t_acq.lower + spreads.t_conv.lower

/** Time from one sample to the next, or to the next window's. */
export function intervalOf(choice: ReadChoice): number {
  const { timing, pwm } = choice
  return Math.max(timing.interval.nominal || (pwm ? 1 / pwm.frequency : 1e-3), conversionOf(choice))
}
