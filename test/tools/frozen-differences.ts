import type { Frozen, Numbers } from './frozen.js'

/** A number, a word or a set that isn't what was frozen: where, then and now. */
export interface Difference {
  readonly path: string
  readonly was: unknown
  readonly now: unknown
}

const relative = 1e-9
/** Below this share of what it was subtracted from, a number is rounding. */
const rounding = 1e-15

/** Whether two numbers agree to 1 part in 10⁹, or to the rounding of what they were computed from. */
const agree = (was: number, now: number, scale: number): boolean =>
  Math.abs(now - was) <= relative * Math.abs(was) + rounding * scale

function compareNumbers(path: string, was: Numbers, now: Numbers, scale: number): Difference[] {
  return Object.keys({ ...was, ...now }).flatMap((name) => {
    const [a, b] = [was[name], now[name]]
    if (a !== undefined && b !== undefined && agree(a, b, scale)) return []
    return [{ path: `${path}.${name}`, was: a, now: b }]
  })
}

const word = (path: string, was: string, now: string): Difference[] => (was === now ? [] : [{ path, was, now }])

/** The names on one side only. */
function compareNames(path: string, was: object, now: object): Difference[] {
  const missing = Object.keys(was).filter((name) => !(name in now))
  const added = Object.keys(now).filter((name) => !(name in was))
  return [
    ...missing.map((name) => ({ path: `${path}.${name}`, was: 'there', now: 'missing' })),
    ...added.map((name) => ({ path: `${path}.${name}`, was: 'missing', now: 'there' })),
  ]
}

/** The largest size among numbers, by which rounding is judged. */
const largest = (numbers: Numbers, names: readonly string[]): number =>
  Math.max(0, ...names.map((name) => Math.abs(numbers[name] ?? 0)))

/** Where an answer isn't what was frozen. Values of new symbols are no difference. */
export function differences(was: Frozen, now: Frozen): Difference[] {
  const found = [...word('verdict', was.verdict, now.verdict)]
  found.push(...compareNames('margins', was.margins, now.margins))
  found.push(...compareNames('budgets', was.budgets, now.budgets))
  for (const [id, before] of Object.entries(was.margins)) {
    const after = now.margins[id]
    if (after === undefined) continue
    const path = `margins.${id}`
    const scale = largest(before.numbers, ['limit', 'worst', 'nominal'])
    found.push(...word(`${path}.verdict`, before.verdict, after.verdict))
    found.push(...compareNumbers(path, before.numbers, after.numbers, scale))
    found.push(...compareNumbers(`${path}.at`, before.at, after.at, 0))
  }
  for (const [name, before] of Object.entries(was.budgets)) {
    const after = now.budgets[name]
    if (after !== undefined)
      found.push(...compareNumbers(`budgets.${name}`, before, after, largest(before, ['lower', 'upper'])))
  }
  for (const [symbol, before] of Object.entries(was.values)) {
    const after = now.values[symbol]
    if (after === undefined || !agree(before, after, 0))
      found.push({ path: `values.${symbol}`, was: before, now: after })
  }
  return found
}
