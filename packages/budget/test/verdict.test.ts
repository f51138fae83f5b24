import { describe, expect, it } from 'vitest'
import { causesFirst, type Margin, readRule, tightestText } from '../src/index.js'
import { ordered } from '../src/margin/verdict.js'

const margin = (more: Partial<Margin>): Margin => ({
  id: 'a',
  name: 'room',
  unit: 'V',
  sense: 'at least',
  nominal: 1,
  worst: 1,
  limit: 0,
  slack: 1,
  nominalSlack: 1,
  at: {},
  verdict: 'holds',
  catches: [],
  ...more,
})

describe('the tightest margin in words', () => {
  it('says whether there is room or not, also where a probability decides', () => {
    expect(tightestText(margin({}))).toBe('tightest is the room, with 1 V to spare')
    expect(tightestText(margin({ verdict: 'not sure' }))).toBe('tightest is the room, with 1 V to spare')
    expect(tightestText(margin({ slack: -1, verdict: 'fails' }))).toBe('the room is 1 V below its limit')
    expect(tightestText(margin({ slack: -1, probability: 0.99857 }))).toBe(
      'the room is 1 V below its limit at worst, and met by 99.8 % of the boards',
    )
    // What is beyond an upper limit is over it.
    expect(tightestText(margin({ slack: -1, sense: 'at most', verdict: 'fails' }))).toBe(
      'the room is 1 V over its limit',
    )
    // A normal input goes beyond its limits: the worst of them may hold while too many boards do not.
    expect(tightestText(margin({ probability: 0.9, verdict: 'fails' }))).toBe('the room is met too seldom')
  })
})

describe('the order of margins', () => {
  const failing = (id: string, slack: number) => margin({ id, slack, nominalSlack: slack, limit: 1, verdict: 'fails' })
  const margins = [failing('error', -3), failing('junction', -2), failing('headroom', -1), margin({ id: 'supply' })]
  const ids = (list: readonly Margin[]) => list.map(({ id }) => id)

  it('is that of the slack, and a cause comes before what it brings about', () => {
    expect(ids(ordered(margins))).toEqual(['error', 'junction', 'headroom', 'supply'])
    const causes: Record<string, string[]> = { error: ['supply', 'headroom', 'dead-zone'] }
    const isCause = (cause: Margin, of: Margin) => causes[of.id]?.includes(cause.id) === true
    expect(ids(ordered(margins, isCause))).toEqual(['headroom', 'error', 'junction', 'supply'])
  })

  it('is that of how many boards meet a row before that of its slack', () => {
    const met = (probability: number, slack: number) => ({ ...failing(`${probability}`, slack), probability })
    // The more boards meet one, the more it lacks here: by none, by few, by most, by nearly all.
    const all = [met(0.999, -4), met(0.7, -3), met(0.3, -2), met(0.005, -1)]
    expect(ids(ordered(all))).toEqual(['0.005', '0.3', '0.7', '0.999'])
    // One that nominal parts fail counts as met by none, one that they meet as met by all.
    const unsaid = { ...failing('unsaid', -5), nominalSlack: 1 }
    expect(ids(ordered([unsaid, ...all, failing('none', -0.5)]))).toEqual([
      '0.005',
      'none',
      '0.3',
      '0.7',
      'unsaid',
      '0.999',
    ])
    const open = margin({ id: 'open', slack: -9, verdict: 'not sure' })
    expect(ids(ordered([margin({ id: 'held' }), open, met(0.999, -4)]))).toEqual(['0.999', 'open', 'held'])
  })

  it('follows a chain of causes, and stands a circle', () => {
    const order = (list: string[]) =>
      causesFirst(
        list,
        () => 'fails',
        (cause, of) => ['ba', 'cb', 'ac'].includes(cause + of),
      )
    expect(order(['a', 'b', 'c'])).toEqual(['c', 'b', 'a'])
    expect(order(['a', 'b'])).toEqual(['b', 'a'])
  })
})

describe('the decision rule', () => {
  it('is none, or a probability', () => {
    expect(readRule(undefined)).toEqual({})
    expect(readRule('95 %')).toEqual({ accept: 0.95 })
    expect(readRule(1)).toEqual({ accept: 1 })
    for (const accept of [0, -1, 2, 95, Number.NaN, 'yes', null]) expect(() => readRule(accept)).toThrow(/^accept = /)
  })
})
