import { InputError } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import type { Call } from './call.js'
import { callsOfBlocks } from './calls-of-blocks.js'
import { copyOf } from './mutate.js'

/*
 * A name that nobody asked for is refused, in every object that a user writes: ignored, it would be a slip of the pen that
 * leaves the field to what is taken otherwise, and with it too good an answer.
 */

/** Arguments that users write, by their place; the others are what a reader leaves. */
const writtenAt = ([name, , args]: Call): number[] => {
  if (/\.(read|check)/.test(name)) return args.map((_, i) => i)
  return ['supply.cellsAt', 'supply.sourceAt', 'supply.sourceOver', 'supply.burstsOf', 'supply.cutOffAt'].includes(name)
    ? [1]
    : name === 'supply.shelfLife'
      ? [2]
      : []
}

/** Every object in a value, with its path. */
function objectsIn(value: unknown, path: string): [path: string, object: Record<string, unknown>][] {
  if (typeof value !== 'object' || value === null) return []
  const inside = Object.entries(value).flatMap(([key, one]) => objectsIn(one, `${path}.${key}`))
  return Array.isArray(value) ? inside : [[path, value as Record<string, unknown>], ...inside]
}

/** Spreads and ranges of the verbs that take what is read already. */
const isPlain = (name: string, path: string) =>
  /^supply\.(sourceOver|cutOffAt|burstsOf)$/.test(name) && /^1\../.test(path) && path !== '1.reads'

describe('a name that nobody asked for', () => {
  it.each(callsOfBlocks.filter((call) => writtenAt(call).length > 0).map((call) => [call[0], call] as const))(
    'is refused by %s, wherever it stands',
    (name, call) => {
      const [, run, given] = call
      const args = copyOf(given) as unknown[]
      // A whole design is read by its reader, which stands in the list: here its options.
      const places = /^frontend\.(check|preview)/.test(name) ? [1] : writtenAt(call)
      const ignored = places
        .flatMap((i) => objectsIn(args[i], `${i}`))
        .filter(([path, object]) => {
          if (isPlain(name, path)) return false
          object['unknwon'] = 1
          try {
            run(...args)
            return true
          } catch (error) {
            return !(error instanceof InputError && /unknwon|distribution/.test(error.message))
          } finally {
            delete object['unknwon']
          }
        })
      expect(ignored.map(([path]) => path)).toEqual([])
    },
  )
})

/** What a program writes where it has no name, and what no text can show. */
const noNames = ['', ' ', 'NaN', 'Infinity', 'undefined', 'x'.repeat(1e5)]

describe('a name that is none', () => {
  const named = callsOfBlocks.filter((call) => writtenAt(call).length > 0)
  const found = new Set<string>()
  it.each(named.map((call) => [call[0], call] as const))('is refused by %s, wherever a name stands', (name, call) => {
    const [, run, given] = call
    const args = copyOf(given) as unknown[]
    const places = /^frontend\.(check|preview)/.test(name) ? [] : writtenAt(call)
    const taken: string[] = []
    for (const [path, object] of places.flatMap((i) => objectsIn(args[i], `${i}`))) {
      const own = object['name']
      if (typeof own !== 'string' || isPlain(name, path)) continue
      found.add(`${name} ${path}`)
      for (const none of noNames) {
        object['name'] = none
        try {
          run(...args)
          taken.push(`${path}.name = ${none.slice(0, 10)}`)
        } catch (error) {
          const isSaid = error instanceof InputError && /name = .*characters/.test(error.message)
          if (!isSaid) taken.push(`${path}.name = ${none.slice(0, 10)}: ${String(error).slice(0, 200)}`)
        }
      }
      object['name'] = own
    }
    expect(taken).toEqual([])
  })

  it('was tried in supplies, tasks and loads', () => {
    expect(found.size).toBeGreaterThan(5)
  })

  it('is no key of kinds of capacitor either', () => {
    const [, run, given] = callsOfBlocks.find(([name]) => name === 'decoupling.checkDecoupling')!
    const [choice, ...rest] = copyOf(given) as [Record<string, unknown>, ...unknown[]]
    const [one] = Object.values(choice['capacitors'] as object)
    for (const none of noNames) {
      const asked = () => run({ ...choice, capacitors: { [none]: one } }, ...rest)
      expect(asked, none.slice(0, 10)).toThrow(/^capacitors = .*1 to 80 characters/)
    }
  })
})
