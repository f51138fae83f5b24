import { type Input, InputError, readSpread, type Spread } from '@ohmward/quantity'

/** Units that a string may be in, most usual first: an engine has no field that says which. */
const units = [
  '1',
  'ohm',
  'V',
  'A',
  'F',
  's',
  'Hz',
  'K',
  'W',
  'H',
  'C',
  'J',
  'T',
  'm',
  'S',
  'dB',
  'LSB',
  'bit',
] as const
const ratios = [
  '1/K',
  'K/W',
  'V/K',
  'A/K',
  'ohm/K',
  'J/K',
  'V/A',
  'V/s',
  'A/s',
  'V/T',
  'V/Hz^0.5',
  'A/Hz^0.5',
  'ohm*m',
] as const

const exactly = { kind: 'exact' } as const

/** Whether a spread can be taken as it is. What is wrong with one that can't, `readSpread` says. */
function sound(spread: Spread): boolean {
  const { nominal, lower, upper, distribution, degreesOfFreedom = 1 } = spread
  if (!(lower <= nominal && nominal <= upper && upper - lower < Infinity && degreesOfFreedom > 0)) return false
  switch (distribution?.kind) {
    case 'exact':
      return lower === upper
    case 'rectangular':
    case 'triangular':
    case 'arcsine':
      return true
    case 'trapezoidal':
      return distribution.top >= 0 && distribution.top <= 1
    case 'normal':
      return distribution.coverage > 0
    case 't':
      return distribution.coverage > 0 && distribution.degreesOfFreedom > 0
    default:
      return false
  }
}

/**
 * One input as a spread: a number is exact, a string is read in the SI unit that it names.
 *
 * @throws InputError naming the input
 */
export function readInput(field: string, input: Input): Spread {
  if (typeof input === 'number' && Number.isFinite(input)) {
    return { nominal: input, lower: input, upper: input, distribution: exactly }
  }
  if (typeof input === 'object' && input !== null && sound(input)) return input
  if (typeof input !== 'string') return readSpread(input, { field, unit: '1' })
  let first: unknown
  for (const unit of [...units, ...ratios]) {
    try {
      return readSpread(input, { field, unit })
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      first ??= error
    }
  }
  throw first
}
