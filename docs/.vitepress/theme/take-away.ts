import type { Budget } from '@ohmward/budget'
import type { Arguments, Form } from './block.ts'

/** The call that gives the page's numbers, ready to paste. Words stay words, and don't become any text. */
export function typescriptOf(form: Form, x: Arguments): string {
  const values = form.arguments.map((name) => `const ${name} = ${literal(x[name], '')} as const`)
  return [
    `import { ${form.call} } from '@ohmward/${form.id}'`,
    '',
    ...values,
    '',
    `const assessment = ${form.call}(${form.arguments.join(', ')})`,
    'console.log(assessment.verdict)',
    'console.log(assessment.summary)',
    '',
  ].join('\n')
}

function literal(value: unknown, indent: string): string {
  if (typeof value !== 'object' || value === null) return quoted(value)
  const inner = `${indent}  `
  const [open, close] = Array.isArray(value) ? ['[', ']'] : ['{ ', ' }']
  const name = (key: string) => (Array.isArray(value) ? '' : `${key}: `)
  const lines = Object.entries(value).map(([key, item]) => `${inner}${name(key)}${literal(item, inner)},`)
  const short = `${open}${lines.map((line) => line.trim().replace(/,$/, '')).join(', ')}${close}`
  if (short.length < 72 && !short.includes('\n')) return short
  return `${open.trim()}\n${lines.join('\n')}\n${indent}${close.trim()}`
}

const quoted = (value: unknown): string =>
  typeof value === 'string'
    ? `'${value.replaceAll('\\', '\\\\').replaceAll("'", "\\'").replaceAll('\n', '\\n')}'`
    : String(value)

export const jsonOf = (x: Arguments): string => `${JSON.stringify(x, null, 2)}\n`

/** A budget's lines with full digits, SI units. */
export function csvOf({ symbol, unit, linear }: Budget): string {
  const head = [
    'input',
    'nominal',
    'estimate',
    'lower',
    'upper',
    'distribution',
    'u',
    'sensitivity',
    `contribution to ${symbol} in ${unit}`,
    'share',
  ]
  const rows = linear.contributions.map((c) => [
    c.input,
    c.nominal,
    c.estimate,
    c.lower,
    c.upper,
    c.distribution,
    c.u,
    c.sensitivity,
    c.contribution,
    c.share,
  ])
  return [head, ...rows].map((row) => row.map(cell).join(',')).join('\n') + '\n'
}

const cell = (value: string | number): string => {
  const text = String(value)
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}
