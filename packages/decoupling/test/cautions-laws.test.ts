import { exampleSupply } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'
import { checkDecoupling, type DecouplingChoice, type DecouplingConditions } from '../src/index.js'
import { at, base, bulk } from './exact-rail.js'

/* Each caution and each assumed value belongs to what a rail has: there where it has that, and nowhere else. */

const usual = { ...base, load: { current: 1 } }
const answer = (more: object, conditions: Partial<DecouplingConditions> = {}) =>
  checkDecoupling({ ...usual, ...more } as DecouplingChoice, { ...at(3.7), ...conditions }, { simulation: false })
const part = (more: object) => ({ capacitors: [{ ...bulk, ...more }] })
const steady = { load: { current: 1, pwm: { frequency: '20 kHz', duty: 0.4 } } }
const loop = { source: { resistance: 0.1, inductance: '0.5 uH' } }
const behind = (more: object) => ({ logicRail: { capacitance: 1e-4, current: 5e-3, ...more } })
const cell = { source: exampleSupply }
const cold = { ambientCelsius: { from: -10, to: 25 } }
const worn = [{ lifeHours: 2000 }, { wornCapacitance: 0.8 }, { wornResistance: 2 }]

describe('a caution', () => {
  it.each<[id: string, those: readonly object[], others: readonly object[]]>([
    ['brown-out-off', [{ brownOutEnabled: false }], [{}, { brownOutEnabled: true }]],
    ['bias', [{}, part({ cold: '-20 degC: 6, 30 degC: 1' })], [part({ bias: '0 V: 1, 10 V: 0.5' }), ...worn.map(part)]],
    ['diode-rail', [behind({ behind: 'diode', forwardVoltage: 0.3 })], [{}, behind({ behind: 'resistor' })]],
    ['resonance', [{ ...steady, ...loop }], [steady, loop, {}]],
    ['weak-port', [{ source: { resistance: 0.1, currentLimit: 3 } }], [{}, loop]],
    ['cell-state', [cell], [{}, loop]],
    ['cold', [], [{}, ...worn.map(part)]],
    ['stored-energy', [{}, steady, cell], []],
    ['start-up', [{}, steady, cell], []],
    ['not-followed', [], [{}, steady, cell]],
  ])('%s', (id, those, others) => {
    const isSaid = (more: object) => answer(more).cautions.some((one) => one.id === id)
    for (const one of those) expect(isSaid(one), JSON.stringify(one)).toBe(true)
    for (const one of others) expect(isSaid(one), JSON.stringify(one)).toBe(false)
  })

  it('of an electrolytic in the cold counts where that is cold, and no curve says what it does', () => {
    const isSaid = (more: object, conditions: object) =>
      answer(part(more), conditions).cautions.some(({ id }) => id === 'cold')
    for (const one of worn) expect(isSaid(one, cold)).toBe(true)
    expect(isSaid({}, cold)).toBe(false)
    expect(isSaid({ ...worn[0], cold: '-20 degC: 6, 30 degC: 1' }, cold)).toBe(false)
    expect(isSaid(worn[0]!, { ambientCelsius: { from: 15, to: 25 } })).toBe(false)
    expect(isSaid(worn[0]!, { ambientCelsius: { from: 14, to: 25 } })).toBe(true)
  })

  it('of plugging in says what of the peak no margin holds', () => {
    const text = (more: object) => answer(more).cautions.find(({ id }) => id === 'hot-plug')!.text
    expect(text({})).toMatch(/the peak is not calculated\.$/)
    expect(text({ insertion: { railMaximum: 6 } })).toMatch(/the peak is not calculated\.$/)
    expect(text(loop)).toMatch(/checked only against the rated voltages of the capacitors\.$/)
    expect(text({ ...loop, insertion: { railMaximum: 12 } })).toMatch(/a clamp limits it\.$/)
  })
})

describe('what is assumed', () => {
  it('tells of a lone largest series resistance what its ripple counts, where pulses make one', () => {
    const said = (more: object) =>
      answer(more).assumptions.find((text) => text.startsWith('A series resistance without a range'))!
    expect(said({})).not.toContain('ripple')
    expect(said(steady)).toContain('; the ripple current of a part, and its life')
  })

  it('of cells and of age is said where there are any', () => {
    const isSaid = (begin: string, more: object, conditions: object = {}) =>
      answer(more, conditions).assumptions.some((text) => text.startsWith(begin))
    for (const begin of ['Factors of cold, charge and age', 'The cell resistance is that by direct current']) {
      expect(isSaid(begin, cell)).toBe(true)
      expect(isSaid(begin, {})).toBe(false)
    }
    const old = 'What the end of life takes'
    expect(isSaid(old, {}, { ageYears: { from: 0, to: 5 } })).toBe(true)
    expect(isSaid(old, {})).toBe(false)
  })

  it('is each value that was not given and that something depends on, and none that was given', () => {
    const taken = (more: object) => answer(more).assumptions.filter((text) => text.startsWith('By default: '))
    const names = (more: object) => taken(more).map((text) => /^By default: (\S+) /.exec(text)![1]!)
    const isTaken = (field: string, more: object) => names(more).some((name) => name.endsWith(field))
    for (const field of ['inductance', 'rise', 'idle', 'seriesInductance', 'ageing', 'brownOutEnabled'])
      expect(isTaken(field, {}), field).toBe(true)
    for (const field of ['count', 'volume', 'rippleCurrent', 'lifeHours', 'contactSurge', 'shortVoltage', 'shortDelay'])
      expect(isTaken(field, steady), field).toBe(false)
    for (const field of ['lifeCelsius', 'thermalResistance']) {
      expect(isTaken(field, {}), field).toBe(false)
      expect(isTaken(field, steady), field).toBe(true)
      expect(isTaken(field, { ...steady, ...part({ [field]: 70 }) }), field).toBe(false)
    }
    expect(isTaken('source.inductance', loop)).toBe(false)
    expect(isTaken('idle', { idle: 0.01 })).toBe(false)
  })
})
