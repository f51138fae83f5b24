import { demand, demandFinite, InputError } from '@ohmward/quantity'

/** Per code, and at code 0. */
export type Line = readonly [perCode: number, constant: number]

/** A result that is linear in the code: `perCode · code + constant`, in output units. */
export interface LinearTarget {
  readonly kind: 'linear'
  readonly line: Line
}

/** A result that is a quotient of two lines in the code, in output units: a resistance r/(1 - r), a rail 1/code. */
export interface RationalTarget {
  readonly kind: 'rational'
  readonly numerator: Line
  readonly denominator: Line
}

/** What the integers must come to, in real numbers. */
export type Target = LinearTarget | RationalTarget

/** A current in `unit` amperes (0.001 for mA): amperes per count, and the code at zero current with its half count. */
export function currentTarget(x: {
  amperesPerCount: number
  zeroCode: number
  half: number
  unit: number
}): LinearTarget {
  const { amperesPerCount, zeroCode, half, unit } = numbers(x, ['amperesPerCount', 'zeroCode', 'half', 'unit'])
  return made({ kind: 'linear', line: [amperesPerCount / unit, ((half - zeroCode) * amperesPerCount) / unit] })
}

/** The rail in `unit` volts from the code of the internal reference: `reference · 2^bits / (code + half)`. */
export function railTarget(x: { reference: number; bits: number; half: number; unit: number }): RationalTarget {
  const { reference, bits, half, unit } = numbers(x, ['reference', 'bits', 'half', 'unit'])
  return made({ kind: 'rational', numerator: [0, (reference * 2 ** bits) / unit], denominator: [1, half] })
}

/**
 * A resistance in `unit` ohms: `span · r/(1 - r) - lead` with `r = (code + half)/fullScale`, where `fullScale` is the code
 * at r = 1, 2^bits · gain in a ratiometric chain.
 */
export function resistanceTarget(x: {
  span: number
  lead: number
  fullScale: number
  half: number
  unit: number
}): RationalTarget {
  const { span, lead, fullScale, half, unit } = numbers(x, ['span', 'lead', 'fullScale', 'half', 'unit'])
  const both = (span + lead) / unit
  return made({
    kind: 'rational',
    numerator: [both, both * half - (lead / unit) * fullScale],
    denominator: [-1, fullScale - half],
  })
}

/** Finite numbers by name. */
function numbers<K extends string>(x: Readonly<Record<K, number>>, names: readonly K[]): Readonly<Record<K, number>> {
  demand(typeof x === 'object' && x !== null, { field: 'numbers', value: x, allowed: names.join(', ') })
  for (const name of names) demandFinite(name, x[name])
  return x
}

/** A target whose numbers are finite too. */
function made<T extends Target>(target: T): T {
  validTarget(target)
  return target
}

/** The same result from the sum of `samples` codes instead of one code: the division of the average costs nothing. */
export function ofSum(target: LinearTarget, samples: number): LinearTarget
export function ofSum(target: RationalTarget, samples: number): RationalTarget
export function ofSum(target: Target, samples: number): Target {
  validTarget(target)
  if (!(Number.isInteger(samples) && samples >= 1)) {
    throw new InputError({ field: 'samples', value: samples, allowed: 'a whole number, 1 or more' })
  }
  const over = ([perCode, constant]: Line): Line => [perCode / samples, constant]
  return target.kind === 'linear'
    ? { kind: 'linear', line: over(target.line) }
    : { kind: 'rational', numerator: over(target.numerator), denominator: over(target.denominator) }
}

/** A line at a code. */
export const at = (line: Line, code: number): number => line[0] * code + line[1]

/** The real value at a code, in output units; infinite at the pole of a quotient. @throws InputError for what is no target */
export function targetAt(target: Target, code: number): number {
  validTarget(target)
  demandFinite('code', code)
  return realAt(target, code)
}

/** The same for a target that was read already. */
export const realAt = (target: Target, code: number): number =>
  target.kind === 'linear' ? at(target.line, code) : at(target.numerator, code) / at(target.denominator, code)

/** A line of two numbers, or an InputError. */
export function validLine(line: unknown, field: string): Line {
  const isLine = Array.isArray(line) && line.length === 2
  demand(isLine, { field, value: line, allowed: 'two numbers, per code and at code 0' })
  return line as unknown as Line
}

/** Throws InputError unless every number of the target is finite. */
export function validTarget(target: Target): void {
  demand(typeof target === 'object' && target !== null, { field: 'target', value: target, allowed: 'a target' })
  demand(target.kind === 'linear' || target.kind === 'rational', {
    field: 'target.kind',
    value: target.kind,
    allowed: '"linear" or "rational"',
  })
  const lines =
    target.kind === 'linear' ? { line: target.line } : { numerator: target.numerator, denominator: target.denominator }
  for (const [name, line] of Object.entries(lines)) {
    for (const [i, value] of validLine(line, `target.${name}`).entries())
      demand(typeof value === 'number' && Math.abs(value) <= 1e100, {
        field: `target.${name}[${i}]`,
        value,
        allowed: 'at most 1e100, either sign',
      })
  }
}
