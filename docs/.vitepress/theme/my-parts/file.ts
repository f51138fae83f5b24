import { readCsv } from './from-csv.ts'
import { readJson } from './from-json.ts'
import type { Part } from './part.ts'

export { csvOfParts } from './to-csv.ts'

/**
 * Reads parts from a file: JSON, or a table of cells separated by commas.
 *
 * @throws InputError naming the line or the part, and the field; then nothing is taken
 */
export const readParts = (text: string): Part[] => (/^\uFEFF?\s*[[{]/.test(text) ? readJson(text) : readCsv(text))
