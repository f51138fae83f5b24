import { nest } from '../block.ts'
import { textsFor } from '../form/texts.ts'
import { tableOf } from './csv.ts'
import { kinds, type Part } from './part.ts'
import { shapes } from './shapes.ts'
import { fieldsAt } from './texts.ts'

/** Parts as a table with a header: kind, name, and each field that one of them has. */
export function csvOfParts(parts: readonly Part[]): string {
  const rows = kinds.flatMap((kind) => {
    const { form, path } = shapes[kind]
    const fields = fieldsAt(form, path)
    return parts
      .filter((part) => part.kind === kind)
      .map(({ name, limits }) => {
        const texts = Object.entries(textsFor(fields, nest({ [path]: limits })))
        return new Map([
          ['kind', kind as string],
          ['name', name],
          ...texts.filter(([, text]) => text !== '').map(([id, text]) => [id.slice(path.length + 1), text] as const),
        ])
      })
  })
  const header = [...new Set(['kind', 'name', ...rows.flatMap((row) => [...row.keys()])])]
  return tableOf([header, ...rows.map((row) => header.map((column) => row.get(column) ?? ''))])
}
