import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openSite, type Site, type Watched } from '../tools/site.js'
import { live, read, settled, soon } from './worked-page.js'

let site: Site
beforeAll(async () => {
  site = await openSite()
})
afterAll(() => site?.close())

const blocks = ['divider', 'hall', 'mosfet', 'decoupling'] as const

describe.each(blocks)('the first screen of /%s/', (block) => {
  let watched: Watched
  beforeAll(async () => {
    watched = await site.newPage()
    await watched.page.goto(site.url(`${block}/`))
    await live(watched.page)
  })
  afterAll(() => watched?.close())

  it.each([
    [1440, 900],
    [960, 900],
    [1024, 900],
    [390, 844],
  ])('at %i by %i holds the answer, a field and the five tightest rows, and nothing wider', async (width, height) => {
    const { page, problems } = watched
    await page.setViewportSize({ width, height })
    /** How many of these stand in the window from top to bottom. */
    const inside = async (selector: string) =>
      (await page.locator(selector).evaluateAll((all) => all.map((it) => it.getBoundingClientRect()))).filter(
        ({ top, bottom, left, right }) => top >= 0 && bottom <= height && left >= 0 && right <= width,
      ).length
    expect(await read(page.locator('.sentence'))).toMatch(/^(Yes|No|Not sure)\. [A-Z]/)
    expect(await inside('.sentence')).toBe(1)
    expect(await inside('.used li')).toBe(5)
    expect(await inside('.circuit :is(input, select)')).toBeGreaterThan(0)
    if (width === 1440) {
      expect(await inside('.circuit :is(input, select)')).toBe(
        await page.locator('.circuit :is(input, select)').count(),
      )
      expect(await inside('.quick input')).toBe(await page.locator('.quick input').count())
      expect(await inside('.governing svg[role=img]')).toBe(1)
    }
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    expect(problems).toEqual([])
  })
})

it.each(['divider', 'hall'])(
  '/%s/ says a slack with the same digits in the sentence, the strip and the table',
  async (block) => {
    const { page, close } = await site.newPage({ javaScriptEnabled: false })
    await page.goto(site.url(`${block}/`))
    const [, slack] = /(?:is|with) ([\d.]+ \S+) (?:over its|below its|to spare)/.exec(
      await read(page.locator('.answer').first()),
    )!
    expect(await read(page.locator('.strip').first())).toMatch(new RegExp(`[+−]${slack}$`))
    expect(await read(page.locator('.margins tbody tr').first())).toMatch(new RegExp(`[+−]${slack}`))
    await close()
  },
)

it('a value typed in the circuit changes the answer and the form, and keeps its tolerance', async () => {
  const { page, close } = await site.newPage()
  await page.goto(site.url('divider/'))
  await live(page)
  const reference = page.getByLabel('reference resistor, in the circuit')
  await reference.selectText()
  await page.keyboard.type('4R7')
  await soon(() => page.locator('[id="field-choice.reference"]').inputValue()).toBe('4R7 ±0.1 %')
  await settled(page)
  await soon(() => read(page.locator('.sentence'))).toMatch(/^No\. [A-Z]/)
  const said = await read(page.locator('.sentence'))
  const failing = await page.locator('[id^="margin-"].fails summary').allTextContents()
  expect(failing.length).toBeGreaterThan(0)
  for (const name of failing) expect(said.toLowerCase()).toContain(name.trim().toLowerCase())
  expect(said).not.toContain('"')
  await reference.fill('47R ±0.1 %')
  await reference.press('ArrowUp')
  expect(await reference.inputValue()).toBe('51 ohm ±0.1 %')
  await close()
})
