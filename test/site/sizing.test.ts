import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { argumentsOf, demoOf } from '../../docs/.vitepress/theme/block.js'
import { unitText } from '../../docs/.vitepress/theme/numbers.js'
import { block as decoupling } from '../../docs/decoupling/block.js'
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

describe.each([
  ['divider', divider],
  ['hall', hall],
  ['mosfet', mosfet],
  ['decoupling', decoupling],
] as const)('the page /%s/', (path, block) => {
  it('shows values that would do, and what is put in holds as the list says', async () => {
    const { choices } = block.size(argumentsOf(block, demoOf(block)))
    // No capacitor helps the demo's rail: what is said there is held with the page.
    if (path === 'decoupling') {
      expect(choices).toEqual([])
      return
    }
    expect(choices.length).toBeGreaterThan(0)
    for (const { puts } of choices) {
      const { verdict } = block.check(argumentsOf(block, { ...demoOf(block), ...puts }), false)
      expect(verdict, JSON.stringify(puts)).toBe('holds')
    }
    const { page, problems, close } = await site.newPage()
    await page.goto(site.url(`${path}/`))
    await live(page)
    expect(await names(page)).toEqual(choices.map(({ name }) => unitText(name)))
    await page.locator('.sizing li button').first().click()
    await settled(page)
    const [first] = Object.entries(choices[0]!.puts)
    expect(await field(page, first![0]).inputValue()).toBe(first![1])
    await soon(() => read(answer(page))).toMatch(/^holds/)
    expect(await read(page.locator('.sizing [role=status]'))).toBe('Found for what stood in the fields before.')
    await page.getByRole('button', { name: /^Take back/ }).click()
    await soon(() => field(page, first![0]).inputValue()).toBe(demoOf(block)[first![0]])
    expect(problems).toEqual([])
    await close()
  })

  it('tries all parts of a kind', async () => {
    const { page, problems, close } = await site.newPage()
    await page.goto(site.url(`${path}/`))
    await live(page)
    await page
      .getByRole('button', { name: /^Try all / })
      .first()
      .click()
    await soon(() => page.locator('.trials tbody tr').count()).toBeGreaterThan(1)
    await soon(() => page.locator('.my-parts progress').count()).toBe(0)
    const all = await page.locator('.trials tbody tr').allTextContents()
    expect(all.filter((row) => !/holds|fails|not sure/.test(row))).toEqual([])
    expect(problems).toEqual([])
    await close()
  })
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
  await close()
})
