import { copyOf } from './mutate.js'

/** The same, with what is changed in every text of it; texts under some keys stay. */
export function withTexts<T>(value: T, change: (text: string) => unknown, except: readonly string[] = []): T {
  if (typeof value === 'string') return change(value) as T
  if (Array.isArray(value)) return value.map((one) => withTexts(one, change, except)) as T
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value).map(([key, one]) => [
      key,
      except.includes(key) ? copyOf(one) : withTexts(one, change, except),
    ]),
  ) as T
}

/** The same, the fields of every record in reverse order; parts under names of their own are numbered as they come. */
export function reversed<T>(value: T, isNumbered = false): T {
  if (Array.isArray(value)) return value.map((one) => reversed(one)) as T
  if (typeof value !== 'object' || value === null) return value
  const fields = Object.entries(value).map(([key, one]) => [key, reversed(one, key === 'capacitors')])
  return Object.fromEntries(isNumbered ? fields : fields.reverse()) as T
}

const powers: Readonly<Record<string, number>> = { p: -12, n: -9, u: -6, m: -3, '': 0, k: 3, M: 6 }
const quantity = /^(-?\d+(?:\.\d+)?) ([pnumkM]?)(ohm|V|A|F|H|s|Hz|W|C|J)(\/(?:K|A|us|Hz\^0\.5))?$/
const plain = /^(-?\d+(?:\.\d+)?) (LSB|K|degC|K\/W|%|ppm\/K)$/

/** A text of one number and its unit as a number in SI units; any other text as it is. */
export function asNumber(text: string): unknown {
  const whole = plain.exec(text)
  if (whole) return Number(`${whole[1]}e${whole[2] === '%' ? -2 : whole[2] === 'ppm/K' ? -6 : 0}`)
  const found = quantity.exec(text)
  if (!found) return text
  const [, digits, prefix, , per] = found
  return Number(`${digits}e${powers[prefix!]! + (per === '/us' ? 6 : 0)}`)
}

/** A text with a tolerance in percent, half as wide again. */
export const widened = (text: string): string =>
  text.replace(/±(\d+(?:\.\d+)?) %$/, (_, percent) => `±${Number((1.5 * Number(percent)).toPrecision(6))} %`)
