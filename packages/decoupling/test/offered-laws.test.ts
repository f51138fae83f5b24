import type { ChangeSpec } from '@ohmward/budget'
import { readNumber } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { fewerParts, higherRating, moreParts } from '../src/changes/capacitors.js'
import { otherTiming } from '../src/changes/load.js'
import { readDecoupling } from '../src/choice/read.js'
import type { DecouplingChoice } from '../src/index.js'
import { assumptionsOf } from '../src/texts/assumptions.js'
import { base, bulk, check, pulsed } from './usual-rail.js'

const at = { openCircuit: { from: 3.7, to: 3.7 }, ambientCelsius: { from: 25, to: 25 }, ageYears: { from: 0, to: 0 } }
const start = (choice: DecouplingChoice) => ({ choice, conditions: at, read: readDecoupling(choice, at) })
const rungs = (change: ChangeSpec, choice: DecouplingChoice) => change.rungs(start(choice) as never)

describe('what is offered of a kind of capacitor', () => {
  it('are the ratings above its own, the lowest first', () => {
    const [first, second] = higherRating
    expect(rungs(first!, base).map(({ text }) => text)).toEqual(['16 V', '25 V', '35 V', '50 V', '63 V', '100 V'])
    expect(rungs(first!, base)[0]!.puts).toEqual({ 'capacitors.0.ratedVoltage': '16 V' })
    // There is no second kind; of one that has the highest nothing is above.
    expect(rungs(second!, base)).toEqual([])
    expect(rungs(first!, { ...base, capacitors: [{ ...bulk, ratedVoltage: 100 }] })).toEqual([])
  })

  it('are up to sixteen of it or four times as many, or one less at a time', () => {
    const of = (change: ChangeSpec, count: number) =>
      rungs(change, { ...base, capacitors: [{ ...bulk, count }] }).map(({ puts }) => Object.values(puts)[0])
    expect(of(moreParts[0]!, 1)).toEqual(Array.from({ length: 15 }, (_, i) => `${i + 2}`))
    expect(of(moreParts[0]!, 5).at(-1)).toBe('20')
    expect(of(moreParts[0]!, 1000)).toEqual([])
    expect(of(fewerParts[0]!, 3)).toEqual(['2', '1'])
    expect(of(fewerParts[0]!, 1)).toEqual([])
  })
})

describe('a slower edge', () => {
  const slower = otherTiming.find(({ id }) => id === 'slower')!
  const longest = (load: object) => {
    const all = rungs(slower, { ...base, load: { current: 8, rise: '1 us', ...load } })
    return Math.max(...all.map(({ puts }) => readNumber(puts['load.rise'], { field: 'rise', unit: 's' })))
  }
  it('ends before the load is off again', () => {
    // 0.4 of 50 us; a burst of 2 ms.
    expect(longest(pulsed(20e3, 0.4, {}))).toBeLessThanOrEqual(20e-6)
    expect(longest(pulsed(20e3, 0.4, {}))).toBeGreaterThan(10e-6)
    expect(longest({ duration: '2 ms' })).toBeLessThanOrEqual(2e-3)
    expect(longest({ duration: '2 ms' })).toBeGreaterThan(1e-3)
  })
})

describe('what is said of a rail', () => {
  it('tells of a constant power alone that it needs a capacitor at its terminals', () => {
    const said = (load: object) => assumptionsOf(readDecoupling({ ...base, load } as DecouplingChoice, at)).join(' ')
    expect(said({ power: 8 })).toMatch(/a constant power needs a capacitor at its terminals/)
    expect(said({ current: 8 })).not.toMatch(/a constant power/)
  })

  it('tells how much capacitance it takes where the rail fails, and where another row does not', () => {
    const summary = (more: object) => check({ ...base, load: { current: 1 }, ...more }).summary
    expect(summary({})).toMatch(/^Holds: /)
    expect(summary({ capacitors: [{ ...bulk, ratedVoltage: 3 }] })).toMatch(/^Fails: .* at worst to 3\.\d+ V\.$/)
    expect(summary({ load: { current: 8, duration: '1 ms' } })).toMatch(/ It takes about \d.* of capacitance\.$/)
    expect(summary({})).not.toMatch(/It takes about/)
  })

  it('derives no diode and no emission where none stands behind the rail', () => {
    const { derivation } = check({ ...base, load: { current: 8, ...pulsed(20e3, 0.4, {}) } })
    expect(derivation.map(({ quantity }) => quantity).filter((one) => /diode|emission/.test(one))).toEqual([])
  })
})
