import { plainMargin } from '@ohmward/budget'
import { decoupling, exampleChoice, exampleConditions } from '@ohmward/decoupling'
import { describe, expect, it } from 'vitest'
import { HeldSpan, type Work } from '../src/walk/held-span.js'
import type { Stage } from '../src/walk/stage.js'

const text = { id: 'rail', name: 'lowest rail', unit: 'V', sense: 'at least', catches: [] } as const

/** A block whose rows hold with 1 V to spare and cost five steps each. */
function stageOf(ids: readonly string[], counts = true): { readonly stage: Stage; readonly spent: () => number } {
  let steps = 0
  const spent = () => steps
  const hold = () => {
    steps += 5
    return plainMargin(text, 4, 3)
  }
  const ready = () => ids.map((id) => ({ id, row: { kind: 'own', ...text, hold } as const, ...(counts && { spent }) }))
  return { stage: { block: 'decoupling', state: 'PWM', ready }, spent }
}

const workOf = (left: number): Work => ({ left, first: new Map(), isCut: false })

describe('a walk that may cost so much', () => {
  it('holds its rows until that is spent, and then none that holds', () => {
    const { stage, spent } = stageOf(['decoupling/rail'])
    const work = workOf(7)
    const verdicts = Array.from({ length: 4 }, () => new HeldSpan({} as never, [stage], work)).map(
      (span) => span.margin(stage, 'decoupling/rail')!,
    )
    expect(verdicts.map(({ verdict }) => verdict)).toEqual(['holds', 'holds', 'not sure', 'not sure'])
    expect(verdicts[2]!.reason).toContain('not looked at by itself')
    expect(spent()).toBe(10)
    expect(work.isCut).toBe(true)
  })

  it('holds each row once, whatever was spent before: over everything', () => {
    const { stage } = stageOf(['decoupling/rail', 'decoupling/ripple'])
    const work = workOf(1)
    const span = new HeldSpan({} as never, [stage], work)
    expect(span.all().map(({ margin }) => margin.verdict)).toEqual(['holds', 'holds'])
    expect(work.isCut).toBe(false)
  })

  it('leaves alone what counts no steps, and a walk without an end', () => {
    const [uncounted, counted] = [stageOf(['a'], false), stageOf(['a'])]
    const work = workOf(0)
    for (let n = 0; n < 3; n++) {
      expect(new HeldSpan({} as never, [uncounted.stage], work).margin(uncounted.stage, 'a')!.verdict).toBe('holds')
      expect(new HeldSpan({} as never, [counted.stage]).margin(counted.stage, 'a')!.verdict).toBe('holds')
    }
    expect(work.isCut).toBe(false)
  })

  it('is told by the rail what its rows have cost', () => {
    const { rows, spent } = decoupling.setup(decoupling.read(exampleChoice, exampleConditions))
    const before = spent!()
    const row = rows.find(({ id }) => id === 'rail-brown-out')!
    if (row.kind !== 'own') throw new Error('a row of the rail is held by physics of its own')
    row.hold({})
    expect(spent!() - before).toBeGreaterThan(1e4)
  })
})
