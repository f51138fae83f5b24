import { type ComputedBy, chain, type NeededBy, type PlaceOf, type Values } from '@ohmward/budget'
import * as f from '../formulas/index.js'
import { demandInputs, finite, pick } from './grounded.js'

/** The chain of a load at the rail: four resistors instead of two, no pedestal, no clamp in the sense path. */
export const differenceChain = /*#__PURE__*/ chain([
  f.wireResistance,
  f.spanResistance,
  f.coldCurrent,
  f.referenceDissipation,
  f.referenceTemperature,
  f.warmReference,
  f.outerAtRail,
  f.inputShare,
  f.lowerVoltage,
  f.currentFromRail,
  f.strayVoltage,
  f.senseVoltageAtRail,
  f.commonMode,
  f.inputOffset,
  f.differenceBias,
  f.differenceError,
  f.differenceGain,
  f.differenceOutput,
  f.highestOutput,
  f.limitedOutput,
  f.pinVoltage,
  f.idealCode,
  f.convertedCode,
  f.clippedCode,
  f.indicatedShare,
  f.indicatedFromRail,
])

type Formulas = typeof differenceChain.formulas

/** Its place of work: inputs, and beside them the values that it computes, all by symbol. */
export type DifferenceWorkspace = PlaceOf<Formulas>

/** What the difference chain needs, by symbol. */
export type DifferenceInputs = Values<NeededBy<Formulas>>

/** What the difference chain computes, by symbol. */
export type DifferenceReading = Values<ComputedBy<Formulas>>

/** Follows the reading from the true resistance to the indicated one, load at the rail, in place. */
export function followAtRail(y: DifferenceWorkspace): number {
  y.R_wire = f.wireResistance(y)
  y.R_span = f.spanResistance(y)
  y.I_cold = f.coldCurrent(y)
  y.P_ref = f.referenceDissipation(y)
  y.T_ref = f.referenceTemperature(y)
  y.R_warm = f.warmReference(y)
  y.R_out = f.outerAtRail(y)
  y.beta = f.inputShare(y)
  y.V_m = f.lowerVoltage(y)
  y.I_t = f.currentFromRail(y)
  y.V_stray = f.strayVoltage(y)
  y.V_x = f.senseVoltageAtRail(y)
  y.V_cm = f.commonMode(y)
  y.V_off = f.inputOffset(y)
  y.V_bias = f.differenceBias(y)
  y.V_err = f.differenceError(y)
  y.g = f.differenceGain(y)
  y.V_want = f.differenceOutput(y)
  y.V_hi = f.highestOutput(y)
  y.V_out = f.limitedOutput(y)
  y.V_pin = f.pinVoltage(y)
  y.code_ideal = f.idealCode(y)
  y.code_c = f.convertedCode(y)
  y.code_out = f.clippedCode(y)
  y.r = f.indicatedShare(y)
  y.R_ind = f.indicatedFromRail(y)
  return y.R_ind
}

/** Every value on the way from the true resistance to the indicated one, load at the rail. @throws InputError naming the input that is no number, or the value that isn't finite */
export function readingAtRail(x: DifferenceInputs): DifferenceReading {
  demandInputs(x, differenceChain.inputs)
  const y = Object.assign(differenceChain.place(), x)
  followAtRail(y)
  return finite(pick(y, differenceChain.computed))
}

/** The formulas of {@link readingAtRail} in the order of calculation. */
export const differenceFormulas = () => differenceChain.formulas
