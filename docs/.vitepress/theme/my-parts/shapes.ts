import { capacitorRecord } from '@ohmward/decoupling'
import { dividerRecord } from '@ohmward/divider'
import { hallRecord } from '@ohmward/hall'
import { choiceRecord as mosfetRecord } from '@ohmward/mosfet'
import { name as nameField, part, type Field as RecordField, readRecord, record } from '@ohmward/quantity'
import { form as decoupling } from '../../../decoupling/form.ts'
import { form as divider } from '../../../divider/form.ts'
import { form as hall } from '../../../hall/form.ts'
import { form as mosfet } from '../../../mosfet/form.ts'
import type { Form } from '../block.ts'
import { type Kind, longestName, type Part } from './part.ts'

/** Where a kind of part stands in a form, and the record that reads it. */
export interface Shape {
  readonly form: Form
  readonly path: string
  readonly record: RecordField
}

const { count: _, ...capacitor } = capacitorRecord

/** All kinds with their records: much to load, so it is asked for only when a file comes or goes. */
export const shapes: Readonly<Record<Kind, Shape>> = {
  amplifiers: { form: divider, path: 'choice.amplifier', record: dividerRecord.fields.amplifier },
  sensors: { form: hall, path: 'choice.sensor', record: hallRecord.fields.sensor },
  transistors: { form: mosfet, path: 'choice.transistor', record: mosfetRecord.fields.transistor },
  capacitors: {
    form: decoupling,
    path: 'choice.capacitors.bulk',
    record: part(capacitor, { meaning: 'limits of a capacitor' }),
  },
  converters: { form: divider, path: 'choice.converter', record: dividerRecord.fields.converter },
}

/**
 * A part that the library's record takes.
 *
 * @param at - where it stands in the file, as an error names it: `line 3`
 * @throws InputError naming that place and the field
 */
export function partOf(kind: Kind, name: string, limits: object, at: string): Part {
  nameField({ meaning: 'name of a part' }, longestName).read(name, `${at}.name`)
  readRecord(record({ [at]: shapes[kind].record }), { [at]: limits }, 'file')
  return { kind, name: name.trim(), limits }
}
