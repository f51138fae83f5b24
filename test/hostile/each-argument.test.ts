import * as adc from '@ohmward/adc'
import * as budget from '@ohmward/budget'
import * as statistics from '@ohmward/budget/statistics'
import * as decoupling from '@ohmward/decoupling'
import * as waveform from '@ohmward/decoupling/waveform'
import * as divider from '@ohmward/divider'
import * as hall from '@ohmward/hall'
import * as mosfet from '@ohmward/mosfet'
import * as quantity from '@ohmward/quantity'
import * as supply from '@ohmward/supply'
import * as burst from '@ohmward/supply/formulas'
import { describe, expect, it } from 'vitest'
import { type Recorded, recordedCalls } from './recorded.js'
import { faultIn, faultOf } from './sound.js'

/*
 * Every exported function, called as the reference's example calls it but with one argument wrong: the library's one error that
 * names a field, or a finite answer. A function that is exported anew has to have an example, and is held here with it. Formulas are
 * bare arithmetic by their documentation and aren't asked.
 */

const modules = {
  '@ohmward/adc': adc,
  '@ohmward/budget': budget,
  '@ohmward/budget/statistics': statistics,
  '@ohmward/decoupling': decoupling,
  '@ohmward/decoupling/waveform': waveform,
  '@ohmward/divider': divider,
  '@ohmward/hall': hall,
  '@ohmward/mosfet': mosfet,
  '@ohmward/quantity': quantity,
  '@ohmward/supply': supply,
  '@ohmward/supply/formulas': burst,
}

const pages = [
  'supply',
  'adc',
  'mosfet',
  'hall',
  'divider',
  'decoupling',
  'decoupling-waveform',
  'budget-statistics',
  'budget',
  'quantity',
]

/** Whole checks: only the arguments themselves are made wrong here, what is in them by the other hostile calls. */
const dear = /check|size|Changes|sweep|OverRail|hallPeriod|OverCurrent|largestOn|AtWork|railLimit|simulate/

/** Documented: what is given is handed back unread. What else is in the answer is looked at. */
const besidesGiven: Readonly<Record<string, (answer: any) => unknown>> = {
  missingFields: () => [],
  changed: () => [],
  settled: () => [],
  causesFirst: () => [],
  choose: ({ choices, rejected }) => [choices, rejected.map(({ reason, lack }: Keyed) => [reason, lack])],
}

/** Documented: no limit of the current is a knee at minus infinity, a step that stays lasts for ever, an exact value has no end of degrees. */
const endless = /\.knee$|\.duration$|\.degreesOfFreedom$/

const wrong: readonly (readonly [told: string, make: () => unknown])[] = [
  ['undefined', () => undefined],
  ['null', () => null],
  ['NaN', () => Number.NaN],
  ['Infinity', () => Number.POSITIVE_INFINITY],
  ['-Infinity', () => Number.NEGATIVE_INFINITY],
  ['-1', () => -1],
  ['an empty text', () => ''],
  ['a text', () => 'xx'],
  ['true', () => true],
  ['an empty object', () => ({})],
  ['a list', () => [1]],
  ['an empty list', () => []],
  ['a function', () => () => 1],
  ['a symbol', () => Symbol('s')],
  ['an unknown key', () => ({ unknwon: 1 })],
]

type Keyed = Record<string, unknown>
const isKeyed = (value: unknown): value is Keyed => typeof value === 'object' && value !== null
const copied = (value: Keyed): Keyed =>
  Array.isArray(value)
    ? ([...value] as unknown as Keyed)
    : Object.assign(Object.create(Object.getPrototypeOf(value)), value)

/** Every call with one thing wrong, and with nothing. */
function* wrongCalls({ name, args }: Recorded): Generator<readonly [told: string, args: unknown[]]> {
  yield ['no argument', []]
  for (const [i, arg] of args.entries()) {
    const put = (value: unknown) => args.map((one, j) => (i === j ? value : one))
    for (const [told, make] of wrong) {
      // Nothing in the place of options is a whole check, as the first call was.
      const isWhole = dear.test(name) && i > 1 && ['undefined', 'an empty object'].includes(told)
      if (!isWhole) yield [`${i}: ${told}`, put(make())]
    }
    if (!isKeyed(arg) || dear.test(name)) continue
    if (!Array.isArray(arg)) yield [`${i}.unknwon`, put(Object.freeze({ ...arg, unknwon: 1 }))]
    for (const key of Object.keys(arg).slice(0, 40)) {
      for (const [told, make] of wrong) {
        const changed = copied(arg)
        changed[key] = make()
        yield [`${i}.${key}: ${told}`, put(changed)]
      }
    }
  }
}

async function faultOfAnswer({ name, run }: Recorded, told: string, args: unknown[]): Promise<string | null> {
  try {
    const answer = await run(...args)
    const own = besidesGiven[name.split(' ')[1]!]?.(answer) ?? answer
    return faultIn(own, endless, /NaN|Infinity$/.test(told))
  } catch (thrown) {
    return faultOf(thrown)
  }
}

describe.each(pages)('each argument of %s', (page) => {
  it('is looked at before it is used', async () => {
    const faults: string[] = []
    for (const call of await recordedCalls(page, modules)) {
      const [entry, name] = call.name.split(' ') as [string, string]
      if (entry.endsWith('/formulas') || entry.slice(9).replace('/', '-') !== page) continue
      for (const [told, args] of wrongCalls(call)) {
        const fault = await faultOfAnswer(call, told, args)
        if (fault !== null) faults.push(`${name} ${told} → ${fault}`)
      }
    }
    expect(faults).toEqual([])
  })
})
