import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type Assessment,
  assess,
  type Change,
  changed,
  changesOf,
  choose,
  type Margin,
  preferred,
  put,
  type Remedies,
  relativeSlack,
  solved,
  tighter,
} from '../src/index.js'
import { block, type Choice, volts } from './example-block.js'

/*
 * What the engine of all blocks promises of changes and of choosing, over random dividers. The reference is the check
 * itself, asked once for every choice: what is looked for among them has to be among them.
 */

interface Given {
  readonly upper: number
  readonly lower: number
  readonly percent: number
  readonly wanted: number
}
const dividers = fc.record({
  upper: fc.integer({ min: 400, max: 2000 }),
  lower: fc.integer({ min: 400, max: 2000 }),
  percent: fc.constantFrom(0.2, 1, 2, 5),
  wanted: fc.integer({ min: 50, max: 160 }).map((hundredths) => hundredths / 100),
})
/** Dividers between limits so near to each other that it takes another value and a closer class together. */
const squeezed = fc.record({
  upper: fc.integer({ min: 800, max: 1300 }),
  lower: fc.constant(1000),
  percent: fc.constantFrom(1, 2, 5),
  wanted: fc.integer({ min: 138, max: 148 }).map((hundredths) => hundredths / 100),
})
const choiceOf = ({ upper, lower, percent, wanted }: Given): Choice => ({
  upper: `${upper} ohm ±${percent} %`,
  lower: `${lower} ohm ±${percent} %`,
  wanted,
})
const check = (choice: Choice): Assessment => assess(block, choice, volts)

const [upper, lower] = [
  { path: 'upper', unit: 'ohm' },
  { path: 'lower', unit: 'ohm' },
]
const more = preferred({ id: 'more', name: 'larger upper', ...upper, towards: 'up' })
const less = preferred({ id: 'less', name: 'smaller upper', ...upper, towards: 'down' })
const other = preferred({ id: 'other', name: 'larger lower', ...lower, towards: 'up' })
const free = { ...solved({ id: 'free', name: 'upper of', ...upper, to: 1e5 }), isFree: true } as const
const closer = tighter({ id: 'closer', name: 'closer', paths: ['upper', 'lower'], unit: 'ohm' })
const task = {
  ...put({ id: 'task', name: 'a lower level', puts: { wanted: 0.4 }, text: '0.4 V' }),
  isTask: true,
} as const
const remedies: Remedies = { high: [more, closer, free, task], low: [task, other, less, closer] }

describe('changes of any divider', () => {
  const slackOf = (margins: readonly Margin[]) => new Map(margins.map((one) => [one.id, one]))

  it('come out as printed, help what they name, and stand in their order', () => {
    let pairsSeen = 0
    let pairsBeforeTask = 0
    fc.assert(
      fc.property(fc.oneof(dividers, squeezed), fc.constantFrom(4, 30, 400), (given, checks) => {
        const choice = choiceOf(given)
        const before = slackOf(check(choice).margins)
        const { changes, pairs, untried, text } = changesOf(block, remedies, choice, volts, { checks })
        const after = (one: Change) => check(changed({ choice, conditions: volts }, one.puts).choice as Choice)
        for (const one of [...changes, ...pairs]) {
          const { verdict, margins } = after(one)
          expect(verdict).toBe(one.verdict)
          // It mends a row that didn't hold, or gives one at least a tenth of what it lacked.
          const isHelp = margins.some(({ id, verdict, slack }) => {
            const old = before.get(id)!
            return old.verdict !== 'holds' && (verdict === 'holds' || slack >= 0.9 * old.slack)
          })
          expect(isHelp).toBe(true)
        }
        const isTask = ({ id }: Change) => id === 'task'
        const isWhole = ({ verdict }: Change) => verdict === 'holds'
        // What costs no part and is enough, what is enough, what helps; the task itself behind all.
        const place = (one: Change) => (isTask(one) ? 3 : !isWhole(one) ? 2 : one.id === 'free' ? 0 : 1)
        const places = changes.map(place)
        expect(places).toEqual([...places].sort((a, b) => a - b))
        // A pair is what is enough where no single change is.
        if (changes.some((one) => isWhole(one) && !isTask(one))) expect(pairs).toEqual([])
        expect(pairs.every(isWhole)).toBe(true)
        // Two changes are one pair, whichever is named first.
        const both = ({ id }: Change) => id.split('+').sort().join()
        expect(new Set(pairs.map(both)).size).toBe(pairs.length)
        pairsSeen += pairs.length
        // What wasn't tried is said: three by name, the others by their number.
        expect(text.includes('Not tried')).toBe(untried.length > 0)
        expect(untried.filter((name) => text.split('Not tried')[1]?.includes(`${name}`)).length).toBe(
          Math.min(3, untried.length),
        )
        if (untried.length > 3) expect(text).toContain(`and ${untried.length - 3} more.`)
        // The sentence is of what comes first: a change that leaves the task alone, two of them, one that doesn't, the most helpful.
        const [first] = changes
        const [pair] = pairs
        const whole = changes.find(isWhole)
        const alone = changes.some((one) => isWhole(one) && !isTask(one))
        if (alone) expect(text).toContain(`With ${first!.name} (${first!.text}) everything holds.`)
        else if (pair) {
          pairsBeforeTask += Number(whole !== undefined)
          const unless = whole === undefined ? '' : ' without changing the task'
          const only = whole === undefined || whole !== first
          if (only)
            expect(text).toContain(`No single change is enough${unless}; ${pair.name} (${pair.text}) together are.`)
        } else if (whole) expect(text).toContain(`With ${whole.name} (${whole.text}) everything holds.`)
        else if (first) expect(text).toContain(`${first.name} (${first.text}) helps most.`)
      }),
      { numRuns: 60 },
    )
    expect(pairsSeen).toBeGreaterThan(0)
    expect(pairsBeforeTask).toBeGreaterThan(0)
  })

  it('a closer class is closer than what stands there, and no class is proposed where none is', () => {
    fc.assert(
      fc.property(dividers, (given) => {
        const choice = choiceOf(given)
        const conditions = volts
        const rungs = closer.rungs({ choice, conditions, read: block.read(choice, conditions) })
        const classes = rungs.map(({ text }) => Number(/^±(\S+) %$/.exec(text)![1]))
        expect(classes).toEqual([1, 0.5, 0.1, 0.05, 0.01].filter((one) => one < given.percent))
      }),
      { numRuns: 30 },
    )
  })
})

describe('choosing among any dividers', () => {
  const lists = fc.array(dividers, { minLength: 1, maxLength: 12 }).map((list) => list.map(choiceOf))
  const leastOf = (choice: Choice) => Math.min(...check(choice).margins.map(relativeSlack))
  const isGood = (choice: Choice) => check(choice).verdict === 'holds'
  const costOf = ({ upper }: Choice) => Number.parseFloat(String(upper))
  const kindOf = ({ lower }: Choice) => (Number.parseFloat(String(lower)) < 1000 ? 'low' : 'high')

  it('the cheapest of those that hold, of each kind where kinds are asked for; and every candidate is accounted for', () => {
    fc.assert(
      fc.property(lists, fc.integer({ min: 1, max: 3 }), fc.boolean(), (list, most, byKind) => {
        const options = { most, cost: costOf, ...(byKind && { kind: kindOf }) }
        const { choices, rejected, beaten, untried } = choose(block, list, volts, options)
        const good = list.filter(isGood).sort((a, b) => costOf(a) - costOf(b))
        const kinds = new Set<string>()
        const wanted = good.filter((one) => !byKind || (!kinds.has(kindOf(one)) && kinds.add(kindOf(one))))
        expect(choices.map(({ choice }) => costOf(choice))).toEqual(wanted.slice(0, most).map(costOf))
        expect(choices.length + rejected.length + beaten + untried).toBe(list.length)
        expect(rejected.some(({ choice }) => isGood(choice))).toBe(false)
      }),
      { numRuns: 60 },
    )
  })

  it('the largest least slack, of each kind where kinds are asked for', () => {
    fc.assert(
      fc.property(lists, fc.integer({ min: 1, max: 3 }), fc.boolean(), (list, most, byKind) => {
        const { choices, rejected, beaten } = choose(block, list, volts, { most, ...(byKind && { kind: kindOf }) })
        const good = list.filter(isGood).sort((a, b) => leastOf(b) - leastOf(a))
        const kinds = new Set<string>()
        const wanted = good.filter((one) => !byKind || (!kinds.has(kindOf(one)) && kinds.add(kindOf(one))))
        expect(choices.length).toBe(Math.min(most, wanted.length))
        choices.forEach(({ choice }, n) => {
          expect(leastOf(choice)).toBeCloseTo(leastOf(wanted[n]!), 9)
        })
        expect(choices.length + rejected.length + beaten).toBe(list.length)
      }),
      { numRuns: 60 },
    )
  })
})
