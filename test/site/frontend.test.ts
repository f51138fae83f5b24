import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openSite, type Site } from '../tools/site.js'
import { read, soon } from './worked-page.js'

let site: Site
beforeAll(async () => {
  site = await openSite()
})
afterAll(() => site?.close())

describe('the page of the whole design', () => {
  it('says without a script what gives way first, shows the map readable without colour, and lists the first board', async () => {
    const { page, problems, close } = await site.newPage({ javaScriptEnabled: false })
    await page.goto(site.url('frontend/'))
    expect(await read(page.locator('.sentence'))).toMatch(/^No: First to give way: .* charged/)
    const rows = page.locator('table.map tbody tr')
    expect(await rows.count()).toBeGreaterThan(5)
    expect(await page.locator('table.map td.fails').allTextContents()).toSatisfy((all: string[]) =>
      all.every((text) => /^× \d+$/.test(text)),
    )
    expect(await page.getByText('cells, at their terminals').count()).toBeGreaterThan(0)
    expect(problems).toEqual([])
    await close()
  })

  it('refuses a file that is no design, in words, and marks the answer as old; goes back to the demo', async () => {
    const { page, close } = await site.newPage()
    await page.goto(site.url('frontend/'))
    const text = page.locator('#design-text:not([readonly])')
    const demo = await text.inputValue()
    await text.fill('{ "version": 1,\n  oops }')
    expect(await page.locator('.results.old').count()).toBe(2)
    await page.getByRole('button', { name: 'Check the design' }).click()
    await soon(() => read(page.getByRole('alert'))).toMatch(/line 2/)
    await text.fill(demo.replace('"pwm"', '"pmw"'))
    await page.getByRole('button', { name: 'Check the design' }).click()
    await soon(() => read(page.getByRole('alert'))).toMatch(/pmw/)
    await page.getByRole('button', { name: 'Back to the demo' }).click()
    expect(await page.locator('.results.old').count()).toBe(0)
    await close()
  })

  it('can be stopped while it computes', async () => {
    const { page, close } = await site.newPage()
    await page.goto(site.url('frontend/'))
    await page.locator('#design-text:not([readonly])').waitFor()
    await page.getByRole('button', { name: 'Check the design' }).click()
    await page.getByRole('button', { name: 'Stop' }).click()
    expect(await page.getByRole('progressbar').count()).toBe(0)
    expect(await page.getByRole('button', { name: 'Check the design' }).isEnabled()).toBe(true)
    await close()
  })
})
