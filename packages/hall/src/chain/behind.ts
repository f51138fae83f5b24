import { missedCounts } from '@ohmward/adc'
import * as f from '../formulas/index.js'
import type { ReadChoice } from '../read-choice.js'
import { type Graininess, graininessOf, intervalOf } from './noise.js'
import { slowestOf, sourceAt } from './source.js'
import { type FreshZero, freshZero } from './zero.js'

/** What the firmware takes for granted: zero, sensitivity, divider, reference. */
type Nominal = Readonly<Record<'V_qn' | 'S_n' | 'k_dn' | 'V_refn', number>>

/** Values that stand behind the inputs. */
export interface Behind extends Graininess {
  /** Largest and smallest time constant of the filter, every part at its limit. */
  readonly tauMost: number
  readonly tauLeast: number
  /** From the edge until the reading stands, at most. */
  readonly needed: number
  /** From the edge to the sample. */
  readonly wait: number
  /** What the firmware takes for granted: zero, sensitivity, divider, reference. */
  readonly nominal: Nominal
  /** The firmware's straight line from codes to amperes. */
  readonly code_zero: number
  readonly A_count: number
  /** Counts of a full scale that sampling may still miss at its end. */
  readonly missed: number
  /** Noise and rounding of the zero's reading. */
  readonly zero: Graininess
  /** A zero that is read each time, in the time for which the load is off. */
  readonly fresh: FreshZero | undefined
}

/** What the firmware takes for granted: nominal parts, the rail in its middle. */
function nominalsOf(choice: ReadChoice): Nominal {
  const { sensor, sensorSupply, converter, divider, nominalRail } = choice
  const V_q0 = sensor.zeroOutput.nominal
  const S_0 = sensor.sensitivity.nominal
  const r_s = f.supplyRatio({ V_s: sensorSupply?.nominal ?? nominalRail, V_s0: sensor.ratedSupply.nominal })
  const follows = sensor.output === 'ratiometric'
  return {
    V_qn: follows ? f.nominalZero({ V_q0, r_s }) : V_q0,
    S_n: follows ? f.nominalSensitivity({ S_0, r_s }) : S_0,
    k_dn: divider
      ? f.dividerRatio({
          R_b: divider.bottom.nominal,
          R_o: sensor.outputResistance.nominal,
          R_t: divider.top.nominal,
        })
      : 1,
    V_refn: converter.reference.kind === 'absolute' ? converter.reference.V_ref0.nominal : nominalRail,
  }
}

/** Computes once what stands behind the inputs. */
export function behindOf(choice: ReadChoice): Behind {
  const { converter, timing, filter } = choice
  const slowest = slowestOf(choice)
  const tauMost = slowest.tau_f
  const tauLeast = f.filterTime({ R_src: sourceAt(choice, 'lower'), C_f: filter.capacitance.lower })
  const needed = f.neededWait({ t_edge: timing.edge.upper, N_bits: converter.bits, ...slowest })
  const wait = choice.wait ?? needed
  const nominal = nominalsOf(choice)
  const line = { ...nominal, N_bits: converter.bits }
  const A_count = f.countCurrent(line)
  const M_avg = timing.samples.nominal
  const M_w = timing.samplesPerWindow.nominal
  const grain = (samples: number, inWindow: number) =>
    graininessOf(choice, { S_n: nominal.S_n, A_count }, { tauMost, tauLeast }, samples, inWindow)
  return {
    tauMost,
    tauLeast,
    needed,
    wait,
    nominal,
    code_zero: f.zeroCode(line),
    A_count,
    missed: missedOf(choice),
    ...grain(M_avg, M_w),
    zero: grain(choice.calibration.samples, 1),
    fresh: freshZero(choice, needed),
  }
}

/** What the converter's sampling still misses, every part at its limit, of the last sample of a window. */
function missedOf(choice: ReadChoice): number {
  const { converter, filter, timing } = choice
  const { spreads, bits } = converter
  const t_acq = spreads.t_acq.lower
  return missedCounts({
    R_src: sourceAt(choice, 'upper'),
    capacitance: filter.capacitance,
    R_sw: spreads.R_sw.upper,
    C_sh: spreads.C_sh.upper,
    bits,
    t_acq,
    T_s: intervalOf(choice),
    burst: { samples: timing.samplesPerWindow.nominal, interval: t_acq + spreads.t_conv.lower },
  })
}
