import { InputError } from '@ohmward/quantity'
import { fieldNow, inUse, type Texts } from '../block.ts'
import { standing } from '../form/texts.ts'
import { rowsOf } from './csv.ts'
import { isSame, kinds, type Part } from './part.ts'
import { partOf, shapes } from './shapes.ts'
import { fieldsAt, limitsAt } from './texts.ts'

/** The fields of each kind, by their columns. */
const columnsOf = (kind: Part['kind']) => {
  const { form, path } = shapes[kind]
  return new Map(fieldsAt(form, path).map((field) => [field.id.slice(path.length + 1), field]))
}

/** Reads a table whose header names kind, name and fields. @throws InputError naming line and column */
export function readCsv(text: string): Part[] {
  const [head, ...rows] = rowsOf(text)
  const header = head?.cells ?? []
  checkHeader(header, head?.line ?? 1)
  const parts: Part[] = []
  for (const { line, cells } of rows) {
    const at = `line ${line}`
    if (cells.length !== header.length) {
      const allowed = `${header.length} cells, as in the header`
      throw new InputError({ field: at, value: `${cells.length} cells`, allowed })
    }
    const row = new Map(header.map((column, i) => [column, cells[i]!]))
    const part = partOfRow(row, at)
    if (parts.some((other) => isSame(other, part))) {
      throw new InputError({ field: `${at}.name`, value: part.name, allowed: 'a name that no line above has' })
    }
    parts.push(part)
  }
  return parts
}

function checkHeader(header: readonly string[], line: number) {
  const known = new Set(['kind', 'name', ...kinds.flatMap((kind) => [...columnsOf(kind).keys()])])
  header.forEach((column, i) => {
    if (known.has(column) && header.indexOf(column) === i) return
    const allowed = known.has(column) ? 'each column once' : '"kind", "name" and fields of a part'
    throw new InputError({ field: `line ${line}`, value: column, allowed })
  })
  for (const column of ['kind', 'name']) {
    if (header.includes(column)) continue
    throw new InputError({ field: `line ${line}`, value: header.join(','), allowed: 'a header with "kind" and "name"' })
  }
}

function partOfRow(row: ReadonlyMap<string, string>, at: string): Part {
  const word = row.get('kind')
  const kind = kinds.find((one) => one === word)
  if (kind === undefined) throw new InputError({ field: `${at}.kind`, value: word, allowed: kinds.join(', ') })
  const { form, path } = shapes[kind]
  const fields = columnsOf(kind)
  const texts: Texts = Object.fromEntries(
    [...fields].map(([column, field]) => [field.id, standing(field, row.get(column) ?? '')]),
  )
  for (const [column, value] of row) {
    if (column === 'kind' || column === 'name' || value === '') continue
    const field = fields.get(column)
    if (field && inUse(fieldNow(field, texts), texts)) continue
    const hint = field ? `Another ${column.split('.')[0]} has it` : `No such field in ${kind}`
    throw new InputError({ field: `${at}.${column}`, value, allowed: 'nothing', hint })
  }
  return partOf(kind, row.get('name')!, limitsAt(form, path, texts) ?? {}, at)
}
