import { InputError } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { dutyRange, highestPwmFrequency, nearEdge, schedule, spareTime, type Task } from '../src/index.js'

const us = 1e-6
const task = (name: string, window: 'on' | 'off', settling: number, more: Partial<Task> = {}): Task => ({
  name,
  window,
  recovery: 0,
  settling: settling * us,
  acquisition: 10 * us,
  conversion: 90 * us,
  ...more,
})
const error = (act: () => unknown): InputError => {
  try {
    act()
  } catch (e) {
    if (e instanceof InputError) return e
    throw e
  }
  throw new Error('it was taken')
}

const both = schedule([task('current', 'on', 200), task('resistance', 'off', 300, { recovery: 100 * us, samples: 2 })])

it('leaves nothing missing at the highest frequency that it names', () => {
  const span = (min: number, max: number) => fc.double({ min, max, noNaN: true })
  fc.assert(
    fc.property(span(1e-6, 1e-3), span(1e-6, 1e-3), span(0.01, 0.99), span(0, 1), (t_on, t_off, from, more) => {
      const task = { recovery: 0, acquisition: 1e-7, conversion: 0 }
      const both = schedule([
        { ...task, name: 'a', window: 'on', settling: t_on },
        { ...task, name: 'b', window: 'off', settling: t_off },
      ])
      const duty = { from, to: from + more * (0.99 - from) }
      const found = highestPwmFrequency(both, duty)
      if (found.kind !== 'possible') throw new Error(found.kind)
      const { frequency } = found
      expect(spareTime(both, { duty: duty.from, frequency }).on).toBeGreaterThanOrEqual(0)
      expect(spareTime(both, { duty: duty.to, frequency }).off).toBeGreaterThanOrEqual(0)
      expect(dutyRange(both, frequency).kind).toBe('possible')
    }),
    { numRuns: 2000, seed: 1 },
  )
})

describe('the schedule of one converter', () => {
  it('gives each window its settling and its samples', () => {
    expect(both.on.shortest).toBeCloseTo(300 * us, 12)
    expect(both.off.shortest).toBeCloseTo(600 * us, 12)
  })

  it('lets settling run while others are sampled, and puts the first ready first', () => {
    const { off } = schedule([task('slow', 'off', 150), task('quick', 'off', 0), task('last', 'off', 160)], 5 * us)
    expect(off.steps.map((step) => step.name)).toEqual(['quick', 'slow', 'last'])
    expect(off.steps.map((step) => Math.round(step.start / us))).toEqual([0, 150, 250])
    expect(off.shortest).toBeCloseTo(355 * us, 12)
  })

  it('starts the clock of an own excitation only at its turn', () => {
    const { off } = schedule([task('first', 'off', 0), task('excited', 'off', 50, { starts: 'turn' })])
    expect(off.shortest).toBeCloseTo(250 * us, 12)
  })

  it('asks nothing of a window without a task', () => {
    const { on, off } = schedule([task('current', 'on', 0)], 5 * us)
    expect(off).toEqual({ shortest: 0, steps: [] })
    expect(on.shortest).toBeCloseTo(105 * us, 12)
  })

  it('bounds the duty', () => {
    const range = dutyRange(both, 200)
    if (range.kind !== 'possible') throw new Error(range.reason)
    expect(range.from).toBeCloseTo(0.06, 12)
    expect(range.to).toBeCloseTo(0.88, 12)
  })

  it('leaves one duty where the windows fill the period to the end', () => {
    const filled = { on: { shortest: 1e-4, steps: [] }, off: { shortest: 9e-4, steps: [] } }
    expect(dutyRange(filled, 1000)).toEqual({ kind: 'possible', from: 0.1, to: expect.closeTo(0.1, 12) })
    expect(dutyRange({ ...filled, on: { shortest: 1.01e-4, steps: [] } }, 1000).kind).toBe('impossible')
  })

  it('says in words when no duty holds both windows', () => {
    const range = dutyRange(both, 2000)
    expect(range).toMatchObject({ kind: 'impossible' })
    expect('reason' in range && range.reason).toMatch(/300 µs.*600 µs.*2 kHz is 500 µs: at most 1.111 kHz/)
  })

  it('bounds the frequency over a range of duty', () => {
    expect(highestPwmFrequency(both, { from: 0.1, to: 0.5 })).toMatchObject({ frequency: expect.closeTo(333.333, 3) })
    expect(highestPwmFrequency(both, { from: 0.5, to: 0.94 })).toMatchObject({ frequency: expect.closeTo(100, 9) })
    expect(highestPwmFrequency(both, { from: 0.5, to: 1 })).toMatchObject({
      kind: 'impossible',
      reason: expect.stringMatching(/duty 1.*600 µs/),
    })
    const on = schedule([task('current', 'on', 200)])
    expect(highestPwmFrequency(on, { from: 0.3, to: 1 })).toMatchObject({ frequency: expect.closeTo(1000, 9) })
    const off = schedule([task('resistance', 'off', 200)])
    expect(highestPwmFrequency(off, { from: 0.01, to: 0.7 })).toMatchObject({ frequency: expect.closeTo(1000, 9) })
    expect(highestPwmFrequency(schedule([]), { from: 0.1, to: 1 })).toEqual({ kind: 'any' })
  })

  it('tells what is spare', () => {
    const spare = spareTime(both, { duty: 0.1, frequency: 200 })
    expect(spare.on).toBeCloseTo(200 * us, 12)
    expect(spare.off).toBeCloseTo(3900 * us, 12)
    expect(spareTime(both, { duty: 1, frequency: 200 }).off).toBeCloseTo(-600 * us, 12)
    expect(spareTime(schedule([]), { duty: 0.5, frequency: 100 })).toEqual({ on: null, off: null })
  })

  it('flags samples near an edge', () => {
    expect(nearEdge(both.on, 1000 * us, 39 * us)).toEqual([])
    expect(nearEdge(both.on, 1000 * us, 41 * us)).toEqual(['current'])
    expect(nearEdge(both.on, 310 * us, 3 * us)).toEqual(['current'])
    expect(nearEdge(both.on, 310 * us, 1.9 * us)).toEqual([])
  })

  it.each([
    [() => schedule([task('x', 'on', -1)]), 'tasks[0].settling'],
    [() => schedule([task('x', 'on', NaN)]), 'tasks[0].settling'],
    [() => schedule([task('x', 'on', 0, { acquisition: Infinity })]), 'tasks[0].acquisition'],
    [() => schedule([task('x', 'on', 0, { conversion: -1 })]), 'tasks[0].conversion'],
    [() => schedule([task('x', 'on', 0, { recovery: -1 })]), 'tasks[0].recovery'],
    [() => schedule([task('x', 'on', 0, { samples: 0 })]), 'tasks[0].samples'],
    [() => schedule([task('x', 'on', 0, { samples: 1.5 })]), 'tasks[0].samples'],
    [() => schedule([task('x', 'up' as 'on', 0)]), 'tasks[0].window'],
    [() => schedule([], -1), 'guard'],
    [() => dutyRange(both, 0), 'frequency'],
    [() => dutyRange(both, NaN), 'frequency'],
    [() => highestPwmFrequency(both, { from: 0, to: 1 }), 'from'],
    [() => highestPwmFrequency(both, { from: 0.1, to: 1.1 }), 'to'],
    [() => highestPwmFrequency(both, { from: 0.5, to: 0.4 }), 'from'],
    [() => spareTime(both, { duty: 0, frequency: 1 }), 'duty'],
    [() => spareTime(both, { duty: 1.01, frequency: 1 }), 'duty'],
    [() => spareTime(both, { duty: 0.5, frequency: Infinity }), 'frequency'],
    [() => nearEdge(both.on, NaN, 1), 'length'],
    [() => nearEdge(both.on, 1, -1), 'timeConstant'],
  ] as const)('refuses bad input, case %#', (act, field) => {
    expect(error(act).field).toBe(field)
  })
})
