import { between, exact, type Spread } from '@ohmward/quantity'
import { type ReadElement, stretchOf } from '@ohmward/supply'

/** A resistance that is known as it is, as an element of a path. */
export const element = (name: string, resistance: Spread): ReadElement => ({
  name,
  resistance,
  temperatureCoefficient: 'none',
  drop: exact(0),
  currentLimit: undefined,
  thermalResistance: undefined,
  highestCelsius: undefined,
  tripVoltage: undefined,
  tap: undefined,
})

/** The elements from the source to the board. */
export const beforeBoard = (path: readonly ReadElement[], board: string | undefined): readonly ReadElement[] =>
  board === undefined ? path : path.slice(0, placeOf(path, board) + 1)

/** The elements behind the board, in series with the load. */
export const behindBoard = (path: readonly ReadElement[], board: string | undefined): readonly ReadElement[] =>
  board === undefined ? [] : path.slice(placeOf(path, board) + 1)

const placeOf = (path: readonly ReadElement[], board: string): number => path.findIndex(({ tap }) => tap === board)

/** Two resistances in series, whatever the temperature. */
export const inSeries = (one: Spread, other: Spread): Spread =>
  stretchOf([element('one', one), element('other', other)], 25).resistance

/** Currents that add up, limits too. */
export function sumOf(currents: readonly Spread[]): Spread {
  const sum = (end: 'lower' | 'nominal' | 'upper') => currents.reduce((total, one) => total + one[end], 0)
  const [lower, upper] = [sum('lower'), sum('upper')]
  return lower === upper ? exact(lower) : between(lower, upper, sum('nominal'))
}

/** A spread times a number that is not negative. */
export const scaled = ({ lower, nominal, upper }: Spread, by: number): Spread =>
  between(lower * by, upper * by, nominal * by)
