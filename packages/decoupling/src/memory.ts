/** Answers that are remembered; with more the memory begins anew. */
const most = 10_000

/**
 * A function of the numbers in `x` at the time of the call, that remembers its answers: margins that ask for the same board don't make
 * it again.
 */
export function memory<A>(x: Float64Array, ask: () => A): () => A {
  const words = new Uint32Array(x.buffer)
  const known = new Map<number, { readonly of: Float64Array; readonly answer: A }>()
  return () => {
    let key = 0
    for (let k = 0; k < words.length; k++) key = Math.imul(key ^ words[k]!, 0x01000193) ^ (key >>> 15)
    const found = known.get(key)
    if (found !== undefined && isSame(found.of, x)) return found.answer
    const answer = ask()
    if (known.size >= most) known.clear()
    known.set(key, { of: x.slice(), answer })
    return answer
  }
}

function isSame(a: Float64Array, b: Float64Array): boolean {
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return false
  return true
}
