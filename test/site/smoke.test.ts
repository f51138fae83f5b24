import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { axeFindings } from '../tools/axe.js'
import { openSite, type Site } from '../tools/site.js'

let site: Site
/** Pages written by hand; the reference, made of doc comments, is one template over and over. */
let written: string[]
let reference: string[]
/** The written pages, and some of the reference from its whole length. */
let opened: string[]

beforeAll(async () => {
  site = await openSite()
  written = site.pages.filter((path) => !path.startsWith('api/'))
  reference = site.pages.filter((path) => path.startsWith('api/'))
  const step = Math.ceil(reference.length / 8)
  opened = [...written, ...reference.filter((_, i) => i % step === 0)]
})

afterAll(() => site?.close())

describe('every written page, and a choice of the reference', () => {
  it('is there', () => {
    expect(written).toEqual(expect.arrayContaining(['', 'divider/', 'method/', 'values/', 'formulas/', 'checked/']))
    expect(reference.length).toBeGreaterThan(4)
  })

  it('opens without an error and without a request to another host', async () => {
    const { page, problems, close } = await site.newPage()
    for (const path of opened) {
      const response = await page.goto(site.url(path), { waitUntil: 'networkidle' })
      expect(response?.status(), path).toBe(200)
      expect(problems, path || 'the first page').toEqual([])
    }
    await close()
  })

  it('reads without scripts', async () => {
    const { page, problems, close } = await site.newPage({ javaScriptEnabled: false })
    for (const path of opened) {
      await page.goto(site.url(path))
      expect(await page.locator('h1').count(), path).toBe(1)
      // biome-ignore lint/performance/useDomNodeTextContent: only what a reader sees counts
      const text = await page.innerText('main')
      expect(text.length, path).toBeGreaterThan(100)
      // The reference speaks of such values; a written page that shows one has a number missing.
      const odd = /.{0,60}(?:\{\{|\bNaN\b|\bundefined\b|\[object ).{0,60}/.exec(path.startsWith('api/') ? '' : text)
      expect(odd?.[0], `/${path}`).toBeUndefined()
    }
    expect(problems).toEqual([])
    await close()
  })

  it('is accessible and fits, in the light and in the dark, on a narrow and on a wide screen', async () => {
    const { page, close } = await site.newPage()
    const findings: string[] = []
    for (const path of [...written, ...reference.slice(0, 2)]) {
      await page.goto(site.url(path), { waitUntil: 'networkidle' })
      for (const width of [320, 1440]) {
        await page.setViewportSize({ width, height: 900 })
        const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
        if (overflow > 0) findings.push(`/${path} at ${width} px: ${overflow} px wider than the window`)
        for (const colorScheme of ['light', 'dark'] as const) {
          await page.emulateMedia({ colorScheme })
          const found = await axeFindings(page)
          findings.push(...found.map((finding) => `/${path} ${colorScheme} at ${width} px: ${finding}`))
        }
      }
    }
    expect(findings).toEqual([])
    await close()
  })
})
