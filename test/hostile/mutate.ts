/** A generator of numbers from 0 to 1 that gives the same on every machine (mulberry32). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
  }
}

const pick = <T>(random: () => number, all: readonly T[]): T => all[Math.floor(random() * all.length)]!

/** What no field of a number takes, and what some do: ends of the range of numbers, other types, texts that nearly read. */
const strange: readonly (() => unknown)[] = [
  () => Number.NaN,
  () => Number.POSITIVE_INFINITY,
  () => Number.NEGATIVE_INFINITY,
  () => -0,
  () => 0,
  () => -1,
  () => 5e-324,
  () => 1e-300,
  () => 1e-100,
  () => 1e100,
  () => 1e308,
  () => -1e308,
  () => 2 ** 53,
  () => 0.5,
  () => true,
  () => null,
  () => undefined,
  () => '',
  () => ' ',
  () => 'NaN',
  () => 'Infinity',
  () => '10 K',
  () => '1e400',
  () => '4k7',
  () => '5 V ±1 %',
  () => '1 ohm ±200 %',
  () => '-3 A',
  () => '<script>',
  () => 'x'.repeat(5000),
  () => '9'.repeat(5000),
  () => '0: 1, 1: 2',
  () => [],
  () => [1, 2],
  () => [[[[]]]],
  () => ({}),
  () => ({ from: 1, to: 0 }),
  () => ({ from: Number.NaN, to: 1 }),
  () => ({ nominal: 1, lower: 2, upper: 0 }),
  () => ({ nominal: 1, lower: -1e308, upper: 1e308 }),
  () => ({ nominal: 1, lower: 0, upper: 2, distribution: { kind: 'normal', coverage: 0 } }),
  () => JSON.parse('{"__proto__": {"polluted": 1}}'),
  () => ({ constructor: { prototype: { polluted: 1 } } }),
  () => Symbol('s'),
  () => 10n,
  () => () => 1,
  () => new Date(0),
  () => new Map([[1, 2]]),
  () => Object.create(null),
]

/** A copy of plain data; functions and objects of other classes stay what they are. */
export function copyOf<T>(value: T): T {
  if (Array.isArray(value)) return value.map(copyOf) as T
  if (typeof value !== 'object' || value === null || Object.getPrototypeOf(value) !== Object.prototype) return value
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, copyOf(one)])) as T
}

type Keyed = Record<string, unknown>
const isKeyed = (value: unknown): value is Keyed =>
  Array.isArray(value) ||
  (typeof value === 'object' && value !== null && Object.getPrototypeOf(value) === Object.prototype)

/** Every place in a value at which something stands: its holder and key. */
function placesOf(root: Keyed): [holder: Keyed, key: string][] {
  const places: [Keyed, string][] = []
  const walk = (holder: Keyed) => {
    for (const key of Object.keys(holder)) {
      places.push([holder, key])
      const inside = holder[key]
      if (isKeyed(inside)) walk(inside)
    }
  }
  walk(root)
  return places
}

/** What was done to the arguments, in words. */
export interface Mutated {
  readonly args: unknown[]
  readonly told: string
}

const told = (value: unknown): string => {
  try {
    return (JSON.stringify(value) ?? String(value)).slice(0, 60)
  } catch {
    return String(value).slice(0, 60)
  }
}

/** Valid arguments with one to three faults in them. */
export function mutate(random: () => number, valid: readonly unknown[]): Mutated {
  const root = { args: copyOf(valid) as unknown[] }
  const words: string[] = []
  for (let n = random() < 0.7 ? 1 : random() < 0.7 ? 2 : 3; n > 0; n--) {
    const [holder, key] = pick(random, placesOf(root).slice(1))
    const old = holder[key]
    const what = random()
    if (typeof old === 'number' && what < 0.4) {
      holder[key] = pick(random, [-old, old * 1e3, old * 1e-3, old * 1e9, old * 1e-9, old + 0.5, Math.round(old)])
    } else if (isKeyed(old) && !Array.isArray(old) && what < 0.3) {
      old['unknwon'] = 1
      words.push(`${key}.unknwon`)
      continue
    } else if (what < 0.4 && !Array.isArray(holder)) {
      delete holder[key]
      words.push(`without ${key}`)
      continue
    } else holder[key] = pick(random, strange)()
    words.push(`${key} = ${told(holder[key])}`)
  }
  return { args: root.args, told: words.join(', ') }
}

/** Freezes plain data through and through. */
export function frozen<T>(value: T): T {
  if (isKeyed(value)) {
    Object.values(value).forEach(frozen)
    Object.freeze(value)
  }
  return value
}
