/** What is worked out when it is first asked for. */
export function once<T>(make: () => T): () => T {
  let known: { readonly value: T } | undefined
  return () => {
    known ??= { value: make() }
    return known.value
  }
}
