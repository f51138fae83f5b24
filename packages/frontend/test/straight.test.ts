import { describe, expect, it } from 'vitest'
import { type Seen, straightRows } from '../src/answer/map/straight.js'
import { now } from '../src/answer/run.js'

/** Rows that are functions of the column, and the columns at which each was looked at. */
function lookAt(length: number, slacks: Readonly<Record<string, (column: number) => number | null>>) {
  const looks = new Map<string, number[]>(Object.keys(slacks).map((id) => [id, []]))
  const columns = now(
    straightRows(length, (column, wanted) => {
      const seen = new Map<string, Seen | null>()
      for (const [id, slackAt] of Object.entries(slacks)) {
        if (wanted !== undefined && !wanted.ids.has(id) && wanted.known.has(id)) continue
        const slack = slackAt(column)
        looks.get(id)!.push(column)
        seen.set(id, slack === null ? null : { slack, values: [1 - slack], scale: 1 })
      }
      return seen
    }),
  )
  return {
    slacksOf: (id: string) => columns.map((one) => one.get(id)?.slack ?? null),
    valuesOf: (id: string) => columns.map((one) => one.get(id)?.values[0] ?? null),
    looksAt: (id: string) => looks.get(id)!.length,
  }
}

const all = (length: number) => Array.from({ length }, (_, i) => i)

describe('rows over columns, looked at where they bend', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 12, 40, 400])('a straight row is a straight line over %i columns', (length) => {
    const line = (x: number) => 0.2 + x / (2 * length)
    const { slacksOf, valuesOf, looksAt } = lookAt(length, { line })
    slacksOf('line').forEach((slack, x) => {
      expect(slack).toBeCloseTo(line(x), 12)
    })
    valuesOf('line').forEach((value, x) => {
      expect(value).toBeCloseTo(1 - line(x), 12)
    })
    expect(looksAt('line')).toBe(Math.min(length, 7))
  })

  it('where a row crosses its limit every column is on its own side, however near', () => {
    for (let x = 0.5; x < 39; x++) {
      const falls = (column: number) => 1e-4 * (x - column)
      const bends = (column: number) => 0.02 * (x - column) + 1e-4 * (x - column) ** 2
      const { slacksOf } = lookAt(40, { falls, bends })
      expect(slacksOf('falls').map((slack) => slack! < 0)).toEqual(all(40).map((column) => falls(column) < 0))
      expect(slacksOf('bends').map((slack) => slack! < 0)).toEqual(all(40).map((column) => bends(column) < 0))
    }
  })

  it('where a row starts near its limit and sinks below it before it rises, every column is on its own side', () => {
    // Nearly straight in the middle of the first third, but further off than it has at its beginning; just behind that it sinks.
    const sag = (t: number) =>
      0.0005 + 0.2 * t - 0.012 * t * (1 - t) - 0.03 * (Math.exp(-(((t - 0.1) / 0.1) ** 2)) - Math.exp(-1))
    const from = (column: number) => sag(Math.min(1, column / 21))
    const to = (column: number) => sag(Math.min(1, (63 - column) / 21))
    const { slacksOf } = lookAt(64, { from, to })
    for (const [id, slackAt] of Object.entries({ from, to })) {
      const short = all(64).map((column) => slackAt(column) < 0)
      expect(short.filter((one) => one).length).toBeGreaterThan(1)
      expect(slacksOf(id).map((slack) => slack! < 0)).toEqual(short)
    }
  })

  it('a step is found in its column, and what is level on both sides of it is looked at no more', () => {
    for (let x = 0; x < 40; x++) {
      const step = (column: number) => (column <= x ? 0.5 : 0.2)
      const { slacksOf, looksAt } = lookAt(40, { step })
      expect(slacksOf('step')).toEqual(all(40).map(step))
      expect(looksAt('step')).toBeLessThanOrEqual(15)
    }
  })

  it('a curve is off by no more than a hundredth of its scale', () => {
    const curves = {
      square: (x: number) => (x / 39) ** 2,
      root: (x: number) => Math.sqrt(x / 39),
      steepAtTheEnd: (x: number) => 1 - Math.exp((x - 39) / 4),
      bell: (x: number) => Math.exp(-(((x - 17) / 5) ** 2)),
    }
    const { slacksOf, looksAt } = lookAt(40, curves)
    for (const [id, curve] of Object.entries(curves)) {
      slacksOf(id).forEach((slack, x) => {
        expect(Math.abs(slack! - curve(x)), `${id} at ${x}`).toBeLessThan(0.01)
      })
      expect(looksAt(id), id).toBeLessThan(40)
    }
  })

  it('a row that nothing is seen of, or that comes and goes, is looked at everywhere', () => {
    const { slacksOf, looksAt } = lookAt(40, {
      unseen: () => null,
      late: (x) => (x > 20 ? 0.5 : null),
    })
    expect(slacksOf('unseen')).toEqual(all(40).map(() => null))
    expect(slacksOf('late')).toEqual(all(40).map((x) => (x > 20 ? 0.5 : null)))
    expect(looksAt('unseen')).toBe(40)
  })

  it('tells a share that rises to 1', () => {
    for (const length of [1, 2, 3, 5, 12, 40]) {
      const look = (column: number) => new Map([['a', { slack: Math.cos(column), values: [], scale: 1 }]])
      const shares = [...straightRows(length, look)]
      expect(shares.at(-1)).toBeCloseTo(1, 12)
      expect(shares).toEqual([...shares].sort((a, b) => a - b))
    }
  })
})
