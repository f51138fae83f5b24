import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { axeFindings } from '../tools/axe.js'
import { openSite, type Site } from '../tools/site.js'

let site: Site
/** Pages written by hand; the reference, made of doc comments, is one template over and over. */
let written: string[]
let reference: string[]

beforeAll(async () => {
  site = await openSite()
  written = site.pages.filter((path) => !path.startsWith('api/'))
  reference = site.pages.filter((path) => path.startsWith('api/'))
})

afterAll(() => site?.close())

describe('every page', () => {
  it('is there', () => {
    expect(written).toEqual(expect.arrayContaining(['', 'divider/', 'method/', 'values/', 'formulas/', 'checked/']))
    expect(reference.length).toBeGreaterThan(4)
  })

  it('opens without an error and without a request to another host', async () => {
    const { page, problems, close } = await site.newPage()
    for (const path of site.pages) {
      const response = await page.goto(site.url(path), { waitUntil: 'networkidle' })
      expect(response?.status(), path).toBe(200)
      expect(problems, path || 'the first page').toEqual([])
    }
    await close()
  })

  it('reads without scripts', async () => {
    const { page, problems, close } = await site.newPage({ javaScriptEnabled: false })
    for (const path of site.pages) {
      await page.goto(site.url(path))
      expect(await page.locator('h1').count(), path).toBe(1)
      // biome-ignore lint/performance/useDomNodeTextContent: only what a reader sees counts
      const text = await page.innerText('main')
      expect(text.length, path).toBeGreaterThan(100)
      if (!path.startsWith('api/')) expect(text, path).not.toMatch(/\{\{|\bNaN\b|\bundefined\b|\[object /)
    }
    expect(problems).toEqual([])
    await close()
  })

  it.each([
    ['light', 320],
    ['light', 1440],
    ['dark', 320],
    ['dark', 1440],
  ] as const)('is accessible in the %s at %i px', async (colorScheme, width) => {
    const { page, close } = await site.newPage({ colorScheme, viewport: { width, height: 900 } })
    const findings: string[] = []
    for (const path of [...written, ...reference.slice(0, 3)]) {
      await page.goto(site.url(path), { waitUntil: 'networkidle' })
      findings.push(...(await axeFindings(page)).map((finding) => `/${path}: ${finding}`))
      const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
      if (overflow > 0) findings.push(`/${path}: ${overflow} px wider than the window`)
    }
    expect(findings).toEqual([])
    await close()
  })
})
