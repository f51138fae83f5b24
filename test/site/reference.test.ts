import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { declarations } from '../../docs/.vitepress/build/reference/declarations.js'
import { entries } from '../../docs/.vitepress/build/reference/entries.js'
import { openSite, type Site, type Watched } from '../tools/site.js'

let site: Site
let watched: Watched

beforeAll(async () => {
  site = await openSite()
  watched = await site.newPage({ viewport: { width: 1440, height: 900 } })
})
afterAll(() => site?.close())

const pageOf = (page: string) => `api/${page}.html`

describe.each(entries.map((entry) => [entry.name, entry] as const))('the reference of %s', (_, entry) => {
  beforeAll(async () => {
    await watched.page.goto(site.url(pageOf(entry.page)))
  })

  it('puts the functions first, each with what it is for and an example, or where that stands', async () => {
    const functions = await watched.page.evaluate(() => {
      const parts: Record<string, string[]> = {}
      let name = ''
      // On a long page each function is a line that unfolds.
      const pieces = [...document.querySelector('main h1 ~ *')!.parentElement!.children].flatMap((it) =>
        it.matches('.entry') ? [...it.children].slice(1) : [it],
      )
      for (const it of pieces) {
        if (it.localName === 'h2') {
          if (Object.keys(parts).length > 0) break
          if (!it.textContent.startsWith('Functions')) break
        } else if (it.localName === 'h3') {
          name = it.id
          parts[name] = []
        } else if (name !== '') parts[name]!.push(it.textContent)
      }
      return parts
    })
    const exported = [...declarations()].find(([{ page }]) => page === entry.page)![1]
    const wanted = exported.filter(({ kind }) => kind === 'function').map(({ name }) => name)
    expect(Object.keys(functions)).toEqual(wanted)
    for (const [name, texts] of Object.entries(functions)) {
      expect(texts.join(' '), name).toMatch(/console\.log|Its example stands at/)
      expect(texts[1]!.length, name).toBeGreaterThan(10)
    }
  })

  it('shows no raw markup, leads to places that are there, and is no longer than 15 000 px', async () => {
    const { text, links, height } = await watched.page.evaluate(() => ({
      text: document.querySelector('main')!.textContent,
      links: [...document.querySelectorAll<HTMLAnchorElement>('main a[href*="#"]')].map(({ href }) => href),
      height: document.querySelector('main')!.getBoundingClientRect().height,
    }))
    expect(text).not.toMatch(/\{@|\\[<>{}]|&[a-z]+;|<a |```|\[object /)
    expect(height).toBeLessThan(15_000)
    const pages = new Map<string, Set<string>>()
    for (const link of new Set(links)) {
      const [address = '', place = ''] = link.split('#')
      if (!pages.has(address)) {
        const html = await (await fetch(address)).text()
        pages.set(address, new Set([...html.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id!)))
      }
      expect(pages.get(address)!.has(decodeURIComponent(place)), link).toBe(true)
    }
  })
})

it('opens what is folded where a link leads into the page', async () => {
  await watched.page.goto(`${site.url(pageOf('divider'))}#DividerChoice`)
  const box = await watched.page.locator('#DividerChoice').boundingBox()
  expect(box!.y).toBeLessThan(300)
})

it('opens the function that a link names, without a script too, and takes an address that is none for no place', async () => {
  const still = await site.newPage({ javaScriptEnabled: false })
  for (const { page } of [still, watched]) {
    await page.goto(`${site.url(pageOf('supply'))}#chargeAt`)
    expect(await page.locator('details.entry[open]').count()).toBe(1)
    expect((await page.locator('#chargeAt').boundingBox())!.y).toBeLessThan(300)
  }
  await still.close()
  // From one place of the page to another, no page is loaded.
  await watched.page.goto(`${site.url(pageOf('supply'))}#valueAt`)
  expect((await watched.page.locator('#valueAt').boundingBox())!.y).toBeLessThan(300)
  await watched.page.goto(`${site.url(pageOf('supply'))}#%`)
  await watched.page.goto(`${site.url('pitfalls/')}#%E0%A4%A`)
  await watched.page.locator('h1', { hasText: 'Pitfalls' }).waitFor()
  expect(watched.problems).toEqual([])
})

it('names every function of every package on its first page', async () => {
  await watched.page.goto(site.url('api/'))
  const names = await watched.page.locator('main dt').allTextContents()
  const all = [...declarations()].flatMap(([, exported]) => exported.filter(({ kind }) => kind === 'function'))
  expect(names.map((name) => name.trim()).sort()).toEqual(all.map(({ name }) => name).sort())
  expect(watched.problems).toEqual([])
})
