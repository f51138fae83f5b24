import { divider as measurement } from '@ohmward/divider'
import { between, exact, type Spread } from '@ohmward/quantity'
import { spreadOf } from '@ohmward/supply'
import { mainRail, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { dividedLanding, dividerShare, missedOutOfPin, missedThroughPair } from '../formulas/index.js'

/** Share of the main rail that reaches the pin; undefined without a divider. */
export function shareAtPin({ monitor }: ReadDesign): Spread | undefined {
  const divider = monitor?.divider
  if (divider?.upper === undefined || divider.lower === undefined) return divider?.ratio
  return spreadOf(dividerShare, { R_up: divider.upper, R_low: divider.lower })
}

/** Where a threshold of the firmware really acts, its divider included. A calibration of the board has that in it already. */
export function throughDivider(design: ReadDesign, V_act: Spread): Spread {
  const k_div = shareAtPin(design)
  if (k_div === undefined || design.monitor?.calibration !== undefined) return V_act
  const { ambientCelsius, monitor } = design
  const { converter } = measurement.read(design.divider, { rail: { from: 60, to: 60 }, ambientCelsius })
  const { I_leak } = converter.spreads
  const most = Math.max(Math.abs(I_leak.lower), Math.abs(I_leak.upper))
  const R_up = monitor?.divider?.upper ?? exact(0)
  return spreadOf(dividedLanding, { V_act, k_divn: k_div.nominal, k_div, I_leak: between(-most, most, 0), R_up })
}

/** Whether the converter can tell the voltage of the cells: on their rail by its own reference, behind another by a divider. */
export const seesCells = (design: ReadDesign): boolean =>
  shareAtPin(design) !== undefined || railOf(design, 'converter') === mainRail

/**
 * Counts that a sample of the divided cells is short of at most: the sampling capacitor is taken as empty before it. Undefined where
 * no divider says what fills it. Pitfall D01.
 */
export function missedCounts({ divider: given, ambientCelsius, monitor }: ReadDesign): number | undefined {
  const { upper, lower, capacitance } = monitor?.divider ?? {}
  const { converter } = measurement.read(given, { rail: { from: 60, to: 60 }, ambientCelsius })
  const { bits: N_bits, spreads } = converter
  const [t_acq, R_sw, C_sh] = [spreads.t_acq.lower, spreads.R_sw.upper, spreads.C_sh.upper]
  if (capacitance) return missedOutOfPin({ N_bits, t_acq, R_sw: Math.max(R_sw, 1e-3), C_sh, C_pin: capacitance.lower })
  if (upper === undefined || lower === undefined) return undefined
  return missedThroughPair({ N_bits, t_acq, R_up: upper.upper, R_low: lower.upper, R_sw, C_sh })
}
