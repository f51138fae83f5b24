import { exampleConverters } from '@ohmward/adc'
import { exampleCapacitors } from '@ohmward/decoupling'
import { exampleAmplifiers } from '@ohmward/divider'
import { exampleSensors } from '@ohmward/hall'
import { exampleTransistors } from '@ohmward/mosfet'
import { InputError } from '@ohmward/quantity'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { argumentsOf, demoOf, type Form } from '../../docs/.vitepress/theme/block.js'
import { csvOfParts, readParts } from '../../docs/.vitepress/theme/my-parts/file.js'
import { byKind, kinds, listed, type Part } from '../../docs/.vitepress/theme/my-parts/part.js'
import { movedBy, ranked, tightestOf } from '../../docs/.vitepress/theme/my-parts/rank.js'
import { shapes } from '../../docs/.vitepress/theme/my-parts/shapes.js'
import { textsOfPart } from '../../docs/.vitepress/theme/my-parts/texts.js'
import { jsonOf } from '../../docs/.vitepress/theme/take-away.js'
import { form as decoupling } from '../../docs/decoupling/form.js'
import { form as divider } from '../../docs/divider/form.js'
import { form as hall } from '../../docs/hall/form.js'
import { form as mosfet } from '../../docs/mosfet/form.js'
import { openSite, type Site } from '../tools/site.js'
import { field, live, margin, read, soon } from './worked-page.js'

const examples = {
  amplifiers: exampleAmplifiers,
  sensors: exampleSensors,
  transistors: exampleTransistors,
  capacitors: exampleCapacitors,
  converters: exampleConverters,
}

/** All invented parts of all kinds, as if they were the reader's, with names that a table has to quote. */
const all: Part[] = kinds.flatMap((kind) =>
  Object.entries(examples[kind]).map(([name, limits]) => ({ kind, name: `${name}, "mine"`, limits })),
)

/** What the block's call gets where a part is put in. */
const put = ({ kind, limits }: Part) => {
  const { form, path } = shapes[kind]
  return argumentsOf(form, { ...demoOf(form), ...textsOfPart(form, path, limits) })
}

const refusal = (text: string): string => {
  try {
    readParts(text)
  } catch (error) {
    if (error instanceof InputError) return error.message
    throw error
  }
  return ''
}

describe('a file of parts', () => {
  it('of JSON gives back what was saved', () => {
    expect(all.length).toBeGreaterThan(10)
    expect(readParts(jsonOf(byKind(all)))).toEqual(all)
    expect(listed(JSON.parse(JSON.stringify(byKind(all))))).toEqual(all)
  })

  it('of cells gives back the same parts: the call gets the same', () => {
    const table = csvOfParts(all)
    expect(table.split('\n')[0]).toMatch(/^kind,name,/)
    const back = readParts(table)
    expect(back.map(({ kind, name }) => [kind, name])).toEqual(all.map(({ kind, name }) => [kind, name]))
    expect(back.map(put)).toEqual(all.map(put))
    // And once written, it stays as it is, whatever ends its lines.
    expect(csvOfParts(back)).toBe(table)
    expect(readParts(`\uFEFF${table.replaceAll('\n', '\r\n')}`)).toEqual(back)
  })

  it.each([
    ['{\n  "amplifiers": {\n    "a" {}\n  }\n}', /^line 3 = .*: allowed is JSON/],
    ['[]', /^file = a list: allowed is parts by kind/],
    ['{"valves": {}}', /^file\.valves = an object: allowed is nothing\. Kinds: amplifiers, /],
    ['{"amplifiers": {"a": 3}}', /^amplifiers\.a = 3: allowed is the limits of a part/],
    ['{"amplifiers": {"a": {}}}', /^amplifiers\.a = .*Missing: /],
    ['', /^line 1 = "": allowed is a header with "kind" and "name"/],
    ['kind;name', /^line 1 = "kind;name": allowed is /],
    ['kind,name,volume,volume\n', /^line 1 = "volume": allowed is each column once/],
    ['kind,name\n\nvalves,a', /^line 3\.kind = "valves": allowed is amplifiers, /],
    ['kind,name\nsensors,a,b', /^line 2 = "3 cells": allowed is 2 cells/],
    ['kind,name\nsensors,"a', /^line 2 = "\\"a": allowed is a cell without quotation marks/],
    ['kind,name,volume\nsensors,a,3', /^line 2\.volume = "3": allowed is nothing\. No such field in sensors/],
    ['kind,name\ncapacitors,a', /^line 2 = .*Missing: /],
  ])('%j is refused, and the place named', (text, message) => {
    expect(refusal(text)).toMatch(message)
  })

  it('is refused for a value that its record refuses, with line and field', () => {
    const table = csvOfParts(all.filter(({ kind }) => kind === 'capacitors').slice(0, 1))
    const [head = '', row = ''] = table.split('\n')
    const at = head.split(',').indexOf('capacitance')
    const cells = row.match(/"(?:[^"]|"")*"|[^,]+|(?<=,)(?=,|$)/g)!
    cells[at] = '4 kg'
    expect(refusal(`${head}\n${cells.join(',')}`)).toMatch(/^line 2\.capacitance = "4 kg": allowed is /)
  })
})

it('ranks what holds before what is not sure, what fails, and what can not stand there', () => {
  const row = (worst: number, verdict: 'holds' | 'not sure' | 'fails') =>
    ({ id: 'a', name: 'a', unit: 'V', sense: 'at most', limit: 1, worst, slack: 1 - worst, verdict }) as never
  const trial = (name: string, verdict: 'holds' | 'not sure' | 'fails', ...margins: never[]) => ({
    name,
    isOwn: false,
    texts: {},
    assessment: { verdict, margins },
  })
  const order = ranked([
    { name: 'refused', isOwn: true, texts: {}, refused: 'why' },
    trial('two fail', 'fails', row(1.1, 'fails'), row(1.1, 'fails')),
    trial('one fails', 'fails', row(3, 'fails'), row(0.1, 'holds')),
    trial('not sure', 'not sure', row(0.9, 'not sure')),
    trial('near', 'holds', row(0.9, 'holds'), row(0.2, 'holds')),
    trial('far', 'holds', row(0.3, 'holds'), row(0.5, 'holds')),
  ])
  expect(order.map(({ name }) => name)).toEqual(['far', 'near', 'not sure', 'one fails', 'two fail', 'refused'])
})

it('names as the tightest row one that the part decides', () => {
  const row = (id: string, worst: number) =>
    ({ id, name: id, unit: 'V', sense: 'at most', limit: 1, worst, slack: 1 - worst, verdict: 'holds' }) as never
  const trial = (name: string, own: number) => ({
    name,
    isOwn: false,
    texts: {},
    assessment: { verdict: 'holds' as const, margins: [row('same', 0.95), row('own', own)] },
  })
  const trials = [trial('b', 0.5), trial('a', 0.4)]
  const moved = movedBy(trials)
  expect([...moved]).toEqual(['own'])
  expect(tightestOf(trials[0]!, moved)?.id).toBe('own')
  expect(ranked(trials).map(({ name }) => name)).toEqual(['a', 'b'])
  // With one part alone no row tells parts apart: then it is the tightest of all.
  expect(tightestOf(trials[0]!, movedBy(trials.slice(0, 1)))?.id).toBe('same')
})

let site: Site
beforeAll(async () => {
  site = await openSite()
})
afterAll(() => site?.close())

/** How many classes a group of a form offers. */
const classesIn = ({ groups }: Pick<Form, 'groups'>, group: string): number =>
  Object.keys(groups.find(({ id }) => id === group)!.preset!.choices).length
const verdicts = ['holds', 'not sure', 'fails']

describe('on the page of the divider', () => {
  let page: Page
  let problems: readonly string[]
  beforeAll(async () => {
    ;({ page, problems } = await site.newPage())
    await page.goto(site.url('divider/'))
    await live(page)
  })

  const tools = () => page.locator('fieldset', { has: page.locator('#class-amplifier') }).locator('.my-parts')
  const keep = async (name: string) => {
    await page.locator('#keep-amplifier').fill(name)
    await tools().getByRole('button', { name: 'Keep' }).click()
    await soon(() => read(tools().locator('[role="status"]').first())).toBe(`${name} is kept in this browser.`)
  }
  const offset = () => field(page, 'choice.amplifier.offsetVoltage')
  const kept = () => page.locator('.my-parts li > span').allTextContents()

  it('a part is kept, is there after a reload, and is put in', async () => {
    // The amplifier of the demo itself saturates as the cell empties.
    await page.locator('#class-amplifier').selectOption('zero drift')
    await keep('good one')
    await page.locator('fieldset', { has: offset() }).locator('summary').first().click()
    await offset().fill('±20 mV')
    await keep('poor one')
    await page.goto(site.url('divider/'))
    await live(page)
    await soon(kept).toEqual(['good one amplifiers', 'poor one amplifiers'])
    const select = page.locator('#class-amplifier')
    await select.selectOption({ label: 'poor one' })
    expect(await offset().inputValue()).toBe('±20 mV')
    expect(await select.inputValue()).toBe('my part: poor one')
    await soon(() => margin(page, 'error-nominal').getAttribute('class')).toBe('fails')
    await select.selectOption({ label: 'good one' })
    await soon(() => margin(page, 'error-nominal').getAttribute('class')).not.toBe('fails')
  })

  it('all are tried, ranked, and one of them put in', async () => {
    await tools().getByRole('button', { name: 'Try all amplifiers' }).click()
    const rows = page.locator('.trials tbody tr')
    const count = classesIn(divider, 'amplifier') + 2
    await soon(() => rows.count()).toBe(count)
    const table = (await rows.allTextContents()).map((text) => text.replace(/\s+/g, ' '))
    const said = await rows.locator('.says').allTextContents()
    const places = said.map((verdict) => verdicts.indexOf(verdict))
    expect(places).toEqual(places.toSorted())
    expect(places[0]).toBeGreaterThanOrEqual(0)
    const good = table.findIndex((text) => text.includes('good one'))
    const poor = table.findIndex((text) => text.includes('poor one'))
    expect(good).toBeLessThan(poor)
    expect(said[good]).toBe('holds')
    expect(said[poor]).toBe('fails')
    expect(table[poor]).toMatch(/Ω, at most .*error/)
    await page.getByRole('button', { name: 'Apply: poor one' }).click()
    expect(await offset().inputValue()).toBe('±20 mV')
    expect(await page.locator('.trials.old').count()).toBe(0)
    await field(page, 'choice.error').fill('10 %')
    await soon(() => page.locator('.trials.old').count()).toBe(1)
  })

  it('a file that is refused changes nothing; one that can be read is taken; a part is removed', async () => {
    const input = page.locator('#parts-file')
    const file = (name: string, text: string) =>
      input.setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) })
    await file('broken.csv', 'kind,name\namplifiers,none')
    await soon(() => read(page.locator('fieldset.my-parts .problem'))).toMatch(/^line 2 = .* Nothing was taken\.$/)
    expect(await kept()).toHaveLength(2)
    await file(
      'more.csv',
      csvOfParts([{ kind: 'sensors', name: 'far one', limits: Object.values(exampleSensors)[0]! }]),
    )
    await soon(kept).toContain('far one sensors')
    const [saved] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as CSV' }).click(),
    ])
    expect(saved.suggestedFilename()).toBe('my-parts.csv')
    await page.getByRole('button', { name: 'Remove: poor one' }).click()
    await soon(kept).toEqual(['good one amplifiers', 'far one sensors'])
    expect(problems).toEqual([])
  })
})

it('without script nothing of it takes input, and a sentence says so', async () => {
  const { page, close } = await site.newPage({ javaScriptEnabled: false })
  for (const block of ['divider', 'hall', 'mosfet', 'decoupling']) {
    await page.goto(site.url(`${block}/`))
    expect(await page.locator('.my-parts button').count()).toBeGreaterThan(3)
    expect(await page.locator('.my-parts :is(button:enabled, input:read-write:enabled)').count()).toBe(0)
    expect(await read(page.locator('fieldset.my-parts noscript'))).toBe('Without script none can be kept.')
  }
  await close()
})

it.each([
  ['hall', 'sensor', hall],
  ['mosfet', 'transistor', mosfet],
  ['decoupling', 'bulk', decoupling],
  ['decoupling', 'second', decoupling],
] as const)(
  'on the page /%s/ all of its %s can be tried at 390 px, and nothing is wider than the window',
  async (block, group, form) => {
    const { page, problems, close } = await site.newPage({ viewport: { width: 390, height: 900 } })
    await page.addInitScript(countWorkers)
    await page.goto(site.url(`${block}/`))
    await live(page)
    const tools = page.locator('fieldset', { has: page.locator(`#class-${group}`) }).locator('.my-parts')
    const tryAll = tools.getByRole('button', { name: /^Try all / })
    const rows = tools.locator('.trials tbody tr')
    // Stopped in the same turn, before any answer can come; its worker is ended, so nothing can come afterwards either.
    const before = await page.evaluate(workersLeft)
    expect(await page.evaluate(stopAtOnce, await tryAll.elementHandle())).toBe(true)
    expect(await tryAll.isEnabled()).toBe(true)
    expect(await page.evaluate(workersLeft)).toEqual({ ...before, begun: before.begun + 1, ended: before.ended + 1 })
    expect(await rows.count()).toBe(0)
    await tryAll.click()
    await soon(() => rows.count()).toBe(classesIn(form, group))
    await soon(() => tryAll.count()).toBe(1)
    expect((await rows.locator('.says').allTextContents()).filter((says) => !verdicts.includes(says))).toEqual([])
    expect(await read(tools.locator('.trials'))).not.toContain('NaN')
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
    expect(problems).toEqual([])
    await close()
  },
)

/** Counts the workers that the page begins and ends. */
function countWorkers(): void {
  const workers = { begun: 0, ended: 0 }
  class Counted extends Worker {
    constructor(...given: ConstructorParameters<typeof Worker>) {
      super(...given)
      workers.begun++
    }
    override terminate() {
      workers.ended++
      super.terminate()
    }
  }
  Object.assign(globalThis, { Worker: Counted, workers })
}
const workersLeft = () => (globalThis as unknown as { workers: { begun: number; ended: number } }).workers

/** Presses a button, and, once it is drawn, the one that stops what the first began; false where there is none. */
async function stopAtOnce(start: SVGElement | HTMLElement | null): Promise<boolean> {
  const tools = start!.closest('.my-parts')!
  start!.dispatchEvent(new MouseEvent('click', { bubbles: true }))
  await Promise.resolve()
  const stop = [...tools.querySelectorAll('button')].find((it) => it.textContent.trim() === 'Stop')
  stop?.click()
  return stop !== undefined
}
