import { type Form, fieldsOf, type Texts } from './block.ts'

const around = 'conditions.'

/**
 * What a change puts, as texts of the form's fields; undefined where the form has no field for a part of it. A kind given
 * as its bare word goes to the field of the kind, and what isn't given any more is emptied.
 *
 * @param puts - values by path: `reference`, `amplifier`, `conditions.rail.from`
 */
export function textsOf(form: Pick<Form, 'groups'>, puts: Readonly<Record<string, unknown>>): Texts | undefined {
  const ids = new Set(fieldsOf(form).map(({ id }) => id))
  const texts: Record<string, string> = {}
  const put = (id: string, value: unknown): boolean => {
    if (typeof value === 'object' && value !== null) {
      return Object.entries(value).every(([word, own]) => put(`${id}.${word}`, own))
    }
    const text = value === undefined ? '' : String(value)
    const kind = `${id}.kind`
    const known = ids.has(id) ? id : ids.has(kind) ? kind : undefined
    if (known === undefined) return value === undefined
    texts[known] = text
    return true
  }
  const all = Object.entries(puts).every(([path, value]) =>
    put(path.startsWith(around) ? path : `choice.${path}`, value),
  )
  return all && Object.keys(texts).length > 0 ? texts : undefined
}
