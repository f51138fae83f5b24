import { exampleConverters } from '@ohmward/adc'
import { changed } from '@ohmward/budget'
import { describe, expect, it } from 'vitest'
import { checkHall, exampleSensors, type HallChoice, type HallConditions, hallChanges } from '../src/index.js'
import { cell, knife } from './design.js'

const task = { name: 'resistance', window: 'off', recovery: 0, settling: '20 us', acquisition: 2e-6, conversion: 1e-6 }

/** Choices that fail, each in another way. */
const failing: [string, Partial<HallChoice>, string][] = [
  ['a sensor of 5 V on one cell', { sensor: exampleSensors.fiveVoltTwoWay }, 'supply-low'],
  ['more current than the span holds', { current: { from: 0, to: '20 A' } }, 'span-high'],
  ['both ways with a one-way sensor', { current: { from: '-6 A', to: '6 A' } }, 'span-low'],
  ['a short on-time', { pwm: { frequency: '10 kHz', duty: { from: 0.1, to: 0.9 } } }, 'on-window'],
  [
    'a short off-time',
    { pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.98 } }, otherTasks: [task as never] },
    'off-window',
  ],
  ['a short wait', { wait: '5 us' }, 'settling'],
  [
    'a capacitor that gives too much of its charge away',
    { filter: { resistance: '1 kohm', capacitance: '4.7 nF' } },
    'sampling',
  ],
  ['too much ripple', { reading: 'averaged', filter: { resistance: '1 kohm', capacitance: '1 uF' } }, 'ripple'],
  ['noise', { sensor: { ...knife.sensor, noiseDensity: '200 uV/Hz^0.5' } }, 'noise'],
  ['steps too coarse', { resolution: '3 mA' }, 'resolution'],
  ['an error that needs a zero', { errors: [{ at: '1 A', allowed: '0.12 A' }] }, 'error-1'],
  ['a power from the squared mean', { reading: 'averaged', power: 'squared reading' }, 'power'],
  ['a trip too low', { trip: { current: '6.6 A', normal: '6.5 A', withstand: '10 A' } }, 'trip-false'],
  ['a trip too high', { trip: { current: '9.9 A', normal: '6.5 A', withstand: '10 A' } }, 'trip-late'],
  ['a code of a trip too low', { trip: { code: 1690, normal: '6.5 A', withstand: '10 A' } }, 'trip-false'],
  ['a division by little', { divideFrom: '10 mA' }, 'quotient'],
  ['a hot conductor', { sensor: { ...knife.sensor, conductorResistance: '90 mohm' } }, 'conductor'],
]

const holds = (choice: HallChoice, conditions: HallConditions) =>
  checkHall(choice, conditions, { simulation: false }).margins

describe('what can be done', () => {
  it.each(failing)('about %s holds as it is printed', (_, more, id) => {
    const choice: HallChoice = { ...knife, ...more }
    const before = holds(choice, cell)
    expect(before.find((margin) => margin.id === id)!.verdict).not.toBe('holds')
    const { changes, pairs } = hallChanges(choice, cell, { checks: 150 })
    expect(changes.some(({ mends }) => mends.some((row) => row.id === id))).toBe(true)
    for (const { puts, mends, breaks, verdict, name } of [...changes, ...pairs]) {
      const typed = JSON.parse(JSON.stringify(changed({ choice, conditions: cell }, puts))) as ReturnType<
        typeof changed<HallChoice, HallConditions>
      >
      const after = holds(typed.choice, typed.conditions)
      const verdictOf = (row: string) => after.find((margin) => margin.id === row)?.verdict ?? 'holds'
      for (const row of mends) expect(verdictOf(row.id), `${name} mends ${row.id}`).toBe('holds')
      for (const row of breaks) expect(verdictOf(row.id), `${name} breaks ${row.id}`).not.toBe('holds')
      expect(after.every((margin) => margin.verdict === 'holds')).toBe(verdict === 'holds')
    }
  })

  it('says nothing where everything holds', () => {
    expect(hallChanges(knife, cell)).toMatchObject({ changes: [], pairs: [], text: 'Everything holds.' })
  })

  it('cures both windows with a faster converter clock', () => {
    const slow = exampleConverters['10-bit controller converter']
    const choice = {
      ...knife,
      converter: { ...slow, gain: '0.1 %' },
      errors: [{ at: '6 A', allowed: '10 %' }],
      pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.9 } },
      filter: { resistance: '330 ohm', capacitance: '10 nF' },
      otherTasks: [{ ...task, acquisition: '12 us', conversion: '92 us' }],
    } as HallChoice
    const windows = ['on-window', 'off-window']
    const verdicts = holds(choice, cell).filter(({ id, verdict }) => windows.includes(id) && verdict === 'fails')
    expect(verdicts).toHaveLength(2)
    const clock = hallChanges(choice, cell).changes.find(({ id }) => id === 'faster-clock')!
    expect(clock.mends.map(({ id }) => id)).toEqual(expect.arrayContaining(windows))
    expect(Object.keys(clock.puts)).toEqual([
      'converter.acquisitionTime',
      'converter.conversionTime',
      'otherTasks.0.acquisition',
      'otherTasks.0.conversion',
    ])
  })
})
