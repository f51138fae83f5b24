import { type ComputedBy, chain, type NeededBy, type PlaceOf, type Values } from '@ohmward/budget'
import { demand, demandFinite } from '@ohmward/quantity'
import * as f from '../formulas/index.js'

/** The chain of a load at ground, from the true resistance to the indicated one. */
export const groundedChain = /*#__PURE__*/ chain([
  f.wireResistance,
  f.groundedSpan,
  f.coldCurrent,
  f.referenceDissipation,
  f.referenceTemperature,
  f.warmReference,
  f.outerResistance,
  f.testCurrent,
  f.strayVoltage,
  f.senseVoltage,
  f.inputOffset,
  f.feedbackParallel,
  f.biasVoltage,
  f.inputVoltage,
  f.resistorGain,
  f.actualGain,
  f.wantedOutput,
  f.highestOutput,
  f.limitedOutput,
  f.pinVoltage,
  f.idealCode,
  f.convertedCode,
  f.clippedCode,
  f.indicatedRatio,
  f.indicatedResistance,
])

type Formulas = typeof groundedChain.formulas

/** Its place of work: inputs, and beside them the values that it computes, all by symbol. */
export type Workspace = PlaceOf<Formulas>

/** What the chain of a load at ground needs, by symbol. */
export type ChainInputs = Values<NeededBy<Formulas>>

/** What the chain computes, by symbol. */
export type Reading = Values<ComputedBy<Formulas>>

/**
 * Follows the reading from the true resistance to the indicated one, load at ground, in place: it reads the inputs of
 * `y` and leaves every value there. So a simulation allocates nothing.
 *
 * @returns the indicated resistance in ohms
 */
export function follow(y: Workspace): number {
  y.R_wire = f.wireResistance(y)
  y.R_span = f.groundedSpan(y)
  y.I_cold = f.coldCurrent(y)
  y.P_ref = f.referenceDissipation(y)
  y.T_ref = f.referenceTemperature(y)
  y.R_warm = f.warmReference(y)
  y.R_out = f.outerResistance(y)
  y.I_t = f.testCurrent(y)
  y.V_stray = f.strayVoltage(y)
  y.V_x = f.senseVoltage(y)
  y.V_off = f.inputOffset(y)
  y.R_fg = f.feedbackParallel(y)
  y.V_bias = f.biasVoltage(y)
  y.V_in = f.inputVoltage(y)
  y.G = f.resistorGain(y)
  y.G_a = f.actualGain(y)
  y.V_want = f.wantedOutput(y)
  y.V_hi = f.highestOutput(y)
  y.V_out = f.limitedOutput(y)
  y.V_pin = f.pinVoltage(y)
  y.code_ideal = f.idealCode(y)
  y.code_c = f.convertedCode(y)
  y.code_out = f.clippedCode(y)
  y.r = f.indicatedRatio(y)
  y.R_ind = f.indicatedResistance(y)
  return y.R_ind
}

/** Every value on the way from the true resistance to the indicated one, load at ground. @throws InputError naming the input that is no number, or the value that isn't finite */
export function readingOf(x: ChainInputs): Reading {
  demandInputs(x, groundedChain.inputs)
  const y = Object.assign(groundedChain.place(), x)
  follow(y)
  return finite(pick(y, groundedChain.computed))
}

/** Refuses inputs of a chain that aren't numbers. @throws InputError naming the first */
export function demandInputs(x: object, symbols: readonly string[]): void {
  demand(typeof x === 'object' && x !== null, { field: 'x', value: x, allowed: 'numbers by symbol' })
  for (const symbol of symbols) demandFinite(symbol, (x as Readonly<Record<string, unknown>>)[symbol])
}

/** The same values, if each is finite: an input far outside its formula's range leaves none. @throws InputError naming the first that isn't */
export function finite<V extends Readonly<Record<string, number>>>(values: V): V {
  for (const [symbol, value] of Object.entries(values)) demandFinite(symbol, value)
  return values
}

/** The named values alone. */
export function pick<K extends string>(from: Readonly<Record<K, number>>, names: readonly K[]): Values<K> {
  return Object.fromEntries(names.map((name) => [name, from[name]])) as Values<K>
}

/** The formulas of {@link readingOf} in the order of calculation. */
export const chainFormulas = () => groundedChain.formulas
