import {
  currentTarget,
  execute,
  type LinearIntegers,
  type LinearTarget,
  largestOf,
  ofSum,
  type Proof,
  scaleLinear,
  toC,
  toTypeScript,
  type Word,
} from '@ohmward/adc'
import { fullScaleCode, largestSum } from '@ohmward/adc/formulas'
import { type Margin, plainMargin } from '@ohmward/budget'
import { missingFields, oneOf } from '@ohmward/quantity'
import { behindOf } from '../chain/behind.js'
import type { HallChoice, HallConditions } from '../choice.js'
import { type ReadChoice, readChoice } from '../read-choice.js'

/** Units in which firmware can give a current. */
const units = { A: 1, mA: 1e-3, uA: 1e-6 } as const

/** Values of a sum that are proved one by one, at most. */
const most = 2 ** 20

/** How the integers are made. */
export interface FirmwareOptions {
  /** Bits of the accumulator, 32 by default. */
  readonly word?: Word
  /** Unit of the result, mA by default. */
  readonly unit?: keyof typeof units
  /** Name of the function, `current_ma` with the unit by default. */
  readonly name?: string
}

/** Integers for the firmware, proved over every code; or why there are none. */
export type HallFirmware =
  | {
      readonly kind: 'possible'
      /** Samples that are summed before: their division costs nothing. */
      readonly samples: number
      readonly target: LinearTarget
      readonly integers: LinearIntegers
      readonly proof: Proof
      /** Result at the nominal zero, in output units: what rounding leaves of 0. */
      readonly atZero: number
      /** Smallest result by which to divide: ten counts. Pitfall F05. */
      readonly divideFrom: number
      readonly margins: readonly Margin[]
      /** C99, one function in a header. */
      readonly c: string
      readonly typescript: string
    }
  | { readonly kind: 'impossible'; readonly reason: string }

/**
 * The firmware's integers for a current measurement: `((sum · multiplier + add) >> shift) - base`. Where the zero is read
 * with the load off, put that reading through the same function and subtract its result.
 * Look at the margins before using it: a narrow word may leave integers that fit and are far off.
 *
 * @throws InputError naming the first field that isn't allowed
 */
export function hallFirmware(
  choice: HallChoice,
  conditions: HallConditions,
  options: FirmwareOptions = {},
): HallFirmware {
  const own = missingFields(options, [], 'options', ['word', 'unit', 'name'])
  const unit = oneOf(own.unit ?? 'mA', ['A', 'mA', 'uA'] as const, 'options.unit')
  const { word = 32, name = `current_${unit.toLowerCase()}` } = options
  const read = readChoice(choice, conditions)
  const samples = read.timing.samples.nominal
  const { target, A_count, code_zero } = targetOf(read, units[unit])
  const codes = largestSum({ M_avg: samples, code_max: fullScaleCode({ N_bits: read.converter.bits }) })
  if (codes >= most) {
    const reason = `a sum of ${samples} samples has ${codes + 1} values, more than the ${most} of which each is tried`
    return { kind: 'impossible', reason }
  }
  const scaling = scaleLinear(target, { codes, word })
  if (scaling.kind === 'impossible') return scaling
  const { integers, proof } = scaling
  const remarks =
    read.calibration.kind === 'none'
      ? []
      : ['The zero is measured: subtract the result of the reading with the load off.']
  const words = { unit, samples, remarks }
  return {
    kind: 'possible',
    samples,
    target,
    integers,
    proof,
    atZero: execute(integers, Math.round(samples * (code_zero - read.converter.h_code))),
    divideFrom: Math.ceil((10 * A_count) / units[unit]),
    margins: firmwareMargins(proof, codes, word),
    c: toC(integers, proof, { ...words, name }),
    typescript: toTypeScript(integers, proof, { ...words, name: camel(name) }),
  }
}

/** The real line from the sum of codes to the current in a unit. */
function targetOf(read: ReadChoice, unit: number) {
  const { converter, timing } = read
  const { A_count, code_zero } = behindOf(read)
  const single = currentTarget({ amperesPerCount: A_count, zeroCode: code_zero, half: converter.h_code, unit })
  return { target: ofSum(single, timing.samples.nominal), A_count, code_zero }
}

/** Whether the integers are close enough and fit their words. */
function firmwareMargins({ worstError, highest }: Proof, sum: number, word: Word): Margin[] {
  const margin = (id: string, name: string, catches: readonly string[], worst: number, limit: number) =>
    plainMargin({ id, name, unit: '1', sense: 'at most', catches }, worst, limit)
  return [
    margin('firmware-error', 'integer result from the real one, in output units', ['F02', 'F03'], worstError, 1),
    margin('firmware-word', 'largest intermediate value in its word', ['F01'], highest, largestOf(word)),
    margin('firmware-sum', 'largest sum of samples in its word', ['F04'], sum, largestOf(word)),
  ]
}

const camel = (name: unknown) => String(name).replace(/_(\w)/g, (_, letter: string) => letter.toUpperCase())
