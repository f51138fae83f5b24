import { missedCounts } from '@ohmward/adc'
import { between, exact, type Spread } from '@ohmward/quantity'
import { spreadOf } from '@ohmward/supply'
import { mainRail, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { dividedLanding, dividedReading, dividerShare } from '../formulas/index.js'
import { converterIn, countsAgainstRail } from './converter.js'

/** Share of the main rail that reaches the pin; undefined without a divider. */
export function shareAtPin({ monitor }: ReadDesign): Spread | undefined {
  const divider = monitor?.divider
  if (divider?.upper === undefined || divider.lower === undefined) return divider?.ratio
  return spreadOf(dividerShare, { R_up: divider.upper, R_low: divider.lower })
}

/** What a divider makes of a voltage; undefined without one, and where a calibration of the board has that in it already. */
function dividerOf(design: ReadDesign) {
  const k_div = shareAtPin(design)
  const { monitor } = design
  if (k_div === undefined || monitor?.calibration !== undefined) return undefined
  const { I_leak } = converterIn(design).spreads
  const most = Math.max(Math.abs(I_leak.lower), Math.abs(I_leak.upper))
  const R_up = monitor?.divider?.upper ?? exact(0)
  return { k_divn: k_div.nominal, k_div, I_leak: between(-most, most, 0), R_up }
}

/** Where a threshold of the firmware really acts, its divider included. */
export function throughDivider(design: ReadDesign, V_act: Spread): Spread {
  const divider = dividerOf(design)
  return divider ? spreadOf(dividedLanding, { V_act, ...divider }) : V_act
}

/** Relative error of a rail as it is read, its divider included. */
export function readThrough(design: ReadDesign, V_true: number, e_V: Spread): Spread {
  const divider = dividerOf(design)
  if (divider === undefined) return e_V
  const { lower, upper } = spreadOf(dividedReading, { V_true, e_V, ...divider })
  return between(lower / V_true - 1, upper / V_true - 1, 0)
}

/**
 * Whether the converter can tell the voltage of the cells: by a divider, or on their rail by the internal reference, where it counts
 * against that rail.
 */
export const seesCells = (design: ReadDesign): boolean =>
  shareAtPin(design) !== undefined || (railOf(design, 'converter') === mainRail && countsAgainstRail(design))

/** Resistance behind the pin, ohm, at its largest: the two side by side; undefined without them. */
function sourceOfPin({ monitor }: ReadDesign): number | undefined {
  const { upper, lower } = monitor?.divider ?? {}
  if (upper === undefined || lower === undefined) return undefined
  return (upper.upper * lower.upper) / (upper.upper + lower.upper)
}

/** Time constant with which a capacitor at the pin follows the rail, s. */
export function lagOfPin(design: ReadDesign): number {
  const R_src = sourceOfPin(design)
  const C_pin = design.monitor?.divider?.capacitance
  return R_src === undefined || C_pin === undefined ? 0 : R_src * C_pin.upper
}

/** Capacitance of a pin at which no capacitor stands, F: none that fills a sampling capacitor. */
const barePin = 1e-18

/**
 * Counts that a sample of the divided cells is short of at most: the sampling capacitor is taken as empty before it, and is filled
 * through the two resistors, out of the capacitor at the pin where there is one, which has the time between two readings to be
 * charged again. Undefined where no divider says what fills it. Pitfall D01.
 */
export function missedOfCells(design: ReadDesign): number | undefined {
  const R_src = sourceOfPin(design)
  if (R_src === undefined) return undefined
  const { capacitance, interval = 1 / design.pwm.frequency } = design.monitor!.divider!
  const { bits, spreads } = converterIn(design)
  return missedCounts({
    R_src,
    capacitance: capacitance ?? exact(barePin),
    R_sw: spreads.R_sw.upper,
    C_sh: spreads.C_sh.upper,
    bits,
    t_acq: spreads.t_acq.lower,
    T_s: interval,
  })
}
