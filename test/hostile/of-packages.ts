import { expect, it } from 'vitest'
import type { Call } from './call.js'
import { copyOf, frozen, mutate, randomFrom } from './mutate.js'
import { faultIn, faultOfCall } from './sound.js'

/** Under mutation: the hostile calls of the packages asked for. The usual run has them all in hostile.test.ts. */
export function holdCalls(calls: readonly Call[], packages: readonly string[]): void {
  const isOurs = ([name]: Call) => packages.includes(name.split('.')[0]!.replace('statistics', 'budget'))

  it.each(calls.filter(isOurs).map((call) => [call[0], call] as const))('%s', (name, [, run, args, mayBeInfinite]) => {
    const given = frozen(copyOf(args))
    expect(faultIn(run(...given), mayBeInfinite)).toBeNull()
    const random = randomFrom(20261128)
    for (let i = 0; i < (name.includes('.check') ? 10 : 150); i++) {
      const { args: wrong } = mutate(random, args)
      expect(faultOfCall(() => run(...wrong), wrong, mayBeInfinite)).toBeNull()
    }
  })
}
