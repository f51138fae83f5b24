import { demand, demandFinite, InputError } from '@ohmward/quantity'
import { type Integers, largestOf, validIntegers } from './integers.js'
import type { Proof } from './prove.js'
import type { Line } from './target.js'

/** What the text is called and measured in. */
export interface TextOptions {
  /** Name of the function: a small letter, then letters, digits, `_`. */
  readonly name: string
  /** Unit of the result: `mA`. */
  readonly unit: string
  /** Codes that are summed before the function is called; 1 by default. */
  readonly samples?: number
  /** Sentences for whoever reads the function in the firmware. */
  readonly remarks?: readonly string[]
}

/**
 * A C99 header with one function. It compiles without a warning under `-Wall -Wextra -Werror -std=c99`, also where `int`
 * has 16 bits: everything is unsigned until the offset is taken off, and nothing negative is shifted.
 *
 * @throws InputError for a name that is no identifier, constants that do not fit their word
 */
export function toC(x: Integers, proof: Proof, options: TextOptions): string {
  const { name, ...words } = validText(x, proof, options)
  const type = `uint${x.word}_t`
  const result = x.base > 0 ? `int${x.word}_t` : type
  const literal = (n: number) => (x.word === 32 ? `${n}UL` : `${n}U`)
  const code = `(${type})code`
  const minusBase = (value: string) =>
    x.base > 0 ? `(${result})((${result})(${value}) - ${x.base})` : `(${type})(${value})`
  const body =
    x.kind === 'linear'
      ? [`return ${minusBase(`(${type})(${lineText([x.multiplier, x.add], code, literal)}) >> ${x.shift}`)};`]
      : [
          ...gate(x.from, x.to, x.codes, literal).map((test) => `if (${test}) { return ${x.beyond}; }`),
          `const ${type} denominator = (${type})(${lineText(x.denominator, code, literal)});`,
          `return ${minusBase(
            `(${type})(${lineText(x.numerator, code, literal)} + denominator / ${literal(2)}) / denominator`,
          )};`,
        ]
  const guard = `${name.toUpperCase()}_H`
  return [
    `#ifndef ${guard}`,
    `#define ${guard}`,
    '#include <stdint.h>',
    '',
    '/*',
    ...says(x, proof, words).map((line) => ` * ${line}`),
    ' */',
    `static inline ${result} ${name}(uint${x.codes > largestOf(16) ? 32 : 16}_t code)`,
    '{',
    ...(body.join().includes('code') ? [] : ['    (void)code;']),
    ...body.map((line) => `    ${line}`),
    '}',
    '',
    `#endif /* ${guard} */`,
    '',
  ].join('\n')
}

/** The same function as TypeScript. Throws InputError as {@link toC} does. */
export function toTypeScript(x: Integers, proof: Proof, options: TextOptions): string {
  const { name, ...words } = validText(x, proof, options)
  const literal = String
  const minusBase = x.base > 0 ? ` - ${x.base}` : ''
  const body =
    x.kind === 'linear'
      ? [`return ((${lineText([x.multiplier, x.add], 'code', literal)}) >>> ${x.shift})${minusBase}`]
      : [
          ...gate(x.from, x.to, x.codes, literal).map((test) => `if (${test}) return ${x.beyond}`),
          `const denominator = ${lineText(x.denominator, 'code', literal)}`,
          `return Math.floor((${lineText(x.numerator, 'code', literal)} + (denominator >>> 1)) / denominator)${minusBase}`,
        ]
  return [
    '/**',
    ...says(x, proof, words).map((line) => ` * ${line}`),
    ' */',
    `export function ${name}(code: number): number {`,
    ...body.map((line) => `  ${line}`),
    '}',
    '',
  ].join('\n')
}

/** A line in the code, without a term that is 0, and with no intermediate value below 0. */
function lineText([perCode, constant]: Line, code: string, literal: (n: number) => string): string {
  const product = `${code} * ${literal(Math.abs(perCode))}`
  if (perCode === 0) return literal(constant)
  if (perCode < 0) return `${literal(constant)} - ${product}`
  if (constant === 0) return product
  return `${product} ${constant < 0 ? '-' : '+'} ${literal(Math.abs(constant))}`
}

/** Tests for codes without a value; those that can't be true are left out, since a compiler warns of them. */
function gate(from: number, to: number, codes: number, literal: (n: number) => string): string[] {
  return [...(from > 0 ? [`code < ${literal(from)}`] : []), ...(to < codes ? [`code > ${literal(to)}`] : [])]
}

/** What stands above the function. Nothing in it ends the comment. */
function says(
  x: Integers,
  { tried, worstError, worstCode, highest, headroom, beyond }: Proof,
  { unit, samples = 1, remarks = [] }: Omit<TextOptions, 'name'>,
): string[] {
  const safe = unit.replace(/[^\w%/·µΩ°^ -]/g, '')
  const from = samples > 1 ? `the sum of ${samples} codes` : 'a code'
  return [
    `${safe} from ${from} of 0 to ${x.codes}.`,
    `All ${tried} codes tried: rounding error at most ${Number(worstError.toPrecision(4))} ${safe} (code ${worstCode}); what the parts add isn't in it.`,
    ...remarks.map((remark) => remark.replace(/\*\/|[\r\n]/g, ' ')),
    `Highest intermediate value ${highest}, ${headroom} below overflow of ${x.word} bits.`,
    ...(x.kind === 'rational' && beyond > 0
      ? [`Codes below ${x.from} or above ${x.to} have no value that fits: they give ${x.beyond}.`]
      : []),
  ]
}

const keywords =
  /^(auto|break|case|char|const|continue|default|do|double|else|enum|extern|float|for|goto|if|inline|int|long|register|restrict|return|short|signed|sizeof|static|struct|switch|typedef|union|unsigned|void|volatile|while|class|delete|export|function|import|in|instanceof|new|null|super|this|throw|true|false|try|typeof|var|with|yield|let|await|code|denominator|main|bool|u?int\w*_t)$/

function validName(name: string): void {
  if (typeof name !== 'string' || !/^[a-z][A-Za-z0-9_]{0,62}$/.test(name) || keywords.test(name)) {
    throw new InputError({
      field: 'name',
      value: name,
      allowed: 'a lower-case letter, then letters, digits or _; not a keyword',
    })
  }
}

/** What a text is made of, before a line of it is written. */
function validText(x: Integers, proof: Proof, options: TextOptions): TextOptions {
  validIntegers(x)
  demand(typeof options === 'object' && options !== null, {
    field: 'options',
    value: options,
    allowed: 'name and unit',
  })
  const { name, unit, samples = 1, remarks = [] } = options
  validName(name)
  demand(typeof unit === 'string' && unit.length <= 200, { field: 'unit', value: unit, allowed: 'a unit' })
  const isCount = Number.isInteger(samples) && samples >= 1
  demand(isCount, { field: 'samples', value: samples, allowed: 'a whole number of 1 or more' })
  const areTexts = Array.isArray(remarks) && remarks.every((remark) => typeof remark === 'string')
  demand(areTexts, { field: 'remarks', value: remarks, allowed: 'a list of sentences' })
  provedToFit(proof)
  return options
}

function provedToFit(proof: Proof): void {
  demand(typeof proof === 'object' && proof !== null, { field: 'proof', value: proof, allowed: 'a proof' })
  for (const name of ['tried', 'worstError', 'worstCode', 'highest', 'headroom', 'beyond'] as const)
    demandFinite(`proof.${name}`, proof[name])
  if (!proof.fits) {
    throw new InputError({ field: 'proof.headroom', value: proof.headroom, allowed: 'constants that never wrap' })
  }
}
