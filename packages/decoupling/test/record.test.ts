import { InputError, schemaOf } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { readDecoupling } from '../src/choice/read.js'
import { choiceRecord } from '../src/choice/record.js'
import {
  checkDecoupling,
  type DecouplingChoice,
  exampleCapacitors,
  exampleChoice,
  exampleConditions,
} from '../src/index.js'

const refused = (choice: unknown, conditions: unknown = exampleConditions): InputError => {
  try {
    readDecoupling(choice, conditions)
  } catch (error) {
    expect(error).toBeInstanceOf(InputError)
    return error as InputError
  }
  throw new Error('nothing was refused')
}

describe('a choice', () => {
  it('is the same whether its capacitors are listed or named', () => {
    const [polymer, ceramic] = exampleChoice.capacitors
    const listed = readDecoupling(exampleChoice, exampleConditions)
    const named = readDecoupling({ ...exampleChoice, capacitors: { polymer, ceramic } }, exampleConditions)
    expect(named.capacitors).toEqual(listed.capacitors)
    const { name: _, ...nameless } = ceramic
    const called = readDecoupling({ ...exampleChoice, capacitors: { 'at the pin': nameless } }, exampleConditions)
    expect(called.capacitors[0]!.name).toBe('at the pin')
  })

  it('names a field of a capacitor by its key, a list by its place', () => {
    const bad = { ...exampleCapacitors.ceramic, capacitance: '47 V' }
    expect(refused({ ...exampleChoice, capacitors: [bad] }).field).toBe('capacitors[0].capacitance')
    expect(refused({ ...exampleChoice, capacitors: { pin: bad } }).field).toBe('capacitors.pin.capacitance')
    const short = { ...exampleCapacitors.ceramic, bias: '0 V: 1, 3 V: 0.7' }
    expect(refused({ ...exampleChoice, capacitors: { pin: short } }).message).toContain('They go from 0 to 3 V')
  })

  it('refuses an unknown field with the nearest name, and no kinds, too many, or one that is no name', () => {
    expect(refused({ ...exampleChoice, idel: 1 }).message).toContain('did you mean idle')
    expect(refused({ ...exampleChoice, source: { ...exampleChoice.source, paht: [] } }).message).toContain('path')
    const many = Object.fromEntries(Array.from('abcdefg', (key) => [key, exampleCapacitors.ceramic]))
    for (const capacitors of [[], {}, many, 7, null, JSON.parse('{"__proto__": {}}')]) {
      expect(refused({ ...exampleChoice, capacitors }).field).toBe('capacitors')
    }
  })

  it('wants the forward voltage of a diode, and none before a resistor', () => {
    const rail = { capacitance: '100 uF', current: '5 mA' }
    expect(refused({ ...exampleChoice, logicRail: { behind: 'diode', ...rail } }).message).toContain(
      'Missing: forwardVoltage',
    )
    const read = readDecoupling({ ...exampleChoice, logicRail: { behind: 'resistor', ...rail } }, exampleConditions)
    expect(read.logicRail!.fields.resistance.nominal).toBe(10)
  })

  it('states what it took for granted with its value: the factors of a cold cell among it', () => {
    const { assumptions } = checkDecoupling(exampleChoice, exampleConditions, { simulation: false })
    expect(assumptions.join('\n')).toContain(
      'source.source.temperatureFactor = -20 degC: 5, 0 degC: 2.5, 25 degC: 1, 60 degC: 0.85',
    )
    expect(assumptions.join('\n')).toContain('capacitors[0].seriesInductance = 0 H')
    const cell = { ...exampleChoice.source.source, temperatureFactor: '-20 degC: 4, 25 degC: 1, 60 degC: 0.9' }
    const source = { ...exampleChoice.source, source: cell }
    const told = checkDecoupling({ ...exampleChoice, source } satisfies DecouplingChoice, exampleConditions, {
      simulation: false,
    })
    expect(told.assumptions.join('\n')).not.toContain('temperatureFactor')
  })

  it('has a schema that knows every field and no other', () => {
    const schema = schemaOf(choiceRecord, { title: 'rail' }) as unknown as {
      readonly properties: Record<string, object>
      readonly required: readonly string[]
      readonly additionalProperties: boolean
    }
    expect(Object.keys(schema.properties)).toEqual(expect.arrayContaining(Object.keys(exampleChoice)))
    expect([...schema.required].sort()).toEqual(['capacitors', 'source'])
    expect(schema.additionalProperties).toBe(false)
  })
})
