import { demand, InputError, readNumber } from '@ohmward/quantity'
import { codeVoltage, countVoltage, ditheredHalfWidth, fullScaleCode, steppedCode } from './formulas/index.js'

/**
 * Where the codes' steps lie. `truncating`: code k from k to k + 1 counts, as successive-approximation parts do (code =
 * floor(V/V_ref · 2^N)). `centred`: from k - ½ to k + ½, which is meant where a data sheet puts the ideal first
 * transition at half a count in its definition of the offset error.
 */
export type Transitions = 'truncating' | 'centred'

/** An ideal converter, as far as codes and volts need it. */
export interface Scale {
  /** Whole bits, 1 to 32. */
  readonly bits: number
  /** Reference in volts, more than 0. */
  readonly reference: number
  /** `truncating` by default. */
  readonly transitions?: Transitions
}

/** A code, and on which side the input left the scale. */
export interface Code {
  readonly code: number
  /** `no`, or the end at which the code stands still while the input goes on. */
  readonly clipped: 'no' | 'below' | 'above'
}

/** Half a count that moves the transitions: 0 for truncating, 0.5 for centred codes. */
export const inputHalf = (transitions: Transitions = 'truncating'): number => (transitions === 'centred' ? 0.5 : 0)

/** Half a count that firmware adds to a code, so that it stands for the middle of its step: 0.5 for truncating. */
export const codeHalf = (transitions: Transitions = 'truncating'): number => (transitions === 'centred' ? 0 : 0.5)

/** Volts to a code, clipped and saying so. Throws InputError for anything but finite volts and a valid scale. */
export function toCode(volts: number, scale: Scale): Code {
  const { bits: N_bits, reference: V_ref, transitions } = validScale(scale)
  const V_pin = readNumber(volts, { field: 'volts', unit: 'V' })
  const code = steppedCode({ V_pin, V_ref, N_bits, h_in: inputHalf(transitions) })
  const position = (V_pin / V_ref) * 2 ** N_bits + inputHalf(transitions)
  return { code, clipped: position < 0 ? 'below' : position >= 2 ** N_bits ? 'above' : 'no' }
}

/** A code to the volts in the middle of its step. Throws InputError for a code that the scale doesn't have. */
export function toVolts(code: number, scale: Scale): number {
  const { bits: N_bits, reference: V_ref, transitions } = validScale(scale)
  return codeVoltage({ code: validCode(code, N_bits), h_code: codeHalf(transitions), V_ref, N_bits })
}

/** Volts of the ideal transition from the code below; `null` for code 0, which has none. */
export function transition(code: number, scale: Scale): number | null {
  const { bits: N_bits, reference: V_ref, transitions } = validScale(scale)
  const k = validCode(code, N_bits)
  return k === 0 ? null : (k - inputHalf(transitions)) * countVoltage({ V_ref, N_bits })
}

/** What is random and what stays after averaging, in counts: the limits ± of `e_q` and the standard deviation of `e_n`. */
export interface Averaged {
  readonly halfWidth: number
  readonly noise: number
  /** Whether the noise suffices for averaging to refine the reading (half a count or more). */
  readonly dithered: boolean
}

/**
 * Rounding and noise of the mean of `samples` conversions, each with `noise` counts root mean square. One sample
 * keeps its whole half count; an average keeps what the noise does not dither away. Offset, gain and nonlinearity stay.
 */
export function averaged(noise: number, samples: number): Averaged {
  const n_rms = readNumber(noise, { field: 'noise', unit: 'LSB', min: 0, max: 1e6 })
  const count = readNumber(samples, { field: 'samples', unit: '1', integer: true, min: 1, max: 2 ** 20 })
  const dithered = n_rms >= 0.5
  if (count === 1) return { halfWidth: 0.5, noise: n_rms, dithered }
  // The variance of a rounding is 1/12 in all; what the half-width (as a rectangle, h²/3) doesn't hold is random.
  const halfWidth = ditheredHalfWidth({ n_rms })
  const rounding = (1 - 4 * halfWidth ** 2) / 12
  return { halfWidth, noise: Math.sqrt((n_rms ** 2 + rounding) / count), dithered }
}

function validScale(scale: Scale): Scale {
  demand(typeof scale === 'object' && scale !== null, { field: 'scale', value: scale, allowed: 'bits and reference' })
  const bits = readBits(scale.bits, 'bits')
  const reference = readNumber(scale.reference, { field: 'reference', unit: 'V', above: 0, max: 1e6 })
  return { bits, reference, transitions: validTransitions(scale.transitions, 'transitions') }
}

/** Whole bits from 1 to 32, or an InputError at `field`. */
export const readBits = (bits: unknown, field: string): number =>
  readNumber(bits, { field, unit: 'bit', integer: true, min: 1, max: 32 })

/** `truncating` where nothing is given, or an InputError at `field`. */
export function validTransitions(transitions: unknown, field: string): Transitions {
  if (transitions === undefined) return 'truncating'
  if (transitions === 'truncating' || transitions === 'centred') return transitions
  throw new InputError({ field, value: transitions, allowed: '"truncating" or "centred"' })
}

function validCode(code: number, N_bits: number): number {
  return readNumber(code, { field: 'code', unit: 'LSB', integer: true, min: 0, max: fullScaleCode({ N_bits }) })
}
