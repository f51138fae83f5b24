import { format, formatParts, typographic } from '@ohmward/quantity'

/** A number and its unit as text, apart. What has no finite value is shown as a dash. */
export function figure(value: number | null | undefined, unit: string, digits = 4): readonly [string, string] {
  return value === null || value === undefined || !Number.isFinite(value)
    ? ['–', '']
    : formatParts(value, unit, { digits })
}

/** A number with its unit as one string that doesn't break. */
export function text(value: number | null | undefined, unit: string, digits = 4): string {
  return value === null || value === undefined || !Number.isFinite(value)
    ? '–'
    : format(value, unit, { digits }).replaceAll(' ', '\u00a0')
}

/** With a plus sign where it is positive, so that a slack reads as one. */
export const signed = (value: number, unit: string, digits = 3): string =>
  (value > 0 ? '+' : '') + text(value, unit, digits)

/** A probability or a share in percent. Certainty is never claimed by rounding. */
export function percent(share: number): string {
  if (share > 0.9999 && share < 1) return '> 99.99\u00a0%'
  if (share > 0 && share < 0.0001) return '< 0.01\u00a0%'
  const near = Math.min(Math.abs(share), Math.abs(1 - share))
  return `${(100 * share).toFixed(near < 0.01 && near > 0 ? 2 : 1).replace('-', '−')}\u00a0%`
}

/** A unit as people read it: `Ω` for `ohm`, nothing for `1`. */
export const unitText = typographic

/** A number without unit or prefix, up to the digits given. */
export const plain = (value: number, digits = 7): string => String(Number(value.toPrecision(digits))).replace('-', '−')
