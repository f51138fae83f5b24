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
/** A whole design takes a second: few of them here, a thirtieth of what the others get by the switch. */
const isWhole = (name: string) => /^frontend\.(check|preview)/.test(name)
const each = (name: string) => {
  if (total > 0) return Math.ceil(total / calls.length / (isWhole(name) ? 30 : 1))
  return isWhole(name) ? 8 : name.includes('.check') ? 25 : 150
}

/** The dearest call of each name, in milliseconds of the processor: a busy machine doesn't count. */
const dearest = new Map<string, { milliseconds: number; told: string }>()

function measured(name: string, told: string, act: () => string | null): string | null {
  const before = process.cpuUsage()
  const start = performance.now()
  const fault = act()
  const { user, system } = process.cpuUsage(before)
  const milliseconds = Math.min((user + system) / 1000, performance.now() - start)
  if (milliseconds > (dearest.get(name)?.milliseconds ?? 0)) dearest.set(name, { milliseconds, told })
  return fault
}

const untouched = Object.getOwnPropertyNames(Object.prototype).sort().join()

describe.each(calls.map((call) => [call[0], call] as const))('%s', (name, [, run, args, mayBeInfinite]) => {
  it('takes what is right, twice the same, and leaves it as it was', () => {
    const given = frozen(copyOf(args))
    const first = run(...given)
    expect(faultIn(first, mayBeInfinite)).toBeNull()
    if (total > 0 || !isWhole(name)) expect(JSON.stringify(run(...given))).toBe(JSON.stringify(first))
  })

  it('answers soundly, or refuses with its error, what is not', () => {
    const random = randomFrom(seed ^ [...name].reduce((sum, letter) => Math.imul(sum, 31) + letter.charCodeAt(0), 7))
    const faults: string[] = []
    for (let i = 0; i < each(name) && faults.length < 5; i++) {
      const { args: wrong, told } = mutate(random, args)
      const fault = measured(name, told, () => faultOfCall(() => run(...wrong), wrong, mayBeInfinite))
      if (fault !== null) faults.push(`${told} → ${fault}`)
    }
    expect(faults).toEqual([])
  })
})

/** A reader answers at once; what checks or proves may take longer. Asked of the long run, whose first calls are few. */
const allowed = (name: string) => (/\.read|^quantity\./.test(name) ? 100 : 2000)

describe.runIf(total > 0)('the dearest call', () => {
  it('of no reader takes more than a tenth of a second, of no check more than two', () => {
    const list = [...dearest].sort(([, a], [, b]) => b.milliseconds - a.milliseconds)
    const text = ([name, { milliseconds, told }]: (typeof list)[number]) =>
      `${name}: ${milliseconds.toFixed(0)} ms, ${told}`
    console.log(list.slice(0, 20).map(text).join('\n'))
    expect(list.filter(([name, { milliseconds }]) => milliseconds > allowed(name)).map(text)).toEqual([])
  })
})

afterAll(() => {
  expect(Object.getOwnPropertyNames(Object.prototype).sort().join()).toBe(untouched)
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined()
})
