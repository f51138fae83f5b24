import { changed } from '@ohmward/budget'
import { readNumber, readSpread } from '@ohmward/quantity'
import { all, create } from 'mathjs'
import { describe, expect, it } from 'vitest'
import { betterLogic } from '../src/changes/logic.js'
import { lessSource } from '../src/changes/source.js'
import { readDecoupling } from '../src/choice/read.js'
import {
  checkDecoupling,
  type DecouplingChoice,
  decouplingChanges,
  exampleChoice,
  exampleConditions,
  examplePort,
} from '../src/index.js'
import { dutiesOf, frequenciesOf } from '../src/search/pulses.js'
import { at, base, bulk, check } from './exact-rail.js'

const math = create(all!, {})

describe('a derivation', () => {
  const inductive = { ...base, source: { resistance: 0.1, inductance: '1 uH' } } as const
  const kinds = [bulk, { ...bulk, name: 'other', capacitance: 1e-4 }]
  const choices: readonly [name: string, choice: DecouplingChoice][] = [
    ['plain', base],
    ['with inductance', inductive],
    ['with several kinds', { ...base, capacitors: kinds }],
    ['with insertion', { ...base, insertion: { contactSurge: '200 A' } }],
    ['of the example', exampleChoice],
  ]

  it.each(choices)('tells every number once: %s', (_, choice) => {
    const { derivation } = checkDecoupling(choice, choice === exampleChoice ? exampleConditions : at(3.7))
    const symbols = derivation.map(({ symbol }) => symbol)
    expect(symbols).toEqual([...new Set(symbols)])
    // What comes after may use what stands before, never the other way round.
    derivation.forEach(({ inputs }, n) => {
      for (const symbol of symbols.slice(n)) expect(Object.keys(inputs)).not.toContain(symbol)
    })
  })

  it.each(choices)('gives what its expressions come to: %s', (_, choice) => {
    const { derivation } = checkDecoupling(choice, choice === exampleChoice ? exampleConditions : at(3.7))
    for (const { symbol, expression, inputs, value } of derivation) {
      const found = math.evaluate(expression, { ...inputs }) as number
      expect(Math.abs(found - value), symbol).toBeLessThanOrEqual(1e-9 * Math.max(Math.abs(value), 1e-12))
    }
  })

  it('numbers the symbols of several kinds, and of no single one', () => {
    const numbersIn = (choice: DecouplingChoice) =>
      checkDecoupling(choice, at(3.7)).derivation.flatMap(({ symbol }) => /^(?:C|ESR)_(\d)$/.exec(symbol)?.[1] ?? [])
    expect(numbersIn(base)).toEqual([])
    expect([...new Set(numbersIn({ ...base, capacitors: kinds }))]).toEqual(['1', '2'])
  })

  it('has the characteristic impedance of a loop with inductance, and of no other', () => {
    const stepOf = (choice: DecouplingChoice) =>
      checkDecoupling(choice, at(3.7)).derivation.find(({ quantity }) => /characteristic impedance/i.test(quantity))
    expect(stepOf(base)).toBeUndefined()
    // sqrt(1 uH / 1 mF) = 31.6 mohm.
    expect(stepOf(inductive)!.value).toBeCloseTo(Math.sqrt(1e-6 / 1e-3), 6)
  })
})

describe('a load in pulses', () => {
  const pwm = { frequency: '20 kHz', duty: 0.4 }
  const id = 'pwm-start'

  it.each([
    ['a current', { current: '4 A' }, {}],
    ['a resistor', { resistance: '0.7 ohm' }, {}],
    [
      'a resistor on a source that limits',
      { resistance: '7 ohm' },
      { source: { resistance: 0.1, currentLimit: '5 A' } },
    ],
    [
      'a resistor beside a rail behind a diode',
      { resistance: '0.7 ohm' },
      { logicRail: { behind: 'diode', forwardVoltage: 0.3, capacitance: '100 uF', current: '5 mA' }, onLogicRail: [] },
    ],
  ] as const)('has its first periods held too, and no better than its steady rail: %s', (_, load, more) => {
    const choice = { ...base, load: { ...load, pwm }, limits: { brownOut: 2 }, ...more } as DecouplingChoice
    const { margins } = checkDecoupling(choice, at(3.7), { simulation: false })
    const steady = margins.find((one) => one.id === 'rail-brown-out')!
    const start = margins.find((one) => one.id === id)!
    expect(start.worst).toBeLessThanOrEqual(steady.worst + 1e-6)
    expect(start.limit).toBe(2)
  })

  it('has no first periods to hold where nothing is pulsed, watched, or ever steady: then the rail tells it', () => {
    const marginsOf = (more: object) => {
      const choice = { ...base, load: { current: '4 A', pwm }, limits: { brownOut: 2 }, ...more } as DecouplingChoice
      const { margins } = checkDecoupling(choice, at(3.7), { simulation: false })
      return new Map(margins.map((one) => [one.id, one]))
    }
    const limited = (currentLimit: string) => marginsOf({ source: { resistance: 0.05, currentLimit } })
    // In the mean the pulses take 1.6 A: a source of 2 A charges the capacitors again, one of 1 A never does.
    expect(limited('2 A').has(id)).toBe(true)
    expect(limited('1 A').has(id)).toBe(false)
    expect(limited('1 A').get('rail-brown-out')!.verdict).toBe('fails')
    expect(marginsOf({}).has(id)).toBe(true)
    expect(marginsOf({ load: { current: '4 A' } }).has(id)).toBe(false)
    const behind = { behind: 'diode', forwardVoltage: 0.3, capacitance: '100 uF', current: '5 mA' }
    expect(marginsOf({ logicRail: behind, onLogicRail: ['brownOut'] }).has(id)).toBe(false)
    // The limit of the rail that counts is the highest one.
    expect(marginsOf({ limits: { brownOut: 2, sensor: 2.5 } }).get(id)!.limit).toBe(2.5)
  })

  it('is looked at between the ends of its ranges, evenly in duty and in decades of frequency', () => {
    const load = { current: '4 A', pwm: { frequency: { from: '1 kHz', to: '100 kHz' }, duty: { from: 0.1, to: 0.9 } } }
    const read = readDecoupling({ ...base, load }, at(3.7))
    const isEven = (steps: readonly number[]) =>
      steps.slice(1).every((x, n) => Math.abs(x - steps[n]! - (steps[1]! - steps[0]!)) < 1e-9) && steps[1]! > steps[0]!
    const [duties, frequencies] = [dutiesOf(read), frequenciesOf(read)]
    expect([duties[0], duties.at(-1)]).toEqual([0.1, 0.9])
    expect([frequencies[0], frequencies.at(-1)]).toEqual([1e3, 1e5])
    expect(isEven(duties)).toBe(true)
    expect(isEven(frequencies.map(Math.log))).toBe(true)
  })
})

describe('a source with less resistance', () => {
  const conditions = at(3.7)
  const spec = lessSource.find(({ id }) => id === 'less-source')!

  // A cold and aged cell has three times the resistance of a warm and new one: a width that no per cent can be typed for.
  it.each([
    ['66 mohm +139/-38 mohm', 139 / 66, 38 / 66],
    ['100 mohm +30/-10 %', 0.3, 0.1],
    ['100 mohm ±30 %', 0.3, 0.3],
  ])('keeps what it may be off each way, and can be typed: %s', (resistance, above, below) => {
    const choice = { ...base, source: { resistance } }
    const read = readDecoupling(choice, conditions)
    const rungs = spec.rungs({ choice, conditions, read })
    expect(rungs.length).toBeGreaterThan(3)
    for (const { puts } of rungs) {
      const { source } = changed({ choice, conditions }, puts).choice as typeof choice
      const { nominal, lower, upper } = readSpread(source.resistance, { field: 'resistance', unit: 'ohm' })
      expect((upper - nominal) / nominal).toBeCloseTo(above, 2)
      expect((nominal - lower) / nominal).toBeCloseTo(below, 2)
      expect(nominal).toBeLessThan(readSpread(resistance, { field: 'resistance', unit: 'ohm' }).nominal)
    }
  })

  it('leaves the protection alone, which would trip at more', () => {
    const read = readDecoupling(exampleChoice, exampleConditions)
    const start = { choice: exampleChoice, conditions: exampleConditions, read }
    for (const { id, rungs } of lessSource) {
      const paths = Object.keys(rungs(start)[0]!.puts)
      expect(paths, id).not.toContain(`source.path.${read.source.protection}.resistance`)
      if (id !== 'better-cell') expect(paths, id).toContain('source.path.0.resistance')
    }
  })

  it('is offered where a source sags too much that may be far off one way', () => {
    const choice = { ...base, source: { resistance: '66 mohm +139/-38 mohm' }, load: { current: '4 A' } }
    expect(checkDecoupling(choice, conditions).verdict).toBe('fails')
    const { changes } = decouplingChanges(choice, conditions)
    const less = changes.find(({ id }) => id === 'less-source')!
    expect(less.verdict).toBe('holds')
    const mended = changed({ choice, conditions }, less.puts).choice as typeof choice
    expect(checkDecoupling(mended, conditions).verdict).toBe('holds')
  })
})

describe('a logic rail that is helped', () => {
  it.each([
    ['less-logic', 'current', 5e-3, 0.01 * 5e-3],
    ['less-diode', 'forwardVoltage', 0.3, 0.01],
  ] as const)('%s goes from what it has down towards what is still a part', (id, word, present, least) => {
    const choice = {
      ...base,
      logicRail: { behind: 'diode', forwardVoltage: 0.3, capacitance: 1e-4, current: 5e-3 },
    } as const
    const read = readDecoupling(choice, at(3.7))
    const spec = betterLogic.find((one) => one.id === id)!
    const values = spec
      .rungs({ choice, conditions: at(3.7), read })
      .map(({ puts }) =>
        readNumber(puts[`logicRail.${word}`] as string, { field: word, unit: word === 'current' ? 'A' : 'V' }),
      )
    expect(values.length).toBeGreaterThan(3)
    for (const value of values) {
      expect(value).toBeLessThan(present)
      expect(value).toBeGreaterThanOrEqual(0.9 * least)
    }
  })
})

describe('words', () => {
  const diode = { logicRail: { behind: 'diode', forwardVoltage: 0.3, capacitance: 1e-4, current: 5e-3 } } as const
  const resistor = { logicRail: { behind: 'resistor', resistance: 10, capacitance: 1e-4, current: 5e-3 } } as const
  const part = (more: object) => ({ capacitors: [{ ...bulk, ...more }] })
  const pulses = (frequency: unknown, duty: unknown) => ({ load: { current: 1, pwm: { frequency, duty } } })
  const steady = pulses('20 kHz', 0.4)

  it.each<[begin: string, those: object, others: readonly object[]]>([
    [
      'A series resistance without a range',
      {},
      [part({ seriesResistance: '10 mohm ±20 %' }), part({ seriesResistance: 0 })],
    ],
    ['Points of dc bias', part({ bias: '0 V: 1, 10 V: 0.5' }), [{}]],
    ['Ageing counts from one hour', part({ ageing: '2 %' }), [{}]],
    ['The source holds its current at the limit', { source: { resistance: 0.1, currentLimit: 10 } }, [{}]],
    ['Inductances of the capacitors are left out: a constant power', { load: { power: 3 } }, [{}]],
    ['The diode rail is full', diode, [{}, resistor]],
    ['Under PWM the diode charges', { ...diode, ...steady }, [diode, steady, { ...resistor, ...steady }]],
    ['A burst begins from rest', { load: { current: 1, duration: 1e-3 } }, [{}, steady]],
    ['PWM runs until the rail repeats itself', steady, [{}]],
    ['PWM frequency from 10 kHz to 20 kHz', pulses({ from: '10 kHz', to: '20 kHz' }, 0.4), [steady]],
    ['Duty from 0.2 to 0.4', pulses('20 kHz', { from: 0.2, to: 0.4 }), [steady]],
  ])('%s … is said where it is so, and only there', (begin, those, others) => {
    const isSaid = (more: object) =>
      check({ load: { current: 1 }, ...more }).assumptions.some((text) => text.startsWith(begin))
    expect(isSaid(those)).toBe(true)
    for (const other of others) expect(isSaid(other)).toBe(false)
  })

  it('what only pulses warm is said of a load in pulses, and of no other', () => {
    const capacitors = [{ ...bulk, rippleCurrent: '1 A', lifeHours: 2000 }]
    const isSaid = (load: DecouplingChoice['load']) =>
      check({ capacitors, load }).assumptions.filter((text) => /lifeCelsius|thermalResistance/.test(text)).length > 0
    expect(isSaid({ current: '1 A' })).toBe(false)
    expect(isSaid({ current: '1 A', pwm: { frequency: '20 kHz', duty: 0.4 } })).toBe(true)
  })

  it('which limits count on the logic rail is said where it was taken, and only there', () => {
    const logicRail = { behind: 'diode', forwardVoltage: 0.3, capacitance: 1e-4, current: 5e-3 } as const
    const isSaid = (more: object) =>
      check({ logicRail, ...more }).assumptions.some((text) => text.startsWith('By default: onLogicRail = '))
    expect(isSaid({})).toBe(true)
    expect(isSaid({ onLogicRail: ['brownOut'] })).toBe(false)
    expect(check({}).assumptions.some((text) => text.includes('onLogicRail'))).toBe(false)
  })

  it('a port gives the mean of a load that stays, and what is drawn between bursts that end', () => {
    const source = { ...examplePort, openCircuit: undefined, resistance: 0.5, attachable: 0.05 } as const
    const nameOf = (load: DecouplingChoice['load']) =>
      check({ source, load, limits: { brownOut: 3 } }, 5).margins.find(({ id }) => id === 'port-current')!.name
    expect(nameOf({ current: 0.1 })).toMatch(/^mean current /)
    expect(nameOf({ current: 2, duration: 1e-3 })).toMatch(/^current between bursts /)
  })
})
