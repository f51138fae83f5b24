import type { Margin } from '@ohmward/budget'
import { formatParts, typographic } from '@ohmward/quantity'

type Towards = 'up' | 'down'

/** A number and its unit as text, apart. What has no finite value is shown as a dash. */
export function figure(
  value: number | null | undefined,
  unit: string,
  digits = 4,
  towards?: Towards,
): readonly [string, string] {
  if (value === null || value === undefined || !Number.isFinite(value)) return ['–', '']
  const size = Math.abs(value)
  const isSmallShare = unit === '1' && size < 1e-4 && size >= 1e-7
  const [number, written] = formatParts(value, unit, {
    digits,
    ...(isSmallShare && { as: 'ppm' }),
    ...(towards && { towards }),
  })
  return [number, written === 'hour' ? 'h' : raised(written)]
}

/** A number with its unit as one string that doesn't break. */
export function text(value: number | null | undefined, unit: string, digits = 4, towards?: Towards): string {
  return tens(figure(value, unit, digits, towards).filter(Boolean).join(' ')).replaceAll(' ', '\u00a0')
}

/** The worst case of a margin, rounded to the side of its limit. */
export const worstText = (
  { worst, unit, sense, isUnknown }: Pick<Margin, 'worst' | 'unit' | 'sense' | 'isUnknown'>,
  digits = 3,
): string => (isUnknown ? 'not known' : text(worst, unit, digits, sense === 'at most' ? 'up' : 'down'))

/** A slack, never more than there is, with a plus sign where it is positive; between temperatures in kelvins. */
export const signed = (value: number, unit: string, digits = 3): string =>
  (value > 0 ? '+' : '') + text(value, unit === 'degC' ? 'K' : unit, digits, 'down')

/** A probability in percent. Certainty is never claimed by rounding. */
export function probability(share: number): string {
  if (share > 0.9999) return '>\u00a099.99\u00a0%'
  return share < 0.0001 ? '<\u00a00.01\u00a0%' : percent(share)
}

/** A share in percent, rounded to the nearest or to one side. */
export function percent(share: number, towards?: Towards): string {
  const near = Math.min(Math.abs(share), Math.abs(1 - share))
  const places = near === 0 ? 0 : near < 0.01 ? 2 : 1
  const scale = 10 ** (places + 2)
  const round = towards === 'up' ? Math.ceil : Math.floor
  // What a multiplication leaves behind the twelfth digit is no reason to round.
  if (!towards && share > 0 && share * scale < 0.5) return '<\u00a00.01\u00a0%'
  const rounded = towards ? round(Number((scale * share).toPrecision(12))) / scale : share
  return `${(100 * rounded).toFixed(places).replace('-', '−')}\u00a0%`
}

/** A unit as people read it: `Ω` for `ohm`, nothing for `1`; of a longer text, the units and numbers in it. */
export const unitText = (text: string): string =>
  raised(
    text
      .split(text.length < 100 ? /$/ : /(?<=[.;,:] )/)
      // A word at the head of a piece is no unit: `use` would become `µse`.
      .map((piece) => (piece.length < 200 ? typographic(piece).replace(/^µ(?=[a-z]{2})/, 'u') : piece))
      .join('')
      .replace(/(?<=\d ?)u(?=[A-ZΩsm](?![a-z]))/g, 'µ')
      .replace(/(?<=^|[\s(])-(?=\d)/g, '−')
      .replace(/(?<=\d) (?=%|°C|[pnµmkMG]?(?:Ω|[VAWFHsKCJ]|Hz)(?![\wΩ]))/g, '\u00a0'),
  )

const powers: Readonly<Record<string, string>> = Object.fromEntries(
  [...'-−0123456789'].map((sign, i) => [sign, '⁻⁻⁰¹²³⁴⁵⁶⁷⁸⁹'[i]!]),
)
const superscript = (power: string): string => [...power].map((sign) => powers[sign]).join('')

/** A power of ten as people write it: `1.26 · 10⁻⁵` for `1.26e−5`. */
export const tens = (text: string): string =>
  text.replace(/(?<![\w.])(\d+(?:\.\d+)?)e\+?([-−]?\d+)/g, (_, digits: string, power: string) =>
    digits === '1' ? `10${superscript(power)}` : `${digits} · 10${superscript(power)}`,
  )
const raised = (unit: string): string => unit.replace(/\^(-?[1-4])(?!\d)/g, (_, power: string) => superscript(power))

/** A unit divided by another, with one stroke at most: `K` over `K/W` is `W`, `A` over `V/K` is `A·K/V`. */
export function unitOver(unit: string, by: string): string {
  const [above, below] = [partsOf(unit), partsOf(by)]
  const top = [...above.top, ...below.bottom]
  const bottom = [...above.bottom, ...below.top].filter((one) => {
    const same = top.indexOf(one)
    if (same >= 0) top.splice(same, 1)
    return same < 0
  })
  const under = bottom.length > 1 ? `(${timesOf(bottom)})` : timesOf(bottom)
  return unitText([timesOf(top) || (under && '1'), under].filter(Boolean).join('/'))
}

/** Units multiplied, what stands there twice as a square. */
const timesOf = (units: readonly string[]): string =>
  [...new Set(units)].map((one) => (units.indexOf(one) < units.lastIndexOf(one) ? `${one}^2` : one)).join('*')

const partsOf = (unit: string) => {
  const [top = [], ...bottom] = unit
    .split('/')
    .map((part) => part.split('*').filter((one) => one !== '1' && one !== ''))
  return { top, bottom: bottom.flat() }
}

/** A number without unit or prefix, up to the digits given. */
export const plain = (value: number, digits = 7): string =>
  tens(String(Number(value.toPrecision(digits))).replace('-', '−'))

/** Numbers of one column or axis: without their unit, all with the prefix of the largest; that unit, and its size. */
export function column(
  values: readonly number[],
  unit: string,
  digits = 3,
): { texts: string[]; unit: string; scale: number } {
  const largest = Math.max(...values.filter(Number.isFinite).map(Math.abs), 0)
  const [number, shown] = figure(largest, unit, digits)
  const scale =
    largest > 0
      ? 10 ** (3 * Math.round(Math.log10(largest / Number(number.replace(/\s/g, '').replace('−', '-'))) / 3))
      : 1
  const places = Math.max(0, digits - 1 - Math.floor(Math.log10(largest / scale || 1)))
  const texts = values.map((value) =>
    (value / scale)
      .toFixed(places)
      .replace(/^-(?=0\.?0*$)/, '')
      .replace('-', '−'),
  )
  return { texts, unit: shown, scale }
}
