/** What JSON has no word for, so that two different arguments never look the same. */
const told = (_: string, value: unknown): unknown =>
  value === undefined || (typeof value === 'number' && (!Number.isFinite(value) || Object.is(value, -0)))
    ? { told: String(Object.is(value, -0) ? '-0' : value) }
    : value

/**
 * A call that is made once for each different plain data that it is given: many tests look at the same check. What it
 * answers is shared, so no test may change it. Under mutation every test makes its own: there it must be seen to run
 * through the code that it looks at.
 */
export function remembered<A extends readonly unknown[], R>(call: (...given: A) => R): (...given: A) => R {
  if (process.env['OHMWARD_MUTATE'] !== undefined) return call
  const known = new Map<string, R>()
  return (...given) => {
    const key = JSON.stringify(given, told)
    if (!known.has(key)) known.set(key, call(...given))
    return known.get(key)!
  }
}
