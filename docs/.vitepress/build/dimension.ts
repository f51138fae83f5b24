import { all, create, type Unit } from 'mathjs'

const math = create(all!, {})
math.createUnit('count')

/** Dimensions of the SI (SI brochure, 2.3.3) in the order in which mathjs counts them. */
const letters = ['M', 'L', 'T', 'I', 'Θ', 'J', 'N']

/** Dimension of a unit, letter and power: M 1, L 2, T −3, I −1 for the volt; none for a plain number. */
export function dimensionOf(unit: string): (readonly [letter: string, power: number])[] {
  if (unit === '1' || unit === 'dB' || unit === 'count') return []
  const { dimensions } = math.unit(unit) as Unit & { dimensions: readonly number[] }
  return letters
    .map((letter, i) => [letter, Math.round((dimensions[i] ?? 0) * 1e6) / 1e6] as const)
    .filter(([, power]) => power !== 0)
}
