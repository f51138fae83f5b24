import { readFileSync } from 'node:fs'

/** Share of the mutants that are tried, 0 to 1, or how many where it is more; and the seed by which they are drawn. */
const asked = Number(process.env['OHMWARD_MUTATION_SAMPLE'] ?? 1)
const seed = process.env['OHMWARD_MUTATION_SEED'] ?? '1'

/**
 * @typedef {object} Place
 * @property {number} line - from 0
 * @property {number} column - from 0
 */

/**
 * @typedef {object} Mutant
 * @property {string} id
 * @property {string} fileName
 * @property {{ start: Place, end: Place }} location
 * @property {string} mutatorName
 * @property {string} replacement
 */

/**
 * A number from 0 to 1 that a text has on every machine (FNV-1a, its bits mixed).
 *
 * @param {string} text
 */
function placeOf(text) {
  let hash = 0x811c9dc5
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193)
  hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d)
  hash = Math.imul(hash ^ (hash >>> 12), 0x297a2d39)
  return ((hash ^ (hash >>> 15)) >>> 0) / 2 ** 32
}

/** @param {Mutant} mutant */
const drawOf = ({ fileName, location: { start, end }, replacement }) => {
  const file = fileName.slice(fileName.lastIndexOf('packages/'))
  return placeOf([seed, file, start.line, start.column, end.line, end.column, replacement].join())
}

/**
 * Those that are drawn of the mutants that count.
 *
 * @param {readonly Mutant[]} counted
 */
export function drawn(counted) {
  if (!(asked > 0)) throw new Error(`OHMWARD_MUTATION_SAMPLE = ${asked}: a share, or how many`)
  if (asked <= 1) return counted.filter((mutant) => drawOf(mutant) < asked)
  return [...counted].sort((a, b) => drawOf(a) - drawOf(b)).slice(0, asked)
}

/** The keys of a formula, a field and a row that hold words or a printed form, which other tests prove or read. */
const keyOfText = /\b(quantity|source|expression|meaning|symbol|unit|name|label|catches)\b['"]?\s*:[^:]*$/

/** An input of a formula before its unit and range are over. */
const openInput = /:\s*\['[^']*',[^\]]*$/

/**
 * The rule by which texts are left out: a literal of a text with a space in it is a sentence, and so is what stands
 * behind a key for words. Words that the code compares, such as kinds and ids, stay in. A formula's description (units,
 * ranges, expression) is left out too: test/laws/formulas.test.ts proves it against `compute`, for all packages at once.
 *
 * @param {Mutant} mutant
 */
export function isText({ fileName, location: { start, end }, mutatorName }) {
  const isDescribing = ['StringLiteral', 'ArrayDeclaration', 'ObjectLiteral'].includes(mutatorName)
  if (fileName.includes('/src/formulas/') && isDescribing) return true
  const lines = linesOf(fileName).slice(start.line, end.line + 1)
  const before = (lines[0] ?? '').slice(0, start.column)
  if (fileName.includes('/src/formulas/') && openInput.test(before)) return true
  if (mutatorName === 'ArrayDeclaration') return /\bcatches\s*:\s*$/.test(before)
  if (mutatorName !== 'StringLiteral') return false
  const literal = lines.join('\n').slice(start.column)
  const written = lines.length > 1 ? literal : literal.slice(0, end.column - start.column)
  return /\S ./.test(written) || keyOfText.test(before)
}

/** @type {Map<string, string[]>} */
const known = new Map()
/** @param {string} fileName */
function linesOf(fileName) {
  const lines = known.get(fileName) ?? readFileSync(fileName, 'utf8').split('\n')
  known.set(fileName, lines)
  return lines
}
