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
