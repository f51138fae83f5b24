import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { cutter } from './cutter.js'
import { monitorRow, rowsBeside } from './shared.js'

const withCell = (more: object, design: Design = exampleDesign): Design =>
  ({ ...design, supply: { ...design.supply, source: { ...design.supply.source, ...more } } }) as Design

/** The knife that nothing watches. */
const unwatched = (more: object): Design => {
  const { monitor: _, ...design } = withCell(more) as Design
  return design as Design
}

describe('the protection of the cells', () => {
  it('ends their use where nothing else does, as low as it may act; unless it is told, at damage', () => {
    const lowest = (more: object) => {
      const { charges, around, solve } = walkOf(readDesign(unwatched(more)), { charges: 2 })
      const end = charges.at(-1)!
      return solve({ charge: { from: end, to: end }, ...around }).source.openCircuit.lower
    }
    // Of a cell off its curve by 30 mV as everywhere.
    expect(lowest({ protectionVoltage: '2.9 V ±0.05 V' })).toBeCloseTo(2.85 - 0.03, 5)
    expect(lowest({ protectionVoltage: '2.7 V ±0.05 V' })).toBeCloseTo(2.65 - 0.03, 5)
    expect(lowest({})).toBeLessThan(2.5)
  })

  it('must act above damage where nothing else stops them', () => {
    const row = (protectionVoltage: string | undefined, design = unwatched) =>
      rowsBeside(design(protectionVoltage === undefined ? {} : { protectionVoltage }), 'supply/protection').find(
        ({ id }) => id === 'supply/protection',
      )?.margin
    expect(row('2.6 V ±0.08 V')).toMatchObject({ verdict: 'holds', limit: 2.5 })
    expect(row('2.5 V ±0.08 V')).toMatchObject({ verdict: 'fails', limit: 2.5 })
    expect(row(undefined)).toBeUndefined()
    expect(row('2.4 V', withCell)).toBeUndefined()
  })

  it('must not act before the stop: cells under load stand above it', () => {
    const monitor = { reads: 'under load', stop: '2.9 V', hysteresis: '1 V', calibration: '0.001 %', noise: 0 } as const
    const left = (protectionVoltage: string) =>
      monitorRow({ ...withCell({ protectionVoltage }), monitor }, 'protection')!.worst
    // The rail stands at 2.9 V less a count of some 2 mV; before it lie contacts, protection and wiring, some 20 mohm for 3.9 A.
    expect(left('2.5 V')).toBeGreaterThan(2.9 - 2e-3 - 2.5 + 0.03)
    expect(left('2.5 V')).toBeLessThan(2.9 - 2.5 + 0.15)
    expect(left('2.5 V ±0.1 V')).toBeCloseTo(left('2.5 V') - 0.1, 9)
    // At rest they come to less under the next load than where it acts: 3.1 V through half an ohm in the cold, old.
    expect(monitorRow(withCell({ protectionVoltage: '2.5 V' }), 'protection')!.verdict).toBe('fails')
    expect(monitorRow(exampleDesign, 'protection')).toBeUndefined()
  })

  it('watches each of cells in series: the weakest comes to it first', () => {
    const monitor = { reads: 'under load', stop: '5.8 V', hysteresis: '2 V', divider: { ratio: 0.3 } } as const
    const left = (capacity: string) =>
      monitorRow({ ...withCell({ capacity, protectionVoltage: '2.4 V' }, cutter), monitor }, 'protection')!.worst
    // Of 5 % more and less one is 0.1 V and more below the other where both have a twentieth of their charge left.
    expect(left('4 Ah ±5 %')).toBeLessThan(left('4 Ah ±0.001 %') - 0.05)
  })

  it('is none above full cells', () => {
    expect(() => readDesign(withCell({ protectionVoltage: '4.3 V' }))).toThrow(
      /^supply\.source\.protectionVoltage = 4\.3 V: allowed is less than the voltage of the full cell, 4\.1932 V/,
    )
  })
})
