import type { Form } from '../block.ts'
import { fieldsOf } from '../block.ts'

/** What the symbols of a form's fields stand for, and their units, for budgets and derivations. */
export function statedBy(form: Pick<Form, 'groups'>): {
  readonly units: Record<string, string>
  readonly names: Record<string, string>
} {
  const units: Record<string, string> = {}
  const names: Record<string, string> = {}
  for (const { symbol, unit, label, part } of fieldsOf(form)) {
    if (symbol === undefined || symbol in units) continue
    units[symbol] = unit
    names[symbol] = part === undefined ? label : `${part}: ${label}`
  }
  return { units, names }
}
