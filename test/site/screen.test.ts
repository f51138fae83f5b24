import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openSite, type Site } from '../tools/site.js'
import { live, read, soon } from './worked-page.js'

let site: Site
beforeAll(async () => {
  site = await openSite()
})
afterAll(() => site?.close())

const blocks = ['divider', 'hall', 'mosfet', 'decoupling'] as const

describe.each(blocks)('the first screen of /%s/', (block) => {
  it('at 1440 by 900 holds the answer, the circuit with fields, five rows and the discharge', async () => {
    const { page, problems, close } = await site.newPage({ viewport: { width: 1440, height: 900 } })
    await page.goto(site.url(`${block}/`))
    await live(page)
    const bottoms = async (selector: string) =>
      page.locator(selector).evaluateAll((all) => all.map((it) => it.getBoundingClientRect().bottom))
    expect(await read(page.locator('.sentence'))).toMatch(/^(Yes\.|No:|Not sure:) /)
    expect(Math.max(...(await bottoms('.sentence')))).toBeLessThan(300)
    const fields = await bottoms('.circuit input')
    expect(fields.length).toBeGreaterThan(0)
    expect(Math.max(...fields)).toBeLessThan(900)
    const rows = await bottoms('.used li')
    expect(rows).toHaveLength(5)
    expect(Math.max(...rows)).toBeLessThan(900)
    expect(Math.min(...(await bottoms('.governing svg')))).toBeLessThan(960)
    expect(problems).toEqual([])
    await close()
  })

  it.each([960, 390])('at %i wide is stacked, with nothing wider than the window', async (width) => {
    const { page, close } = await site.newPage({ viewport: { width, height: 900 } })
    await page.goto(site.url(`${block}/`))
    await live(page)
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    expect(await page.locator('.used li').count()).toBe(5)
    expect(await page.locator('.circuit input').count()).toBeGreaterThan(0)
    await close()
  })
})

it('a value typed in the circuit changes the answer and the form, and keeps its tolerance', async () => {
  const { page, close } = await site.newPage()
  await page.goto(site.url('divider/'))
  await live(page)
  const reference = page.getByLabel('reference resistor, in the circuit')
  await reference.selectText()
  await page.keyboard.type('4R7')
  await soon(() => page.locator('[id="field-choice.reference"]').inputValue()).toBe('4R7 ±0.1 %')
  await soon(() => read(page.locator('.sentence'))).toMatch(/^No: /)
  const said = await read(page.locator('.sentence'))
  const failing = await page.locator('[id^="margin-"].fails summary').allTextContents()
  expect(failing.length).toBeGreaterThan(0)
  for (const name of failing) expect(said).toContain(name.trim())
  expect(said).not.toContain('"')
  await reference.fill('47R ±0.1 %')
  await reference.press('ArrowUp')
  expect(await reference.inputValue()).toBe('51 ohm ±0.1 %')
  await close()
})
