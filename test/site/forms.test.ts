import { checkDecoupling, decouplingConditions, decouplingRecord } from '@ohmward/decoupling'
import { checkDivider, dividerConditions, dividerRecord } from '@ohmward/divider'
import { checkHall, hallConditions, hallRecord } from '@ohmward/hall'
import { checkMosfet, conditionsRecord as mosfetConditions, choiceRecord as mosfetRecord } from '@ohmward/mosfet'
import { type Fields, fieldsOf, InputError, type RecordOf } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import {
  argumentsOf,
  demoOf,
  emptyOf,
  type Field,
  fieldsOf as fieldsIn,
  nameOf,
} from '../../docs/.vitepress/theme/block.js'
import { textsOf } from '../../docs/.vitepress/theme/change-texts.js'
import { readText, textOf } from '../../docs/.vitepress/theme/form/texts.js'
import { classOf } from '../../docs/.vitepress/theme/link.js'
import { problemAt, problemsOf, refusalOf } from '../../docs/.vitepress/theme/read.js'
import type { Refusal } from '../../docs/.vitepress/theme/worker.js'
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

/** What a call refuses. */
function refusedBy(call: () => unknown): Refusal {
  try {
    call()
  } catch (error) {
    if (error instanceof InputError) return refusalOf(error)
    throw error
  }
  throw new Error('nothing was refused')
}

it('an error of a call names the field as its label does', () => {
  const { label } = fieldsIn(hall).find(({ id }) => id === 'choice.errors.0.at')!
  const message = 'errors[0].at = 9: allowed is from 0 A to 6 A'
  expect(problemAt(hall, { field: 'errors[0].at', message })).toEqual({
    'choice.errors.0.at': `${label} = 9: allowed is from 0 A to 6 A`,
  })
  expect(nameOf({ label: 'rail', end: 'to' })).toBe('rail, highest')
})

it('an error of several fields stands at each of them, under its label', () => {
  const choice = { ...argumentsOf(mosfet, demoOf(mosfet))['choice'], lossLimit: '-1 W', edgeLimit: '-1 s' }
  const refused = refusedBy(() => checkMosfet(choice, argumentsOf(mosfet, demoOf(mosfet))['conditions']))
  const problems = problemAt(mosfet, refused)
  expect(Object.keys(problems).sort()).toEqual(['choice.edgeLimit', 'choice.lossLimit'])
  for (const text of Object.values(problems)) expect(text).not.toMatch(/Also wrong|lossLimit|edgeLimit/)
})

it('an error of two fields of which one is to be given names both as their labels do', () => {
  const label = (id: string) => fieldsIn(mosfet).find((one) => one.id === id)!.label
  const message = 'load = "both": allowed is { resistance } or { current }'
  expect(problemAt(mosfet, { field: 'load', message })).toEqual({
    'choice.load.resistance': `${label('choice.load.resistance')} or ${label('choice.load.current')}: give just one of them`,
  })
  const three = 'load = an empty text: allowed is one of { current }, { resistance }, { power }'
  expect(Object.values(problemAt(decoupling, { field: 'load', message: three })).join()).not.toMatch(/[{}]/)
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

describe('an error that is another at each load', () => {
  const asked = (texts: Readonly<Record<string, string>>) =>
    argumentsOf(divider, { ...demoOf(divider), ...texts })['choice'].error

  it('is one value for all, or a value for each', () => {
    expect(asked({ 'choice.error': '6 %' })).toBe('6 %')
    expect(asked({ 'choice.error': '6 %', 'choice.error.largest': '50 mohm' })).toEqual({
      smallest: '6 %',
      nominal: '6 %',
      largest: '50 mohm',
    })
    expect(asked({ 'choice.error': '', 'choice.error.nominal': '2 %' })).toEqual({ nominal: '2 %' })
  })

  it('stands in its own fields when it comes from a choice, and is named there when it is wrong', () => {
    expect(textsOf(divider, { error: { nominal: '2 %' } })).toEqual({
      'choice.error': '',
      'choice.error.nominal': '2 %',
    })
    const field = fieldsIn(divider).find(({ id }) => id === 'choice.error')!
    expect(textOf(field, { nominal: '2 %' })).toBe('')
    const message = 'error.largest = 9 kV: allowed is a resistance'
    expect(Object.keys(problemAt(divider, { field: 'error.largest', message }))).toEqual(['choice.error.largest'])
    for (const { note = '' } of divider.groups.flatMap((group) => group.fields)) expect(note).not.toMatch(/\{"/)
  })
})

describe.each([
  ['divider', divider, checkDivider],
  ['hall', hall, checkHall],
  ['mosfet', mosfet, checkMosfet],
  ['decoupling', decoupling, checkDecoupling],
] as const)('the empty form of %s', (_, form, check) => {
  /** What the call refuses, by field, as the page says it. */
  const refused = (texts: Readonly<Record<string, string>>): Readonly<Record<string, string>> => {
    const { choice, conditions } = argumentsOf(form, texts)
    try {
      ;(check as (...all: readonly unknown[]) => unknown)(choice, conditions, { simulation: false })
      return {}
    } catch (error) {
      if (error instanceof InputError) return problemAt(form, refusalOf(error))
      throw error
    }
  }
  const empty = emptyOf(form)
  const missing = Object.keys(problemsOf(form, empty))

  it('has nothing of the demo but words that must stand there', () => {
    for (const field of fieldsIn(form)) if (!field.words) expect(empty[field.id], field.id).toBe('')
    expect(missing.length).toBeGreaterThan(3)
  })

  it('marks what must be given: without any of it the check refuses', () => {
    const demo = demoOf(form)
    for (const id of Object.keys(problemsOf(form, { ...empty, ...kindsOf(demo) }))) {
      if (demo[id] !== '') expect(Object.keys(refused({ ...demo, [id]: '' })), id).not.toEqual([])
    }
  })

  it('leads to an answer: who fills in what is marked, and what the check then asks for, is done soon', () => {
    const demo = demoOf(form)
    const texts: Record<string, string> = { ...empty }
    for (let step = 0; step < 20; step++) {
      const marked = Object.keys({ ...refused(texts), ...problemsOf(form, texts) })
      if (marked.length === 0) break
      for (const id of marked) {
        // Where one of two is wanted, and the demo gives the other.
        const part = id.startsWith('conditions.') ? 'conditions.' : id.split('.').slice(0, 2).join('.')
        const own = demo[id] ? [id] : Object.keys(demo).filter((other) => other.startsWith(part))
        for (const one of own) texts[one] = demo[one]!
      }
    }
    expect(refused(texts)).toEqual({})
  })

  function kindsOf(texts: Readonly<Record<string, string>>): Record<string, string> {
    return Object.fromEntries(
      fieldsIn(form)
        .filter(({ words }) => words)
        .map(({ id }) => [id, texts[id]!]),
    )
  }
})
