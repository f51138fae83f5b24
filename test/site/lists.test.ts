import { readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openSite, type Site } from '../tools/site.js'
import { root } from '../tools/workspace.js'
import { read, soon } from './worked-page.js'

let site: Site
let page: Page

beforeAll(async () => {
  site = await openSite()
  page = (await site.newPage()).page
})
afterAll(() => site?.close())

const ready = () => page.locator('#filter-words:not([readonly])').waitFor()
/** Ids of what the filter left, among the entries that a selector names, or of what unfolds in them. */
const left = (selector: string) =>
  page
    .locator(selector)
    .evaluateAll((all) =>
      all
        .filter((it) => (it as HTMLElement).checkVisibility())
        .map((it) => (it.id ? it : it.querySelector('[id]')!).id),
    )
const published = JSON.parse(readFileSync(`${root}test/results/published.json`, 'utf8')) as {
  id: string
  package: string
  fromMemory: boolean
}[]
const memory = published.filter(({ fromMemory }) => fromMemory).map(({ id }) => id)

describe('a page that is read while it still comes in', () => {
  let shifting: Page
  beforeAll(async () => {
    shifting = (await site.newPage()).page
    await shifting.addInitScript(() => {
      const shifts: number[] = []
      new PerformanceObserver((list) => {
        for (const shift of list.getEntries()) shifts.push((shift as unknown as { value: number }).value)
      }).observe({ type: 'layout-shift', buffered: true })
      Object.assign(globalThis, { shifts })
    })
  })
  afterAll(() => shifting?.context().close())

  it.each([
    '',
    'frontend/',
    'divider/',
    'hall/',
    'mosfet/',
    'decoupling/',
    'method/',
    'values/',
    'pitfalls/',
    'formulas/',
    'checked/',
  ])('/%s shifts by less than 0.05', async (path) => {
    for (const width of [1440, 390]) {
      await shifting.setViewportSize({ width, height: 900 })
      const page = shifting
      await page.goto(site.url(path), { waitUntil: 'load' })
      await page.locator('.scheme select').waitFor()
      await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))))
      const shifts = await page.evaluate(() => (globalThis as unknown as { shifts: number[] }).shifts)
      expect(
        shifts.reduce((sum, shift) => sum + shift, 0),
        `${path} at ${width} px`,
      ).toBeLessThan(0.05)
    }
  })
})

describe('the page of formulas', () => {
  beforeAll(() => page.goto(site.url('formulas/')))

  it('has contents that lead somewhere, and no place twice', async () => {
    const links = await page.locator('.contents a').evaluateAll((all) => all.map((it) => it.getAttribute('href')))
    expect(links.length).toBeGreaterThan(15)
    const ids = await page.locator('main [id]').evaluateAll((all) => all.map(({ id }) => id))
    expect(links.filter((link) => !ids.includes(link!.slice(1)))).toEqual([])
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([])
  })

  it('narrows to a symbol, to words, and to a block', async () => {
    await ready()
    const all = (await left('.lines > li')).length
    await page.getByLabel('Symbol or words').fill('test current')
    await soon(async () => (await left('.lines > li')).length).toBeLessThan(10)
    expect(await left('.lines > li')).toContain('divider-I_t')
    expect(await read(page.getByRole('status'))).toMatch(new RegExp(`^\\d of ${all} formulas$`))
    await page.getByLabel('Block').selectOption('mosfet')
    await soon(() => left('.lines > li')).not.toContain('divider-I_t')
    await page.getByLabel('Symbol or words').fill('T_j')
    await soon(() => left('.lines > li')).toContain('mosfet-T_j')
    expect((await left('h2')).filter((id) => id !== 'mosfet')).toEqual([])
    await page.getByLabel('Symbol or words').fill('')
    await page.getByLabel('Block').selectOption('')
    await soon(async () => (await left('.lines > li')).length).toBe(all)
  })

  it('unfolds what a filter leaves where it is little, and all of it when asked', async () => {
    await ready()
    await page.setViewportSize({ width: 1440, height: 900 })
    const unfolded = () => page.locator('.lines details[open]').count()
    const all = await page.locator('.lines details').count()
    expect(await unfolded()).toBe(0)
    expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThan(15_000)
    await page.getByLabel('Symbol or words').fill('test current')
    await soon(() => page.locator('#divider-I_t math').first().isVisible()).toBe(true)
    await page.getByLabel('Symbol or words').fill('')
    await soon(unfolded).toBe(0)
    await page.getByRole('button', { name: 'Unfold all' }).click()
    await soon(unfolded).toBe(all)
    await page.getByRole('button', { name: 'Fold all' }).click()
    await soon(unfolded).toBe(0)
  })

  it('is read in full on paper', async () => {
    await page.emulateMedia({ media: 'print' })
    const cut = await page
      .locator('.lines .unfolded')
      .evaluateAll((all) => all.filter((it) => it.getBoundingClientRect().height < 20).map(({ id }) => id))
    expect(cut).toEqual([])
    await page.emulateMedia({ media: null })
  })

  it('shows each formula that a package exports, and each once', async () => {
    const counted = JSON.parse(readFileSync(`${root}test/results/formulas.json`, 'utf8')) as { formulas: number }[]
    const sum = counted.reduce((all, { formulas }) => all + formulas, 0)
    expect(await page.locator('.lines > li').count()).toBe(sum)
    expect(await read(page.locator('main p').first())).toMatch(new RegExp(`^Each of these ${sum} formulas`))
  })

  it('claims no proof', async () => {
    expect(await read(page.locator('main'))).not.toMatch(/\bproved\b|\bproves\b/)
  })
})

describe('the formulas of the worked pages', () => {
  const html = (path: string) => readFileSync(`${root}docs/.vitepress/dist/${path}index.html`, 'utf8')
  const ids = (text: string) => new Set([...text.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id))
  const all = ids(html('formulas/'))

  it.each(['divider/', 'hall/', 'mosfet/', 'decoupling/'])(
    '/%s leads from each step and most margins to its formula',
    (path) => {
      const text = html(path)
      const places = (part: string) => [...part.matchAll(/href="[^"]*\/formulas\/#([^"]+)"/g)].map(([, id]) => id!)
      expect(places(text).filter((id) => !all.has(id))).toEqual([])
      for (const [, id, step] of text.matchAll(/<li id="step-(\w+)"(.*?)<\/li>/gs)) {
        // The sum of the path's elements is made for the choice.
        if (id !== 'R_path') expect(places(step!), id).toHaveLength(1)
      }
      const margins = [...text.matchAll(/<tr id="margin-(.*?)<\/tr>/gs)].map(([row]) => places(row).length > 0)
      expect(margins.filter(Boolean).length).toBeGreaterThan(0.6 * margins.length)
    },
  )

  it('are reached and unfolded by such a link, with script and without', async () => {
    const formula = page.locator('#divider-V_amp math')
    const y = () => page.locator('#divider-V_amp').evaluate((it) => it.getBoundingClientRect().top)
    await page.goto(site.url('divider/'))
    await page.locator('form.choice input:not([readonly], [type="file"])').first().waitFor({ state: 'attached' })
    const link = page.locator('a.formula[href$="/formulas/#divider-V_amp"]').first()
    await link.evaluate((it: HTMLAnchorElement) => it.click())
    await soon(() => formula.isVisible()).toBe(true)
    // The line that was unfolded stands above it.
    await soon(async () => Math.abs((await y()) - 100)).toBeLessThan(80)
    const plain = (await site.newPage({ javaScriptEnabled: false })).page
    await plain.goto(site.url('formulas/#divider-I_t'))
    expect(await plain.locator('#divider-I_t math').first().isVisible()).toBe(true)
    expect(await plain.locator('#divider-V_x math').first().isVisible()).toBe(false)
    await plain.locator('summary', { hasText: 'resistance per count' }).click()
    expect(await plain.locator('#divider-R_count math').first().isVisible()).toBe(true)
    await plain.context().close()
  })

  it('lead back to where they are used', () => {
    const links = [...html('formulas/').matchAll(/href="[^"]*\/(\w+\/)#((?:step|margin)-[^"]+)"/g)]
    expect(links.length).toBeGreaterThan(100)
    const places = Object.fromEntries(
      ['divider/', 'hall/', 'mosfet/', 'decoupling/'].map((path) => [path, ids(html(path))]),
    )
    expect(links.filter(([, path, id]) => !places[path!]!.has(id!)).map(([link]) => link)).toEqual([])
  })
})

it('keeps a value and its tolerance on one line where limits become distributions, and names each series once', async () => {
  await page.setViewportSize({ width: 390, height: 844 })
  await page.goto(site.url('method/'))
  const lines = await page.locator('th.kept code').evaluateAll((all) => all.map((it) => it.getClientRects().length))
  expect(lines.length).toBe(6)
  expect(new Set(lines)).toEqual(new Set([1]))
  await page.goto(site.url('values/'))
  const names = await page.locator('main :is(h2, h3, .series)').allInnerTexts()
  expect(names).toContain('E192')
  expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([])
})

describe('the page of pitfalls', () => {
  it('has a line for each, which unfolds where a link leads to it or a filter leaves few', async () => {
    await page.goto(site.url('pitfalls/#j11'))
    await ready()
    expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThan(5000)
    const open = () => page.locator('.lines details[open] .unfolded').evaluateAll((all) => all.map(({ id }) => id))
    expect(await open()).toEqual(['j11'])
    const links = await page.locator('.contents a').evaluateAll((all) => all.map((it) => it.getAttribute('href')!))
    expect(links.length).toBeGreaterThan(7)
    for (const link of links) expect(await page.locator(link).count(), link).toBe(1)
    await page.getByLabel('Words').fill('thermoelectric')
    await soon(open).toContain('b05')
  })
})

describe('units, powers and symbols', () => {
  it('are written with one stroke at most, raised and lowered, on every page', () => {
    for (const path of site.pages.filter((path) => !path.startsWith('api/'))) {
      const html = readFileSync(`${root}docs/.vitepress/dist/${path.replace(/(^|\/)$/, '$1index.html')}`, 'utf8')
      const texts = html
        .replace(/<(script|style|pre|code|textarea)\b.*?<\/\1>/gs, '')
        .split(/<[^>]*>/)
        .map((text) => text.trim())
      // A symbol is set with its subscript lowered.
      expect(
        texts.filter((text) => /\b[A-Za-z]{1,5}_[A-Za-z0-9]/.test(text)),
        path,
      ).toEqual([])
      // A number with such a unit, or the unit by itself.
      const unit = /(?:^|[\d\u00a0] ?)[A-Za-zµΩ°√·²]{1,5}\/[A-Za-zµΩ°√]{1,4}\/[A-Za-z]{1,4}$/
      expect(
        texts.filter((text) => unit.test(text) || /[a-zA-Z]\^-?\d/.test(text)),
        path,
      ).toEqual([])
    }
  })
})

describe('the page of checked values', () => {
  it('counts by package what was read, what is from memory, and the formulas with a value by hand', async () => {
    await page.goto(site.url('checked/'))
    const counted = JSON.parse(readFileSync(`${root}test/results/formulas.json`, 'utf8')) as {
      package: string
      formulas: number
      withValue: number
    }[]
    const rows = await page.locator('table.counts tbody tr').allInnerTexts()
    const shown = rows.map((row) => row.trim().split(/\s+/))
    expect(shown.map(([name]) => name)).toEqual(expect.arrayContaining(counted.map((one) => one.package)))
    for (const [name, ...numbers] of shown) {
      const of = (fromMemory: boolean) =>
        published.filter((row) => row.package === name && row.fromMemory === fromMemory).length
      const own = counted.find((one) => one.package === name)
      expect(numbers.map(Number), name).toEqual([of(false), of(true), own?.formulas ?? 0, own?.withValue ?? 0])
    }
  })

  it('says at the top how many were read at their source and how many are from memory, and lists them apart', async () => {
    await page.goto(site.url('checked/'))
    expect(memory.length).toBeGreaterThan(0)
    const top = await read(page.locator('main p').first())
    expect(top).toContain(`${published.length - memory.length} were read at their source`)
    expect(top).toContain(`${memory.length} are quoted from memory`)
    const parts = await page.evaluate(() => {
      const rows: Record<string, string[]> = {}
      let part = ''
      for (const it of document.querySelectorAll('main h2, main tr[id]')) {
        if (it.localName === 'h2') part = it.id
        else rows[part] = [...(rows[part] ?? []), it.id]
      }
      return rows
    })
    expect(parts['from-memory']!.sort()).toEqual([...memory].sort())
    expect(parts['read-at-their-source']!.length).toBe(published.length - memory.length)
    const links = await page.locator('.contents a').evaluateAll((all) => all.map((it) => it.getAttribute('href')!))
    for (const link of links) expect(await page.locator(`[id="${link.slice(1)}"]`).count(), link).toBe(1)
    expect(links.length).toBeGreaterThan(10)
  })

  it('shows what each package is checked against in a line, which unfolds', async () => {
    expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBeLessThan(6000)
    expect(await left('tr[id]')).toEqual([])
    await page.locator('#read-hall + details summary').click()
    const ids = published.filter((row) => row.package === 'hall' && !row.fromMemory).map(({ id }) => id)
    expect((await left('tr[id]')).sort()).toEqual(ids.sort())
  })

  it('narrows to words and to a block', async () => {
    await ready()
    await page.getByLabel('Block').selectOption('hall')
    const ids = published.filter((row) => row.package === 'hall').map(({ id }) => id)
    await soon(async () => (await left('tr[id]')).sort()).toEqual(ids.sort())
    await page.getByLabel('Symbol or words').fill('no such words')
    await soon(() => left('tr[id]')).toEqual([])
    expect(await read(page.getByRole('status'))).toMatch(/^0 of /)
  })
})
