import { between, exact, plusMinus, type Spread } from '@ohmward/quantity'

/** `ends` as a condition: every value between them, the nominal one as near to `wanted` as they allow. */
export const condition = ({ from, to }: { readonly from: number; readonly to: number }, wanted: number): Spread =>
  between(from, to, Math.min(Math.max(wanted, from), to))

/** Noise as a normal spread about 0, its limits three standard deviations away. */
export const noiseSpread = (standardDeviation: number): Spread =>
  standardDeviation > 0 ? plusMinus(0, 3 * standardDeviation, { kind: 'normal', coverage: 3 }) : exact(0)
