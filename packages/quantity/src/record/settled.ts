/** What doesn't change any more, as {@link settled} left it. */
const known = /*#__PURE__*/ new WeakSet<object>()

/** Whether it can't change any more: then what was read of it once stays right. */
export const isSettled = (value: unknown): value is object => known.has(value as object)

/**
 * A copy that doesn't change any more, all the way down: readers read it once by each field and know it again. For who reads the
 * same parts at many places, such as a walk over a discharge. What is no plain object or list stays as it is, and so does what holds it.
 */
export function settled<T>(given: T): T {
  return copyOf(given, new Map()) as T
}

const isPlain = (value: object): boolean =>
  Array.isArray(value) || [Object.prototype, null].includes(Object.getPrototypeOf(value))

/** @param copies - what was copied already, and what is being copied: a value may stand at several places, or in itself */
function copyOf(given: unknown, copies: Map<object, unknown>): unknown {
  if (typeof given !== 'object' || given === null || known.has(given)) return given
  if (copies.has(given)) return copies.get(given)
  copies.set(given, given)
  if (
    !isPlain(given) ||
    Object.getOwnPropertyNames(given).length !== Object.keys(given).length + Number(Array.isArray(given))
  )
    return given
  const entries = Object.entries(given).map(([key, one]) => [key, copyOf(one, copies)] as const)
  const copy = Array.isArray(given) ? given.map((_, i) => entries[i]![1]) : Object.fromEntries(entries)
  const isWhole = entries.every(([, one]) =>
    typeof one === 'object' && one !== null ? known.has(one) : typeof one !== 'function',
  )
  if (!isWhole) return given
  known.add(Object.freeze(copy))
  copies.set(given, copy)
  return copy
}
