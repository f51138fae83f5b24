import { textOfGiven } from './known-margins.js'

/**
 * What was worked out lately, by a text of all that it depends on: designs of a search that differ in one part ask for the same again.
 *
 * @param most - how many are kept; then all are let go of
 */
export function lately<T>(most: number): (key: string, make: () => T) => T {
  const known = new Map<string, { readonly value: T }>()
  return (key, make) => {
    const found = known.get(key) ?? { value: make() }
    if (known.size >= most && !known.has(key)) known.clear()
    known.set(key, found)
    return found.value
  }
}

/** Parts that are kept, and what is kept of each. */
const [parts, ofEach] = [20, 10_000] as const

/** The same of a part, which is plain data: of one that was read again, with the same values, what is known of it is found. */
export function latelyOf<T>(): (part: object, key: string, make: () => T) => T {
  const texts = new WeakMap<object, string>()
  const known = lately<ReturnType<typeof lately<T>>>(parts)
  return (part, key, make) => {
    const text = texts.get(part) ?? textOfGiven(part)
    texts.set(part, text)
    return known(text, () => lately<T>(ofEach))(key, make)
  }
}
