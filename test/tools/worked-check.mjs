import { load } from './load.mjs'

/** Rows of cells as lines, each column as wide as its widest cell. @param {string[][]} rows */
function table(rows) {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => row[i]?.length ?? 0)))
  return rows.map((row) => `  ${row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join('  ')}`.trimEnd())
}

/** Breaks a text into lines of at most 100 signs. @param {string} text @param {string} indent */
function wrapped(text, indent) {
  const lines = ['']
  // A number stays with its unit.
  for (const word of text.replace(/(\d) (?=[^\s\d])/g, '$1\u00a0').split(' ')) {
    const last = lines.at(-1) ?? ''
    if (last.length > 0 && last.length + word.length > 100) lines.push(word)
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`
  }
  return lines.map((line, i) => (i === 0 ? line : indent + line)).join('\n')
}

/** The demo design's check of a block, computed now, as lines for a terminal. @param {string} id */
export async function workedCheck(id) {
  const { block, demo, made, format } = await load(`
    export { block } from './docs/${id}/block.ts'
    export { argumentsOf as made, demoOf as demo } from './docs/.vitepress/theme/block.ts'
    export { format } from '@ohmward/quantity'
  `)
  return linesOf(block.check(made(block, demo(block)), true), format)
}

/**
 * An assessment as lines: verdict, margins, error budgets, cautions.
 *
 * @param {any} assessment
 * @param {(value: number, unit: string, options?: object) => string} format
 */
export function linesOf(assessment, format) {
  const { block, verdict, summary, margins, budgets, cautions } = assessment
  /** @param {number} value @param {string} unit */
  const show = (value, unit) => format(value, unit, { digits: 3 })
  const lines = [`${block}: ${verdict}`, `  ${wrapped(summary, '  ')}`, '', 'Margins, least first']
  /** @type {string[][]} */
  const rows = margins.map((/** @type {any} */ m) => [
    m.verdict,
    m.name,
    show(m.worst, m.unit),
    `${m.sense} ${show(m.limit, m.unit)}`,
    show(m.slack, m.unit),
    m.probability === undefined ? '' : `${format(100 * m.probability, '1', { digits: 4 })} % of boards`,
  ])
  lines.push(...table([['', 'margin', 'worst case', 'limit', 'slack', 'met by'], ...rows]))
  for (const [name, budget] of Object.entries(budgets)) lines.push('', ...budgetLines(name, budget, show))
  if (cautions.length > 0) lines.push('', 'Cautions')
  for (const { text } of cautions) lines.push(`  - ${wrapped(text, '    ')}`)
  return lines
}

/** @param {string} name @param {any} budget @param {(value: number, unit: string) => string} show */
function budgetLines(name, { quantity, unit, linear, extremes, simulation }, show) {
  /** @param {readonly number[]} ends */
  const interval = ([from = 0, to = 0]) => `${show(from, unit)} to ${show(to, unit)}`
  const percent = `${Math.round(100 * linear.level)} %`
  const rows = [
    [`linear, ${percent}`, interval(linear.interval)],
    ...(simulation === undefined ? [] : [[`simulated, ${percent}`, interval(simulation.interval)]]),
    ['true extremes', interval([extremes.lower, extremes.upper])],
  ]
  const largest = [...linear.contributions].sort((a, b) => b.share - a.share).slice(0, 3)
  const shares = largest.map(({ input, share }) => `${input} ${Math.round(100 * share)} %`).join(', ')
  return [
    `Error budget of ${quantity} (${name}): ${show(linear.estimate, unit)}`,
    ...table(rows),
    `  most from ${shares}`,
  ]
}
