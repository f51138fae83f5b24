import { all, create, type Unit } from 'mathjs'

const math = create(all!, {})
math.createUnit('count')

/** Dimensions of the SI (SI brochure, 2.3.3) in the order in which mathjs counts them. */
const letters = ['M', 'L', 'T', 'I', 'Θ', 'J', 'N']
const raised: Readonly<Record<string, string>> = {
  '-': '⁻',
  '.': '·',
  0: '⁰',
  1: '¹',
  2: '²',
  3: '³',
  4: '⁴',
  5: '⁵',
  6: '⁶',
  7: '⁷',
  8: '⁸',
  9: '⁹',
}

/** Dimension of a unit as text: `M L² T⁻³ I⁻¹` for the volt, `1` for a plain number. */
export function dimensionOf(unit: string): string {
  if (unit === '1' || unit === 'dB' || unit === 'count') return '1'
  const { dimensions } = math.unit(unit) as Unit & { dimensions: readonly number[] }
  const parts = letters.flatMap((letter, i) => {
    const power = Math.round((dimensions[i] ?? 0) * 1e6) / 1e6
    if (power === 0) return []
    return [power === 1 ? letter : letter + [...String(power)].map((digit) => raised[digit] ?? digit).join('')]
  })
  return parts.length === 0 ? '1' : parts.join(' ')
}
