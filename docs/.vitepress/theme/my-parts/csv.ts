import { InputError } from '@ohmward/quantity'

/** A row of a table as text, and the line on which it starts. */
export interface Row {
  readonly line: number
  readonly cells: readonly string[]
}

/** A cell: a quoted one, whose quotation marks stand twice, or one without; then what ends it. */
const cell = /"((?:[^"]|"")*)"(,|\n|$)|([^",\n]*)(,|\n|$)/y

/**
 * Reads a table of cells separated by commas. Empty lines are left out.
 *
 * @throws InputError naming the line whose quotation marks don't pair
 */
export function rowsOf(text: string): Row[] {
  const table = text.replace(/^\uFEFF/, '').replaceAll(/\r\n?/g, '\n')
  const rows: Row[] = []
  let cells: string[] = []
  let start = 1
  let line = 1
  cell.lastIndex = 0
  while (cell.lastIndex < table.length || cells.length > 0) {
    const from = cell.lastIndex
    const found = cell.exec(table)
    if (!found) {
      const value = table.slice(from).split('\n')[0]
      const allowed = 'a cell without quotation marks, or one in a pair of them'
      throw new InputError({ field: `line ${line}`, value, allowed, hint: 'Double a quotation mark inside a cell' })
    }
    cells.push((found[1]?.replaceAll('""', '"') ?? found[3] ?? '').trim())
    line += found[0].split('\n').length - 1
    if ((found[2] ?? found[4]) === ',') continue
    if (cells.some((one) => one !== '')) rows.push({ line: start, cells })
    cells = []
    start = line
  }
  return rows
}

/** Writes a table; what holds a comma, a quotation mark or a line's end is quoted. */
export const tableOf = (rows: readonly (readonly string[])[]): string =>
  `${rows.map((row) => row.map((one) => (/[",\r\n]/.test(one) ? `"${one.replaceAll('"', '""')}"` : one)).join(',')).join('\n')}\n`
