import { type Input, InputError, readSpread, type Spread } from '@ohmward/quantity'

const exactly = { kind: 'exact' } as const

/** How many words each shape is described by. */
const words: Readonly<Record<Spread['distribution']['kind'], number>> = {
  exact: 1,
  rectangular: 1,
  triangular: 1,
  arcsine: 1,
  trapezoidal: 2,
  normal: 2,
  t: 3,
}

/** How many words an object has; a list of them would be made for nothing. */
function sizeOf(object: object): number {
  let size = 0
  for (const _ in object) size++
  return size
}

const isPositive = (value: unknown) => typeof value === 'number' && value > 0 && value < Infinity

/** Whether a spread can be taken as it is. What is wrong with one that can't, `readSpread` says. */
function sound(spread: Spread): boolean {
  const { nominal, lower, upper, distribution, degreesOfFreedom = 1 } = spread
  if (typeof nominal !== 'number' || typeof lower !== 'number' || typeof upper !== 'number') return false
  if (sizeOf(spread) !== ('degreesOfFreedom' in spread ? 5 : 4)) return false
  if (!(lower <= nominal && nominal <= upper && upper - lower < Infinity && degreesOfFreedom > 0)) return false
  if (typeof distribution?.kind !== 'string' || sizeOf(distribution) !== words[distribution.kind]) return false
  switch (distribution.kind) {
    case 'exact':
      return lower === upper
    case 'rectangular':
    case 'triangular':
    case 'arcsine':
      return true
    case 'trapezoidal':
      return typeof distribution.top === 'number' && distribution.top >= 0 && distribution.top <= 1
    case 'normal':
      return isPositive(distribution.coverage)
    case 't':
      return isPositive(distribution.coverage) && isPositive(distribution.degreesOfFreedom)
  }
}

/**
 * One input as a spread: a number is exact. A text is refused: nothing says here in which unit it is to be read, and
 * `10 K` is kilo to one and kelvin to another.
 *
 * @throws InputError naming the input
 */
export function readInput(field: string, input: Input): Spread {
  if (typeof input === 'number' && Number.isFinite(input)) {
    return { nominal: input, lower: input, upper: input, distribution: exactly }
  }
  if (typeof input === 'object' && input !== null && sound(input)) return input
  if (typeof input !== 'string') return readSpread(input, { field, unit: '1' })
  throw new InputError({
    field,
    value: input,
    allowed: 'a number or a spread, in SI units',
    hint: "A text needs a unit to be read in: readSpread(text, { field, unit: 'ohm' })",
  })
}
