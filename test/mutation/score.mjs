import { readFileSync } from 'node:fs'
import { root } from '../tools/load.mjs'

/**
 * @typedef {object} Told - what came of a mutant
 * @property {string} file - from the root
 * @property {string} at - line and column, from 1
 * @property {string} line - the line's text as it was
 * @property {string} original
 * @property {string} replacement
 * @property {string} mutator
 * @property {'killed' | 'timed out' | 'survived' | 'not reached'} status
 * @property {string} [by] - the test that saw it
 * @property {string} [error] - what that said
 */

/** The mutant as it stands in the source. @param {import('./sample.mjs').Mutant} mutant */
export function placeOf({ fileName, location: { start, end }, replacement, mutatorName }) {
  const lines = readFileSync(fileName, 'utf8')
    .split('\n')
    .slice(start.line, end.line + 1)
  const whole = lines.join('\n')
  const cut = (lines.at(-1) ?? '').length - end.column
  return {
    file: fileName.slice(root.length),
    at: `${start.line + 1}:${start.column + 1}`,
    line: (lines[0] ?? '').trim(),
    original: whole.slice(start.column, whole.length - cut),
    replacement,
    mutator: mutatorName,
  }
}

/** Whether two say the same of the same code, wherever it stands by now. @param {Omit<Told, 'status'>} a @param {Omit<Told, 'status'>} b */
export const isSame = (a, b) =>
  a.file === b.file &&
  a.line === b.line &&
  a.original === b.original &&
  a.replacement === b.replacement &&
  a.mutator === b.mutator

export const isAlive = (/** @type {Told} */ { status }) => status === 'survived' || status === 'not reached'

/** One that lives on, for a reader. @param {Told} told */
export const sentenceOf = ({ file, at, original, replacement, status }) =>
  `${status}: ${file}:${at}\n- ${original.replaceAll('\n', '\n- ')}\n+ ${replacement.replaceAll('\n', '\n+ ')}`

/** How many were killed, with Wilson's interval of the share at 95 %. @param {readonly Told[]} mutants */
export function score(mutants) {
  const tried = mutants.length
  const killed = tried - mutants.filter(isAlive).length
  const z2 = 1.959964 ** 2
  const middle = (killed + z2 / 2) / (tried + z2)
  const half = (Math.sqrt(z2) / (tried + z2)) * Math.sqrt((killed * (tried - killed)) / tried + z2 / 4)
  const percent = (/** @type {number} */ share) => `${(100 * share).toFixed(0)} %`
  return {
    highest: middle + half,
    text:
      `${killed} of ${tried} mutants killed, ${percent(killed / tried)}` +
      ` (95 %: ${percent(middle - half)} to ${percent(middle + half)})`,
  }
}
