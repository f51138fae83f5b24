import { cutOffLanding, referenceCode } from '@ohmward/adc/formulas'
import { between, exact, type Spread } from '@ohmward/quantity'
import { spreadOf } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'
import { seenReference } from '../formulas/index.js'
import { shareAtPin, throughDivider } from './cells-seen.js'
import { converterIn, fullScaleOf } from './converter.js'

/** What the converter that reads the rail adds to a code: its gain, and counts of offset, nonlinearity and rounding, noise apart. */
export function converterOf(design: ReadDesign) {
  const { bits, spreads } = converterIn(design)
  const { e_offset, e_gain, e_INL, n_rms } = spreads
  const counts = Math.max(-e_offset.lower, e_offset.upper) + Math.max(-e_INL.lower, e_INL.upper)
  return { bits, gain: e_gain, counts, noise: n_rms.upper }
}

/**
 * Code by which a count of error weighs, at its least: of the internal reference against a rail, and behind a divider of
 * the pin's as well, since the one is divided by the other.
 */
export function weighingCode(design: ReadDesign, volts: number, own: number): number {
  const { bits: N_bits } = converterOf(design)
  const V_bg = design.controller.internalReference!.voltage.lower
  const share = shareAtPin(design)
  const { upper: V_rail } = fullScaleOf(design, exact(own))
  if (share === undefined) return referenceCode({ V_bg, N_bits, V_rail })
  const [reference, pin] = [V_bg, volts * share.lower].map((V_bg) => referenceCode({ V_bg, N_bits, V_rail }))
  return 1 / (1 / reference! + 1 / pin!)
}

/**
 * Rail at which a threshold really acts: the reference is off, and without a calibration the converter as well; of a divider
 * its ratio and the leakage of the pin.
 *
 * @param own - the converter's own rail, at its highest, where that is another one
 */
export function actsAt(design: ReadDesign, threshold: number, own: () => number): Spread {
  const reference = design.controller.internalReference!.voltage
  const { nominal: V_bgnom } = reference
  const left = design.monitor?.calibration
  const { gain, counts } = converterOf(design)
  // A calibration takes the converter's own errors out, but not the rounding: the code and the threshold are rounded each, the latter
  // by up to a whole count, so that it acts early.
  const [late, early] = [1, 1.5].map((rounded) => rounded + (left === undefined ? counts : 0)) as [number, number]
  const code_bg = weighingCode(design, threshold, shareAtPin(design) ? own() : threshold)
  const V_bg = spreadOf(seenReference, {
    V_bg: left === undefined ? reference : between(V_bgnom * (1 + left.lower), V_bgnom * (1 + left.upper), V_bgnom),
    e_gain: left === undefined ? gain : 0,
    n_err: between(-late, early, 0),
    code_bg,
  })
  return throughDivider(design, spreadOf(cutOffLanding, { V_cut: threshold, V_bg, V_bgnom }))
}
