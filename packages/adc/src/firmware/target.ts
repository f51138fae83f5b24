import { InputError } from '@ohmward/quantity'

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
export const currentTarget = (x: {
  amperesPerCount: number
  zeroCode: number
  half: number
  unit: number
}): LinearTarget => ({
  kind: 'linear',
  line: [x.amperesPerCount / x.unit, ((x.half - x.zeroCode) * x.amperesPerCount) / x.unit],
})

/** The rail in `unit` volts from the code of the internal reference: `reference · 2^bits / (code + half)`. */
export const railTarget = (x: { reference: number; bits: number; half: number; unit: number }): RationalTarget => ({
  kind: 'rational',
  numerator: [0, (x.reference * 2 ** x.bits) / x.unit],
  denominator: [1, x.half],
})

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
  const both = (x.span + x.lead) / x.unit
  return {
    kind: 'rational',
    numerator: [both, both * x.half - (x.lead / x.unit) * x.fullScale],
    denominator: [-1, x.fullScale - x.half],
  }
}

/** The same result from the sum of `samples` codes instead of one code: the division of the average costs nothing. */
export function ofSum(target: LinearTarget, samples: number): LinearTarget
export function ofSum(target: RationalTarget, samples: number): RationalTarget
export function ofSum(target: Target, samples: number): Target {
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

/** The real value at a code, in output units. */
export const targetAt = (target: Target, code: number): number =>
  target.kind === 'linear' ? at(target.line, code) : at(target.numerator, code) / at(target.denominator, code)

/** Throws InputError unless every number of the target is finite. */
export function validTarget(target: Target): void {
  const lines =
    target.kind === 'linear' ? { line: target.line } : { numerator: target.numerator, denominator: target.denominator }
  for (const [name, line] of Object.entries(lines)) {
    line.forEach((value, i) => {
      if (!Number.isFinite(value))
        throw new InputError({ field: `target.${name}[${i}]`, value, allowed: 'a finite number' })
    })
  }
}
