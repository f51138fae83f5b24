import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { type MonitorAnswer, monitorOf } from '../src/answer/monitor.js'
import { monitorRows } from '../src/answer/whole-rows/monitor.js'
import { comb } from './comb.js'
import { cutter } from './cutter.js'

/* What the firmware's watch of the cells comes to is held: each of its numbers by one row, which fails where the number says so. */

const held: Readonly<Record<string, (one: MonitorAnswer) => number | null>> = {
  full: ({ aboveFirst }) => aboveFirst,
  early: ({ beforeStop }) => beforeStop,
  reset: ({ aboveReset }) => aboveReset,
  hysteresis: ({ hysteresis }) => hysteresis,
  damage: ({ aboveDamage }) => aboveDamage,
  protection: ({ aboveProtection }) => aboveProtection,
  weakest: ({ weakestAboveDamage }) => weakestAboveDamage,
  sampling: ({ missed }) => missed,
  lag: ({ lag }) => lag,
}

const designs: Readonly<Record<string, Design>> = {
  example: exampleDesign,
  'a stop far too low': {
    ...exampleDesign,
    monitor: { ...exampleDesign.monitor, stop: '2.4 V', latch: '2.2 V' },
  } as Design,
  'a stop far too high, without hysteresis': {
    ...exampleDesign,
    monitor: { reads: 'at rest', warning: '4.6 V', stop: '4.1 V', hysteresis: 0 },
  } as Design,
  'a protection of its own': {
    ...exampleDesign,
    supply: { ...exampleDesign.supply, source: { ...exampleDesign.supply.source, protectionVoltage: '3.2 V ±0.05 V' } },
  } as Design,
  'two cells behind a divider': {
    ...(cutter as unknown as Design),
    monitor: {
      reads: 'under load',
      stop: '5.2 V',
      latch: '5 V',
      hysteresis: '0.4 V',
      divider: { upper: '300 kohm ±1 %', lower: '100 kohm ±1 %', capacitance: '100 nF ±10 %', interval: '20 ms' },
    },
  },
  'a comb that reads at rest': comb,
}

describe.each(Object.entries(designs))('%s', (_, design) => {
  const walk = walkOf(readDesign(design), { charges: 2 })
  const answer = monitorOf(walk)!
  const rows = new Map(monitorRows(walk, answer).map(({ id, margin }) => [id, margin]))

  it.each(Object.keys(held))('holds what it says of %s', (id) => {
    const said = held[id]!(answer)
    const row = rows.get(`monitor/${id}`)
    if (said === null) {
      expect(row).toBeUndefined()
      return
    }
    expect(row!.worst).toBe(said)
    const slack = row!.sense === 'at least' ? said - row!.limit : row!.limit - said
    expect(row!.slack).toBeCloseTo(slack, 12)
    if (slack < 0) expect(row!.verdict).toBe('fails')
    else expect(['holds', 'not sure']).toContain(row!.verdict)
  })

  it('holds the distance of each threshold to the next one', () => {
    for (const [n, { name, toNext }] of answer.alarms.entries()) {
      const row = rows.get(`monitor/${name}-${answer.alarms[n + 1]?.name}`)
      if (toNext === null) expect(row).toBeUndefined()
      else expect(row).toMatchObject({ worst: toNext, limit: 0, verdict: toNext < 0 ? 'fails' : 'holds' })
    }
  })
})

it('puts thresholds no further apart than the board with the lowest reference, nor nearer by more than noise and counts', () => {
  const { calibration: _, ...monitor } = exampleDesign.monitor!
  const design = readDesign({ ...exampleDesign, monitor })
  const { alarms } = monitorOf(walkOf(design, { charges: 2 }))!
  const { noise } = design.monitor!
  // 1.1 V -9 %, 12 bits: a code is met at the rail of which the reference is that part. A count is worth 2 to 2.5 mV there.
  const railAt = (code: number) => (1.1 * 0.91 * 4096) / code
  for (const [n, { code, toNext }] of alarms.entries()) {
    if (toNext === null) continue
    // Noise may have the one late and the next early.
    const apart = railAt(code!) - railAt(alarms[n + 1]!.code!) - 2 * noise
    expect(toNext).toBeLessThan(apart)
    expect(toNext).toBeGreaterThan(apart - 3 * 0.0025)
  }
  expect(alarms.filter(({ toNext }) => toNext !== null).length).toBeGreaterThanOrEqual(2)
})
