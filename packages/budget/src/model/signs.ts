/** A source of coin tosses that starts the same each time (xorshift, 32 bits). */
export function coin(seed = 0x9e3779b9): () => boolean {
  let state = seed
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    return state < 0
  }
}
