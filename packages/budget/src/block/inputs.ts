import {
  between,
  demandFinite,
  demandNumber,
  demandShape,
  exact,
  plusMinus,
  type Shape,
  type Spread,
} from '@ohmward/quantity'

const range: Shape = { from: 'a finite number', to: 'a finite number' }

/** `ends` as a condition: every value between them, the nominal one as near to `wanted` as they allow. @throws InputError */
export function condition(ends: { readonly from: number; readonly to: number }, wanted: number): Spread {
  demandShape(ends, 'ends', range)
  demandFinite('wanted', wanted)
  const { from, to } = ends
  return between(from, to, Math.min(Math.max(wanted, from), to))
}

/** Noise as a normal spread about 0, its limits three standard deviations away. @throws InputError */
export function noiseSpread(standardDeviation: number): Spread {
  demandNumber(standardDeviation, { field: 'standardDeviation', unit: '1', min: 0 })
  return standardDeviation > 0 ? plusMinus(0, 3 * standardDeviation, { kind: 'normal', coverage: 3 }) : exact(0)
}
