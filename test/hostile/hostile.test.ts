import { afterAll, describe, expect, it } from 'vitest'
import type { Call } from './call.js'
import { callsOfBlocks } from './calls-of-blocks.js'
import { callsOfEngines } from './calls-of-engines.js'
import { copyOf, frozen, mutate, randomFrom } from './mutate.js'
import { faultIn, faultOfCall } from './sound.js'

/*
 * Every exported verb and reader, called with arguments that are nearly right: the library's one error with the field, or a
 * finite answer. OHMWARD_HOSTILE=1000000 makes a million calls in the place of a slice, OHMWARD_SEED another draw.
 */

const calls: readonly Call[] = [...callsOfEngines, ...callsOfBlocks]
const seed = Number(process.env['OHMWARD_SEED'] ?? 20261128)
const total = Number(process.env['OHMWARD_HOSTILE'] ?? 0)
const each = (name: string) => (total > 0 ? Math.ceil(total / calls.length) : name.includes('.check') ? 25 : 150)

const untouched = Object.getOwnPropertyNames(Object.prototype).sort().join()

describe.each(calls.map((call) => [call[0], call] as const))('%s', (name, [, run, args, mayBeInfinite]) => {
  it('takes what is right, twice the same, and leaves it as it was', () => {
    const given = frozen(copyOf(args))
    const first = run(...given)
    expect(faultIn(first, mayBeInfinite)).toBeNull()
    expect(JSON.stringify(run(...given))).toBe(JSON.stringify(first))
  })

  it('answers soundly, or refuses with its error, what is not', () => {
    const random = randomFrom(seed ^ [...name].reduce((sum, letter) => Math.imul(sum, 31) + letter.charCodeAt(0), 7))
    const faults: string[] = []
    for (let i = 0; i < each(name) && faults.length < 5; i++) {
      const { args: wrong, told } = mutate(random, args)
      const fault = faultOfCall(() => run(...wrong), wrong, mayBeInfinite)
      if (fault !== null) faults.push(`${told} → ${fault}`)
    }
    expect(faults).toEqual([])
  })
})

afterAll(() => {
  expect(Object.getOwnPropertyNames(Object.prototype).sort().join()).toBe(untouched)
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined()
})
