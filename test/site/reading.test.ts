import type { Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { unitText } from '../../docs/.vitepress/theme/numbers.js'
import { openSite, type Site, type Watched } from '../tools/site.js'
import { baseOf, serveFolder } from '../tools/static-server.mjs'
import { root } from '../tools/workspace.js'
import { answer, field, live, margin, read, settled, soon } from './worked-page.js'

const blocks = ['divider', 'hall', 'mosfet', 'decoupling']
let site: Site
let watched: Watched
let page: Page

beforeAll(async () => {
  site = await openSite()
  watched = await site.newPage()
  page = watched.page
})
beforeEach(async () => {
  await page.emulateMedia({ media: null, colorScheme: null })
  await page.setViewportSize({ width: 1280, height: 800 })
})
afterAll(() => site?.close())

const open = async (path: string) => {
  await page.goto(site.url(path))
  await live(page)
}
const unfold = () =>
  page.evaluate(() => {
    for (const fold of document.querySelectorAll('details')) fold.open = true
  })
/** What stands out of the window to the right, and isn't in a box that scrolls by itself. */
const tooWide = () =>
  page.evaluate(() => {
    const width = document.documentElement.clientWidth
    const scrolls = (it: Element | null): boolean =>
      it !== null &&
      it !== document.body &&
      (/auto|scroll|hidden/.test(getComputedStyle(it).overflowX) || scrolls(it.parentElement))
    return [...document.querySelectorAll('body *')]
      .filter(
        (it) => it.checkVisibility() && it.getBoundingClientRect().right > width + 1 && !scrolls(it.parentElement),
      )
      .map((it) => `${it.localName}.${it.getAttribute('class')}: ${it.textContent.slice(0, 40)}`)
  })
/** What is cut off where nothing can be scrolled. */
const cut = () =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('main *')]
      .filter((it) => it.checkVisibility() && /auto|scroll|hidden|clip/.test(getComputedStyle(it).overflowX))
      .filter((it) => it.scrollWidth > it.clientWidth + 1 && it.clientWidth > 1)
      .map(
        (it) =>
          `${it.localName}.${it.className}: ${it.scrollWidth} in ${it.clientWidth} px, ${it.textContent.slice(0, 60)}`,
      ),
  )
/** What is set smaller than 8 pt, indices and the scripts of formulas apart. */
const small = () =>
  page.evaluate(() => {
    const found: string[] = []
    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    for (let text = texts.nextNode(); text; text = texts.nextNode()) {
      const it = text.parentElement!
      if (text.textContent!.trim() === '' || !it.checkVisibility({ visibilityProperty: true })) continue
      if (it.closest('title, desc, script, style, sub, sup, .index, .hidden, math')) continue
      const own = it instanceof SVGTextContentElement ? it.getScreenCTM() : null
      const scale = own ? Math.hypot(own.a, own.b) : (it as unknown as { currentCSSZoom: number }).currentCSSZoom
      const points = (Number.parseFloat(getComputedStyle(it).fontSize) * scale * 72) / 96
      if (points < 7.99) found.push(`${points.toFixed(1)} pt, ${it.localName}.${it.className}: ${text.textContent}`)
    }
    return found
  })
/** Luminance of WCAG 2.2 of a colour that is computed as rgb(). */
const luminance = (colour: string): number => {
  const [r = 0, g = 0, b = 0] = (colour.match(/[\d.]+/g) ?? []).slice(0, 3).map((text) => {
    const share = Number(text) / 255
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}

describe.each(blocks)('the page /%s/', (block) => {
  it('has nothing wider than a window of 320 px, every fold opened', async () => {
    await page.setViewportSize({ width: 320, height: 800 })
    await open(`${block}/`)
    await unfold()
    expect(await tooWide()).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320)
  })

  it('prints as a design note: nothing cut, nothing below 8 pt, on paper of A4', async () => {
    // 210 mm less two margins of 12 mm at 96 px for an inch.
    await page.setViewportSize({ width: Math.floor((186 / 25.4) * 96), height: 1000 })
    await open(`${block}/`)
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' })
    const body = await page.evaluate(() => {
      const { backgroundColor, color } = getComputedStyle(document.body)
      return { backgroundColor, color }
    })
    expect(luminance(body.backgroundColor)).toBeGreaterThan(0.95)
    expect(luminance(body.color)).toBeLessThan(0.05)
    expect(await page.locator('.strip').isVisible()).toBe(false)
    expect(await page.locator('.margins tbody tr').first().isVisible()).toBe(true)
    expect(await tooWide()).toEqual([])
    expect(await cut()).toEqual([])
    expect(await small()).toEqual([])
    // What is left out on paper leaves no heading behind.
    const bare = await page.locator('details > summary').evaluateAll((all) =>
      all
        .filter((it) => it.checkVisibility() && !it.closest('table, [role=table], li'))
        .filter((it) => it.parentElement!.lastElementChild!.getBoundingClientRect().height < 5)
        .map((it) => it.textContent),
    )
    expect(bare).toEqual([])
    expect(await page.locator('p.printed').textContent()).toMatch(
      new RegExp(`^Printed \\d{4}-\\d\\d-\\d\\d from http.*/${block}/$`),
    )
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1')
    const pages = pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0
    expect(pages).toBeGreaterThan(0)
    expect(pages).toBeLessThanOrEqual(3)
    // The limits of every part are on it, as they stand in the form.
    const given = await page
      .locator('form.choice input[id^="field-"]')
      .evaluateAll((all) => (all as HTMLInputElement[]).map(({ value }) => value).filter(Boolean))
    const paper = await page.locator('.paper').textContent()
    expect(given.length).toBeGreaterThan(20)
    expect(given.filter((value) => !paper!.includes(unitText(value)))).toEqual([])
  })
})

describe('the page of the low-ohm measurement', () => {
  it('reads in the dark, as the reader’s system or the reader says, and remembers', async () => {
    const colours = () =>
      page.evaluate(() => {
        const ink = (selector: string) => getComputedStyle(document.querySelector(selector)!)
        return [
          ink('body').backgroundColor,
          ink('body').color,
          ink('.circuit svg path').stroke,
          ink('.circuit svg text').fill,
        ]
      })
    /** How far paper and ink, lines and words of the circuit are apart, as WCAG 2.2 counts. */
    const contrasts = async () => {
      const [paper = 0, ...inks] = (await colours()).map(luminance)
      return {
        paper,
        least: Math.min(...inks.map((ink) => (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05))),
      }
    }
    await page.emulateMedia({ colorScheme: 'dark' })
    await open('divider/')
    const dark = await contrasts()
    expect(dark.paper).toBeLessThan(0.1)
    expect(dark.least).toBeGreaterThan(4.5)
    await page.getByLabel('Theme').selectOption('light')
    const light = await contrasts()
    expect(light.paper).toBeGreaterThan(0.7)
    expect(light.least).toBeGreaterThan(4.5)
    await page.emulateMedia({ colorScheme: 'light' })
    await page.getByLabel('Theme').selectOption('dark')
    await open('divider/')
    expect((await contrasts()).paper).toBeLessThan(0.1)
    await page.getByLabel('Theme').selectOption('system')
    expect((await contrasts()).paper).toBeGreaterThan(0.7)
  })

  it('works once loaded though the server is gone: reads, computes, follows a link, opens another page', async () => {
    const folder = `${root}docs/.vitepress/dist`
    const server = await serveFolder({ folder, base: baseOf(folder), strict: true })
    const context = await site.browser.newContext({ reducedMotion: 'reduce' })
    try {
      const reader = await context.newPage()
      await reader.goto(`${server.url}divider/`)
      await reader.evaluate(async () => {
        await navigator.serviceWorker.ready
        if (navigator.serviceWorker.controller) return
        await new Promise((resolve) => navigator.serviceWorker.addEventListener('controllerchange', resolve))
      })
      await server.close()
      await expect(fetch(server.url)).rejects.toThrow()
      await reader.goto(`${server.url}divider/?amplifier=bipolar+single+supply`)
      await live(reader)
      await soon(() => read(answer(reader))).toMatch(/^fails/)
      await field(reader, 'choice.reference').fill('1 kohm ±0.1 %')
      await settled(reader)
      await soon(() => read(margin(reader, 'headroom'))).toMatch(/holds/)
      // Of the reference, which is kept as it is read, nothing was read yet.
      for (const path of site.pages.filter((path) => !path.startsWith('api/'))) {
        const response = await reader.goto(server.url + path, { waitUntil: 'domcontentloaded' })
        expect(response?.status(), path).toBe(200)
        expect(await reader.locator('h1').count(), path).toBe(1)
        expect(await read(reader.locator('h1')), path).not.toMatch(/not found/i)
      }
    } finally {
      await context.close()
      await server.close().catch(() => {})
    }
  })

  it('does all that without an error and without a request to another host', () => {
    expect(watched.problems).toEqual([])
  })
})
