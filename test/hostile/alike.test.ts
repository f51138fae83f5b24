import { readFileSync } from 'node:fs'
import type { Assessment } from '@ohmward/budget'
import { describe, expect, it } from 'vitest'
import { choiceOfToday } from '../frozen/earlier.js'
import { type Case, checks, frozenOf } from '../tools/frozen.js'
import { differences } from '../tools/frozen-differences.js'
import { asNumber, reversed, widened, withTexts } from './alike.js'
import { copyOf, frozen } from './mutate.js'

/*
 * The same choice written otherwise is the same choice, and one with wider tolerances is no better at worst. Of every
 * block what stands on its page, an example and a drawn choice; what they answer is no matter here.
 */

const casesOf = (block: string): Case[] =>
  (JSON.parse(readFileSync(new URL(`../frozen/${block}.json`, import.meta.url), 'utf8')) as Case[])
    .filter((_, i) => [0, 3, 13].includes(i))
    .map((one) => (block === 'decoupling' ? { ...one, choice: choiceOfToday(one.choice) } : one))

/** Fields of which the unit says what is meant, a share or the quantity itself. */
const kinds = ['error', 'allowed']

describe.each(Object.keys(checks))('%s', (block) => {
  const ask = (choice: unknown, conditions: unknown): Assessment =>
    checks[block]!(choice as never, conditions as never, { simulation: false } as never)
  const changed = (x: unknown, y: unknown) => JSON.stringify(x) !== JSON.stringify(y)
  let numbers = 0
  let tolerances = 0

  it.each(casesOf(block))('$name', ({ choice, conditions }) => {
    const given = frozen([copyOf(choice), copyOf(conditions)])
    const answer = ask(given[0], given[1])
    expect(JSON.stringify(ask(given[0], given[1])), 'asked twice').toBe(JSON.stringify(answer))
    const was = frozenOf(answer)
    const isSame = (a: Assessment, how: string) => expect(differences(was, frozenOf(a)), how).toEqual([])

    isSame(ask(reversed(choice), reversed(conditions)), 'fields in another order')

    const [inNumbers, around] = [choice, conditions].map((one) => withTexts(one, asNumber, kinds))
    if (changed(inNumbers, choice)) numbers++
    isSame(ask(inNumbers, around), 'numbers in the place of texts')

    const wider = withTexts(choice, widened, kinds)
    if (!changed(wider, choice)) return
    tolerances++
    const after = ask(wider, conditions).margins
    const better = answer.margins.flatMap(({ id, slack, limit, worst }) => {
      const wide = after.find((one) => one.id === id)
      const rounding = 1e-9 * Math.max(Math.abs(limit), Math.abs(worst))
      return wide !== undefined && wide.slack <= slack + rounding ? [] : [`${id}: ${slack}, wider ${wide?.slack}`]
    })
    expect(better, 'wider tolerances').toEqual([])
  })

  it('was written otherwise', () => {
    expect(numbers).toBeGreaterThan(0)
    expect(tolerances).toBeGreaterThan(0)
  })
})
