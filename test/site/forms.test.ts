import { decouplingConditions, decouplingRecord } from '@ohmward/decoupling'
import { dividerConditions, dividerRecord } from '@ohmward/divider'
import { hallConditions, hallRecord } from '@ohmward/hall'
import { conditionsRecord as mosfetConditions, choiceRecord as mosfetRecord } from '@ohmward/mosfet'
import { type Fields, fieldsOf, type RecordOf } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { argumentsOf, demoOf, type Field, fieldsOf as fieldsIn, nameOf } from '../../docs/.vitepress/theme/block.js'
import { textsOf } from '../../docs/.vitepress/theme/change-texts.js'
import { readText, textOf } from '../../docs/.vitepress/theme/form/texts.js'
import { classOf } from '../../docs/.vitepress/theme/link.js'
import { problemAt } from '../../docs/.vitepress/theme/read.js'
import { form as decoupling } from '../../docs/decoupling/form.js'
import { form as divider } from '../../docs/divider/form.js'
import { form as hall } from '../../docs/hall/form.js'
import { form as mosfet } from '../../docs/mosfet/form.js'

const rowsOf = (record: { readonly fields: Fields }) => fieldsOf(record as RecordOf<Fields>)

/** Paths of a record as those of a form: without the kind that a field belongs to, the first of a list. */
const pathOf = (path: string) =>
  path
    .replace(/ \([^)]*\)/g, '')
    .replace('capacitors[]', 'capacitors.bulk')
    .replace(/\[\]/g, '.0')

describe.each([
  ['divider', divider, dividerRecord, dividerConditions],
  ['hall', hall, hallRecord, hallConditions],
  ['mosfet', mosfet, mosfetRecord, mosfetConditions],
  ['decoupling', decoupling, decouplingRecord, decouplingConditions],
] as const)('the form of %s', (_, form, choice, conditions) => {
  const fields = fieldsIn(form)
  const ids = fields.map(({ id }) => id)

  it('has every field of the record, each once', () => {
    const wanted = [
      ...rowsOf(choice).map((row) => ({ ...row, id: `choice.${pathOf(row.path)}` })),
      ...rowsOf(conditions).map((row) => ({ ...row, id: `conditions.${pathOf(row.path)}` })),
    ]
    expect(wanted.length).toBeGreaterThan(20)
    const missing = wanted.filter(({ id }) => !ids.some((own) => own === id || own.startsWith(`${id}.`)))
    expect(missing.map(({ path }) => path)).toEqual([])
    expect(new Set(ids).size).toBe(ids.length)
  })

  it('has a label of words for each, its brackets closed', () => {
    for (const { id, label, note = '' } of fields) {
      expect(label, id).toMatch(/[a-z]{2}/)
      for (const text of [label, note]) expect(text.split('(').length, text).toBe(text.split(')').length)
    }
  })

  it('takes label, unit and limits from it, and says what is taken otherwise', () => {
    for (const { path, unit, meaning, otherwise, field } of rowsOf(choice)) {
      const own = fields.find(({ id }) => id === `choice.${pathOf(path)}`)
      if (own === undefined || field.kind === 'kinds' || field.kind === 'own' || own.kinds) continue
      expect(meaning.startsWith(own.label), path).toBe(true)
      if (unit !== '') expect(own.unit, path).toBe(unit)
      if (otherwise !== '' && field.kind !== 'either') expect(own.otherwise, path).toBeDefined()
    }
  })

  it('is filled with a choice that says the same when it is read back', () => {
    const x = argumentsOf(form, demoOf(form))
    expect(Object.keys(x)).toEqual(['choice', 'conditions'])
    for (const group of form.groups) {
      // A visitor sees what the demo's part is, not "your own values".
      if (group.preset) expect(classOf(group, demoOf(form)), group.id).toBeDefined()
      for (const texts of Object.values(group.preset?.choices ?? {})) {
        for (const id of Object.keys(texts)) expect(ids, group.id).toContain(id)
      }
    }
  })
})

describe('a text of a field', () => {
  it.each([
    [{ unit: '1', code: 'lists' }, [['zeroError', 'zeroDrift'], ['hysteresis']], 'zeroError, zeroDrift; hysteresis'],
    [{ unit: '1', code: 'list' }, ['clock', 'brownOut'], 'clock, brownOut'],
    [{ unit: '1', code: 'boolean' }, true, 'true'],
    [{ unit: '1', code: 'own' }, { coefficient: '0.1 %/K' }, '{"coefficient":"0.1 %/K"}'],
    [{ unit: '1', code: 'text' }, '12', '12'],
    [{ unit: '1' }, 0.95, '0.95'],
  ] as readonly (readonly [Pick<Field, 'unit' | 'code'>, unknown, string])[])(
    '%o goes there and back',
    (field, value, text) => {
      expect(textOf(field, value)).toBe(text)
      expect(readText(field, text)).toEqual(value)
    },
  )

  it('is written in the field’s unit where it is a bare number', () => {
    expect(textOf({ unit: 'V' }, 3)).toBe('3 V')
    expect(textOf({ unit: 'ohm' }, 4700)).toBe('4.7 kohm')
  })
})

it('an error of a call names the field as its label does', () => {
  const { label } = fieldsIn(hall).find(({ id }) => id === 'choice.errors.0.at')!
  const message = 'errors[0].at = 9: allowed is from 0 A to 6 A'
  expect(problemAt(hall, { field: 'errors[0].at', message })).toEqual({
    'choice.errors.0.at': `${label} = 9: allowed is from 0 A to 6 A`,
  })
  expect(nameOf({ label: 'rail', end: 'to' })).toBe('rail, highest')
})

it('a change that gives one value where a range is covered fills both its ends', () => {
  const pwm = 'choice.load.pwm'
  expect(textsOf(decoupling, { 'load.pwm': { frequency: '20 kHz', duty: 0.5 } })).toEqual({
    [`${pwm}.frequency.from`]: '20 kHz',
    [`${pwm}.frequency.to`]: '20 kHz',
    [`${pwm}.duty.from`]: '0.5',
    [`${pwm}.duty.to`]: '0.5',
  })
  expect(textsOf(decoupling, { 'load.colour': 'red' })).toBeUndefined()
})
