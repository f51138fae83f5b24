import { type FieldSpec, refusal, validSpec } from './field.js'
import { missingFields } from './missing-fields.js'
import { readNumber } from './read-number.js'

/**
 * Reads a range to cover, `{ from, to }`, each end as {@link readNumber} takes it. Every value in it must work; it is
 * no tolerance.
 *
 * @throws InputError where an end is missing, can't be read, or `from` is more than `to`
 */
export function readRange(input: unknown, spec: FieldSpec): { readonly from: number; readonly to: number } {
  validSpec(spec)
  const ends = missingFields(input, ['from', 'to'], spec.field)
  const from = readNumber(ends.from, { ...spec, field: `${spec.field}.from` })
  const to = readNumber(ends.to, { ...spec, field: `${spec.field}.to` })
  if (from > to)
    throw refusal(
      { ...spec, field: `${spec.field}.from` },
      ends.from,
      '',
      `at most the other end, to = ${String(ends.to)}`,
    )
  return { from, to }
}
