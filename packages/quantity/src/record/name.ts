import { demand, demandFinite } from '../read/demand.js'
import { own } from './make.js'

/**
 * A name that a user gives to a part, a rail, a task: texts show it, so it isn't empty, ends somewhere, and isn't what a program writes
 * where it has none.
 *
 * @param most - characters that it may have
 * @throws InputError naming what it says wrongly of itself
 */
/*#__NO_SIDE_EFFECTS__*/
export const name = <const M extends { readonly meaning: string; readonly optional?: true }>(more: M, most = 60) => {
  demandFinite('most', most)
  return own<string>()(
    (value: unknown, field: string) => {
      // Nothing, or what a program writes where it has no name, is none.
      const isNone = typeof value !== 'string' || /^\s*(|-?infinity|nan|null|undefined)\s*$/i.test(value)
      demand(!isNone && value.length <= most, { field, value, allowed: `a name of 1 to ${most} characters, not NaN` })
      return value
    },
    { ...more, schema: { type: 'string', minLength: 1, maxLength: most } },
  )
}
