import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { axeFindings, colourRules, flattenFormulas, thinOut, widthRules } from '../tools/axe.js'
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

  it('reads without scripts', async () => {
    const { page, problems, close } = await site.newPage({ javaScriptEnabled: false })
    for (const path of opened) {
      await page.goto(site.url(path))
      expect(await page.locator('h1').count(), path).toBe(1)
      // biome-ignore lint/performance/useDomNodeTextContent: only what a reader sees counts
      const text = await page.innerText('main')
      expect(text.length, path).toBeGreaterThan(60)
      // The reference speaks of such values; a written page that shows one has a number missing.
      const odd = /.{0,60}(?:\{\{|\bNaN\b|\bundefined\b|\[object ).{0,60}/.exec(path.startsWith('api/') ? '' : text)
      expect(odd?.[0], `/${path}`).toBeUndefined()
      if (!path.startsWith('api/')) expect(await page.evaluate(oddTexts), `/${path}`).toEqual([])
      expect(await page.evaluate(gluedWords), `/${path}`).toEqual([])
    }
    expect(problems).toEqual([])
    await close()
  })

  it('opens without an error, without a request to another host, accessible and fitting its window', async () => {
    const findings: string[] = []
    const left = [...opened]
    const seen: string[] = []
    await Promise.all([1, 2].map(readPages))
    expect(findings).toEqual([])
    expect(seen.sort()).toEqual([...opened].sort())

    /** Reads what no other reader has taken; a browser's page uses one core. */
    async function readPages() {
      const watched = await site.newPage()
      for (let path = left.shift(); path !== undefined; path = left.shift()) {
        findings.push(...(await findingsOf(watched.page, path)))
        expect(watched.problems, path || 'the first page').toEqual([])
        seen.push(path)
      }
      expect(watched.problems, 'after the last page').toEqual([])
      await watched.close()
    }
  }, 240_000)
})

/** What stands folded, in a field or before one is typed into, and is no value: an object, nothing, or no number. */
function oddTexts(): string[] {
  const fields = [...document.querySelectorAll<HTMLInputElement>('main input, main textarea')]
  const folded = [...document.querySelectorAll('main details')].map((it) => it.textContent)
  return [...fields.flatMap(({ placeholder, value }) => [placeholder, value]), ...folded].flatMap(
    (text) => /.{0,40}(?:\{\{|\bNaN\b|\bundefined\b|\[object |\d \.(?:$|\s)).{0,40}/.exec(text)?.[0] ?? [],
  )
}

/** Words that stand in a line of text without a space between: one of an element, one before it. */
function gluedWords(): string[] {
  const isInline = (it: Element) => getComputedStyle(it).display === 'inline'
  return [...document.querySelectorAll('main :is(a, button, code, span, strong, em)')].flatMap((it) => {
    let before = it.previousSibling
    while (before && (before.nodeType === Node.COMMENT_NODE || before.textContent === ''))
      before = before.previousSibling
    const [left, right] = [before?.textContent ?? '', it.textContent]
    if (!/[\p{L}\d]$/u.test(left) || !/^[\p{L}\d]/u.test(right)) return []
    if (!isInline(it) || (before instanceof Element && !isInline(before))) return []
    if (/flex|grid/.test(getComputedStyle(it.parentElement!).display)) return []
    return [`${left.slice(-20)}|${right.slice(0, 20)}`]
  })
}

/** One page of each template: the first, a worked one, one with a form of its own, the reference. */
const isFirstOfTemplate = (path: string) => ['', 'divider/', 'values/', reference[0]].includes(path)

/** Gives the window a width. Boxes that scroll learn of it with the frame after the next. */
async function resize(page: Page, width: number): Promise<void> {
  await page.setViewportSize({ width, height: 900 })
  await page.waitForFunction((wanted) => window.innerWidth === wanted, width)
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))))
}

/** What is wrong with a page at both widths, and in the dark. */
async function findingsOf(page: Page, path: string): Promise<string[]> {
  const findings: string[] = []
  const response = await page.goto(site.url(path), { waitUntil: 'load' })
  expect(response?.status(), path).toBe(200)
  await page.locator('.scheme select').waitFor() // the script has taken over
  // Of the reference, which is one template, one page stands for all.
  if (path.startsWith('api/') && path !== reference[0]) return findings
  for (const width of [320, 1440]) {
    await resize(page, width)
    const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
    if (overflow > 0) findings.push(`/${path} at ${width} px: ${overflow} px wider than the window`)
  }
  await thinOut(page)
  await flattenFormulas(page)
  const look = async (where: string, rules?: readonly string[]) =>
    findings.push(...(await axeFindings(page, rules)).map((finding) => `/${path} ${where}: ${finding}`))
  await look('at 1440 px')
  await page.emulateMedia({ colorScheme: 'dark' })
  await look('in the dark', colourRules)
  await page.emulateMedia({ colorScheme: 'light' })
  await resize(page, 320)
  // What a narrow window shows and hides is the template's; what stands in it is the page's.
  await look('at 320 px', isFirstOfTemplate(path) ? undefined : widthRules)
  return findings
}
