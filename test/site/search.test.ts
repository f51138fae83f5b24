import { readFileSync } from 'node:fs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type Findable, find } from '../../docs/search/find.js'
import places from '../../docs/search/places.data.js'
import { openSite, type Site } from '../tools/site.js'
import { root } from '../tools/workspace.js'
import { soon } from './worked-page.js'

let all: readonly Findable[]
beforeAll(async () => {
  all = await places.load()
})

/** The places that a word of the trade finds first. */
const first = (query: string) =>
  find(all, query)
    .slice(0, 8)
    .map(({ path }) => path)

describe('a search by the trade’s words', () => {
  it.each([
    ['inrush', '/pitfalls/#j11'],
    ['dropout', '/formulas/#supply-V_do'],
    ['shoot-through', '/formulas/#mosfet-V_cpl'],
    ['brown-out', '/decoupling/#margin-rail-brown-out'],
    ['Kelvin', '/pitfalls/#b02'],
    ['ESR', '/formulas/#decoupling-ESR'],
    ['shunt', '/pitfalls/#b07'],
    ['runaway', '/mosfet/#margin-runaway'],
    ['common-mode rejection', '/api/divider.html#amplifierFields'],
    ['settling time', '/formulas/#adc-t_settle'],
    ['preferred values', '/values/'],
    ['RDSon', '/formulas/#mosfet-R_'],
    ['junction', '/formulas/#mosfet-T_j'],
    ['mA per count', '/hall/#margin-resolution'],
    ['ohm per count', '/divider/#margin-resolution'],
    ['which capacitor for this design', '/decoupling/#values-that-would-do'],
    ['where does the settling formula come from', '/formulas/#adc-t_settle'],
  ])('%s leads to %s', (query, path) => {
    expect(first(query).some((found) => found.startsWith(path))).toBe(true)
  })

  it('finds nothing for what is nowhere, and for nothing', () => {
    expect(find(all, 'zebra crossing')).toEqual([])
    expect(find(all, '  ')).toEqual([])
  })

  it('leads to places that are there', () => {
    const pages = new Map<string, string>()
    const missing = all.filter(({ path }) => {
      const [page = '', place] = path.split('#')
      const file = page.endsWith('/') ? `${page}index.html` : page
      if (!pages.has(file)) pages.set(file, readFileSync(`${root}docs/.vitepress/dist${file}`, 'utf8'))
      return place !== undefined && !pages.get(file)!.includes(` id="${place}"`)
    })
    expect(missing.map(({ path }) => path)).toEqual([])
  })
})

describe('the page of the search', () => {
  let site: Site
  beforeAll(async () => {
    site = await openSite()
  })
  afterAll(() => site?.close())

  it('answers the address and what is typed', async () => {
    const { page, problems, close } = await site.newPage()
    await page.goto(site.url('search/?q=inrush'))
    const links = page.locator('.found a')
    await soon(() => links.count()).toBeGreaterThan(2)
    await page.getByLabel('Words of the trade').fill('runaway')
    await soon(() => links.first().textContent()).toMatch(/runaway/i)
    expect(page.url()).toContain('q=runaway')
    await links.first().click()
    await soon(() => page.url()).not.toContain('search')
    expect(problems).toEqual([])
    await close()
  })
})
