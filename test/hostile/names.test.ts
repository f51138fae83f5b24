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
