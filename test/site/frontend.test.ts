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
    const failing = await page.locator('table.map td.fails').allTextContents()
    expect(failing.length).toBeGreaterThan(0)
    for (const text of failing) expect(text).toMatch(/^× [1-9]\d*$/)
    expect(await page.getByText('cells, at their terminals').count()).toBeGreaterThan(0)
    expect(await read(page.locator('#what-would-help + p'))).toMatch(/Ask above/)
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
    expect(await page.getByRole('alert').count()).toBe(0)
    await close()
  })

  it('puts a change in, after which less gives way, and takes it back', async () => {
    const { page, problems, close } = await site.newPage()
    await page.goto(site.url('frontend/'))
    const text = page.locator('#design-text:not([readonly])')
    const [demo, said] = [await text.inputValue(), await read(page.locator('.sentence'))]
    const rows = page.locator('table', { hasText: 'Holds down to' }).locator('tbody tr')
    const failing = async () => new Set(await rows.locator('th').allTextContents())
    const before = await failing()
    await page.getByRole('button', { name: 'What would help?' }).click()
    await page.locator('.changes > li').first().waitFor({ timeout: 150_000 })
    const change = page.locator('.changes > li').first()
    const mended = await change.locator('li', { hasText: /^mends / }).allTextContents()
    expect(mended.length).toBeGreaterThan(0)
    await change.getByRole('button', { name: 'Put it in' }).click()
    const answered = () => page.waitForFunction(() => !document.querySelector('progress'), null, { timeout: 60_000 })
    await answered()
    expect(await text.inputValue()).not.toBe(demo)
    expect(await page.locator('.results.old').count()).toBe(0)
    expect(await read(page.locator('.sentence'))).not.toBe(said)
    const after = await failing()
    expect([...before].some((name) => !after.has(name))).toBe(true)
    // What would help the new design has not been looked for.
    expect(await page.locator('.changes > li').count()).toBe(0)
    await page.getByRole('button', { name: 'Take the last change back' }).click()
    await answered()
    expect(await read(page.locator('.sentence'))).toBe(said)
    expect(await text.inputValue()).toBe(demo)
    expect(await failing()).toEqual(before)
    expect(problems).toEqual([])
    await close()
  }, 240_000)

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
