import { exampleStock } from '@ohmward/decoupling'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { argumentsOf, demoOf, emptyOf, type Texts } from '../../docs/.vitepress/theme/block.js'
import { unitText } from '../../docs/.vitepress/theme/numbers.js'
import { problemsOf } from '../../docs/.vitepress/theme/read.js'
import { block as decoupling } from '../../docs/decoupling/block.js'
import { controllers, loads } from '../../docs/decoupling/form.js'
import { block as divider } from '../../docs/divider/block.js'
import { block as hall } from '../../docs/hall/block.js'
import { block as mosfet } from '../../docs/mosfet/block.js'
import { openSite, type Site } from '../tools/site.js'
import { answer, field, live, read, settled, soon } from './worked-page.js'

let site: Site
beforeAll(async () => {
  site = await openSite()
})
afterAll(() => site?.close())

const names = (page: Page) => page.locator('.sizing li strong').allTextContents()

/** The blocks, and what to change of the demo so that there are values that would do: no capacitor holds its rail. */
const cases = [
  ['divider', divider, {}],
  ['hall', hall, {}],
  ['mosfet', mosfet, {}],
  ['decoupling', decoupling, { 'choice.limits.brownOut': '2.4 V ±3 %' }],
] as const

it.each(cases)('the page /%s/ shows values that would do, and what is put in holds', async (path, block, entries) => {
  const design: Texts = { ...demoOf(block), ...entries }
  const { choices } = block.size(argumentsOf(block, design))
  expect(choices.length).toBeGreaterThan(0)
  for (const { puts } of choices) {
    const { verdict } = block.check(argumentsOf(block, { ...design, ...puts }), false)
    expect(verdict, JSON.stringify(puts)).toBe('holds')
  }
  const { page, problems, close } = await site.newPage()
  await page.goto(site.url(`${path}/?${new URLSearchParams(entries)}`))
  await live(page)
  if (Object.keys(entries).length > 0) {
    await page.getByRole('button', { name: 'Find values for this design' }).click()
    await soon(() => read(page.locator('.sizing [role=status]'))).toBe('')
  }
  expect(await names(page)).toEqual(choices.map(({ name }) => unitText(name)))
  // What is not in the design yet, so that it is seen to come and to go.
  const n = choices.findIndex(({ puts }) => Object.entries(puts).some(([id, text]) => design[id] !== text))
  const [id, text] = Object.entries(choices[n]!.puts).find(([id, text]) => design[id] !== text)!
  await page.locator('.sizing li button').nth(n).click()
  await settled(page)
  expect(await field(page, id).inputValue()).toBe(text)
  await soon(() => read(answer(page))).toMatch(/^holds/)
  expect(await read(page.locator('.sizing [role=status]'))).toBe('Found for the previous values of the fields.')
  await page.getByRole('button', { name: /^Take back/ }).click()
  await soon(() => field(page, id).inputValue()).toBe(design[id])
  expect(problems).toEqual([])
  await close()
})

it('says where nothing holds that none does, and why', async () => {
  const { choices, text } = decoupling.size(argumentsOf(decoupling, demoOf(decoupling)))
  expect(choices).toEqual([])
  const { page, close } = await site.newPage({ javaScriptEnabled: false })
  await page.goto(site.url('decoupling/'))
  expect(await names(page)).toEqual([])
  const said = await read(page.locator('.sizing'))
  expect(said).toContain('None of them holds.')
  expect(said).toContain('no capacitor can help')
  expect(said).toContain(unitText(text).replaceAll('\u00a0', ' '))
  await close()
})

it('looks for values for what stands in the form', async () => {
  const { page, close } = await site.newPage()
  await page.goto(site.url('hall/'))
  await live(page)
  const wider = { 'choice.errors.0.allowed': '0.4 A' }
  await field(page, 'choice.errors.0.allowed').fill('0.4 A')
  await page.getByRole('button', { name: 'Find values for this design' }).click()
  await soon(() => read(page.locator('.sizing [role=status]'))).toBe('')
  const { choices } = hall.size(argumentsOf(hall, { ...demoOf(hall), ...wider }))
  expect(await names(page)).toEqual(choices.map(({ name }) => unitText(name)))
  // What the reader says of the values makes the old ones old, and counts from then on.
  await page.getByLabel('series of the capacitors').selectOption('E12')
  expect(await page.locator('.sizing .outdated').count()).toBe(1)
  await page.getByRole('button', { name: 'Find values for this design' }).click()
  await soon(() => read(page.locator('.sizing [role=status]'))).toBe('')
  const finer = hall.size(argumentsOf(hall, { ...demoOf(hall), ...wider }), { series: 'E12' })
  expect(finer.sought).toContain('E12')
  expect(await read(page.locator('.sizing'))).toContain('capacitors of E12')
  expect(await names(page)).toEqual(finer.choices.map(({ name }) => unitText(name)))
  await close()
})

it('tells how far a search among capacitors is, and stops when asked', async () => {
  const { page, problems, close } = await site.newPage()
  const pulsed = { ...loads['PWM of 20 kHz, half of the time'], ...controllers['brown-out at 2.1 V'] }
  const entries = Object.entries(pulsed).filter(([, text]) => text !== '')
  await page.goto(site.url(`decoupling/?${new URLSearchParams(Object.fromEntries(entries))}`))
  await live(page)
  await page.getByRole('button', { name: 'Find values for this design' }).click()
  const far = page.locator('.sizing progress')
  await soon(() => far.getAttribute('max').then(Number)).toBe(exampleStock().length)
  expect(Number(await far.getAttribute('value'))).toBeLessThan(exampleStock().length)
  expect(await read(page.locator('.sizing .actions .what'))).toMatch(/^\d+ of \d+ kinds settled, \d+ s$/)
  await page.getByRole('button', { name: 'Stop' }).click()
  await soon(() => read(page.locator('.sizing [role=status]'))).toBe('Found for the previous values of the fields.')
  expect(await far.count()).toBe(0)
  expect(await page.getByRole('button', { name: 'Find values for this design' }).isEnabled()).toBe(true)
  expect(problems).toEqual([])
  await close()
})

it('takes series and tolerance for what it looks for, and puts in what it found', () => {
  for (const [tolerance, series] of [
    ['0.1 %', 'E24'],
    ['1 %', 'E12'],
  ] as const) {
    const { choices, sought } = divider.size(argumentsOf(divider, demoOf(divider)), { tolerance, series })
    expect(sought).toContain(`${series}, ±${tolerance}`)
    for (const { puts } of choices) expect(puts['choice.reference']).toContain(`±${tolerance}`)
  }
  const most = decoupling.size(argumentsOf(decoupling, demoOf(decoupling)), { parts: '2' })
  expect(most.sought).toContain('up to 2')
})

it('leaves nothing of the demo in a form that is emptied, says how much is needed, and takes it back', async () => {
  const { page, problems, close } = await site.newPage()
  await page.goto(site.url('mosfet/'))
  await live(page)
  const texts = () =>
    page.locator('form.choice input[type=text]').evaluateAll((all) => all.map((it) => (it as HTMLInputElement).value))
  const before = await texts()
  await page.getByRole('button', { name: /^Empty the form/ }).click()
  await soon(async () => (await texts()).filter(Boolean)).toEqual([])
  const needed = Object.keys(problemsOf(mosfet, emptyOf(mosfet))).length
  await soon(() => read(page.locator('.strip'))).toContain(`${needed} values are needed`)
  expect(await read(page.locator('.strip'))).toContain('shows the last valid choice')
  await page.getByRole('button', { name: 'Take back: emptying the form' }).click()
  await soon(texts).toEqual(before)
  expect(problems).toEqual([])
  await close()
})
