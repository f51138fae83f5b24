import { InputError } from '@ohmward/quantity'
import type { Group } from './model.js'
import { demandList, knownOptions } from './options.js'

/**
 * The group of each input, by index; nothing stands there for an input in none.
 *
 * @param correlated - indices of inputs that have correlation coefficients: a group is a statement about how its
 *   members add, so the two contradict one another
 * @throws InputError for a name that is no input, an input in two groups, or one that is correlated too
 */
export function groupOf(
  names: readonly string[],
  groups: readonly Group<string>[],
  correlated: readonly number[],
): (number | undefined)[] {
  const of: (number | undefined)[] = []
  groups.forEach((group, g) => {
    const { name, inputs } = knownOptions(group, ['name', 'inputs'], `groups[${g}]`)
    if (typeof name !== 'string') throw new InputError({ field: `groups[${g}].name`, value: name, allowed: 'a text' })
    demandList(`groups[${g}].inputs`, inputs)
    for (const name of inputs) {
      const index = names.indexOf(name)
      if (index < 0 || of[index] !== undefined || correlated.includes(index)) {
        throw new InputError({
          field: `groups[${g}].inputs`,
          value: name,
          allowed: 'the name of an input that is in no other group and has no correlation',
        })
      }
      of[index] = g
    }
  })
  return of
}
