import { type Form, fieldsOf, type Texts } from './block.ts'
import { textOf } from './form/texts.ts'

const around = 'conditions.'

/**
 * What a change puts, as texts of the form's fields; undefined where the form has no field for a part of it. A kind given
 * as its bare word goes to the field of the kind, and what isn't given any more is emptied.
 *
 * @param puts - values by path: `reference`, `amplifier`, `conditions.rail.from`
 */
export function textsOf(form: Pick<Form, 'groups'>, puts: Readonly<Record<string, unknown>>): Texts | undefined {
  const fields = new Map(fieldsOf(form).map((field) => [field.id, field]))
  const texts: Record<string, string> = {}
  const put = (id: string, value: unknown): boolean => {
    const field = fields.get(id) ?? fields.get(`${id}.kind`)
    if (field?.each && typeof value === 'object' && value !== null) texts[field.id] = ''
    else if (field && (typeof value !== 'object' || value === null || field.id === id)) {
      texts[field.id] = textOf(field, value)
      return true
    }
    if (typeof value !== 'object' || value === null) {
      if (value === undefined) return true
      // One value of a range that is to be covered is both its ends.
      const ends = [`${id}.from`, `${id}.to`].filter((end) => fields.has(end))
      return ends.length > 0 && ends.every((end) => put(end, value))
    }
    return Object.entries(value).every(([word, own]) => put(`${id}.${word}`, own))
  }
  const all = Object.entries(puts).every(([path, value]) =>
    put((path.startsWith(around) ? path : `choice.${path}`).replace(/\[(\d+)\]/g, '.$1'), value),
  )
  return all && Object.keys(texts).length > 0 ? texts : undefined
}
