import { cpSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openSite, type Site } from '../tools/site.js'
import { baseOf, serveFolder } from '../tools/static-server.mjs'
import { root } from '../tools/workspace.js'
import { answer, field, live, read, settled, soon } from './worked-page.js'

let site: Site

beforeAll(async () => {
  site = await openSite()
})
afterAll(() => site?.close())

/** On each page a field, a text that the page's answer changes with, and a link that carries it. */
const typed = [
  ['divider', 'choice.reference', '22 ohm ±1 %'],
  ['hall', 'choice.filter.capacitance', '47 nF ±10 %'],
  ['mosfet', 'choice.load.resistance', '0.3 ohm'],
  ['decoupling', 'choice.load.resistance', '0.3 ohm'],
] as const

/** Holds back what the workers say, until it is let go: of the first worker, of the second, or of both. */
const holdBack = (page: Page) =>
  page.addInitScript(() => {
    const held: { worker: number; hear: () => void }[] = []
    let count = 0
    class Held extends Worker {
      readonly #number = count++
      override set onmessage(hear: (event: MessageEvent) => void) {
        super.onmessage = (event) => held.push({ worker: this.#number, hear: () => hear(event) })
      }
    }
    Object.assign(globalThis, { Worker: Held, held })
  })
const letGo = (page: Page, worker: number) =>
  page.evaluate((worker) => {
    const { held } = globalThis as unknown as { held: { worker: number; hear: () => void }[] }
    for (const one of held.filter((it) => it.worker === worker)) {
      held.splice(held.indexOf(one), 1)
      one.hear()
    }
  }, worker)

/** Types a text, and gives what is still unmarked a tenth of a second later, or six frames where a busy machine draws fewer. */
const unmarkedAfter = (page: Page, id: string, text: string) =>
  page.evaluate(
    async ([id, text]) => {
      const input = document.getElementById(`field-${id}`) as HTMLInputElement
      input.value = text
      input.dispatchEvent(new Event('input', { bubbles: true }))
      const frame = () => new Promise(requestAnimationFrame)
      const frames = async () => {
        for (let i = 0; i < 6; i++) await frame()
      }
      await Promise.all([new Promise((resolve) => setTimeout(resolve, 100)), frames()])
      return (
        [...document.querySelectorAll('.results, .strip')]
          // What is folded shows no verdict.
          .filter((it) => it.checkVisibility() && it.querySelector('.stale')?.checkVisibility() !== true)
          .map((it) => `${it.className}: ${it.textContent.trim().slice(0, 60)}`)
      )
    },
    [id, text] as const,
  )
const marks = (page: Page) => page.locator('.stale').count()

describe.each(typed)('the page /%s/', (path, id, text) => {
  it('marks every verdict as old within 100 ms of the keystroke, says that no answer comes, and takes it when it does', async () => {
    const { page, problems, close } = await site.newPage()
    await holdBack(page)
    await page.goto(site.url(`${path}/`))
    await live(page)
    expect(await marks(page)).toBe(0)
    expect(await unmarkedAfter(page, id, text)).toEqual([])
    await soon(() => read(page.locator('.failure'))).toMatch(/^No answer yet/)
    expect(await read(page.locator('.strip .stale'))).toBe('out of date: no answer')
    await soon(async () => {
      await letGo(page, 0)
      await letGo(page, 1)
      return marks(page)
    }).toBe(0)
    expect(await page.locator('.failure').count()).toBe(0)
    expect(problems).toEqual([])
    await close()
  })

  it('says in words that its worker could not be started, and marks what it shows', async () => {
    const { page, close } = await site.newPage()
    await page.addInitScript(() => {
      globalThis.Worker = class {
        constructor() {
          throw new Error('not here')
        }
      } as never
    })
    await page.goto(site.url(`${path}/`))
    await live(page)
    await field(page, id).focus()
    expect(await unmarkedAfter(page, id, text)).toEqual([])
    expect(await read(page.locator('.failure'))).toContain('The check failed: Error: not here.')
    await close()
  })
})

describe('a page without an answer', () => {
  it('says that its worker failed, asks again, and recovers', async () => {
    const { page, close } = await site.newPage()
    await page.addInitScript(() => {
      let left = 2
      globalThis.Worker = class extends Worker {
        constructor(url: string | URL, options?: WorkerOptions) {
          super(left-- > 0 ? 'data:text/javascript,throw new Error("out of paper")' : url, options)
        }
      }
    })
    // The policy lets no such worker through, which is a failure as good as any.
    await page.goto(site.url('divider/'))
    await live(page)
    expect(await unmarkedAfter(page, 'choice.reference', '22 ohm ±1 %')).toEqual([])
    await soon(() => read(page.locator('.failure'))).toMatch(/^The check failed: .+ What the page shows belongs/)
    await page.getByRole('button', { name: 'Ask again' }).click()
    await soon(() => read(answer(page))).toMatch(/^fails/)
    await settled(page)
    await soon(() => marks(page)).toBe(0)
    expect(await page.locator('.failure').count()).toBe(0)
    await close()
  })

  it('keeps the discharge marked until its own curves are there', async () => {
    const { page, close } = await site.newPage()
    await holdBack(page)
    await page.goto(site.url('divider/'))
    await live(page)
    await field(page, 'choice.reference').fill('22 ohm ±1 %')
    await soon(async () => {
      await letGo(page, 0)
      return read(page.locator('.strip'))
    }).toMatch(/^fails/)
    const plot = page.locator('.results', { has: page.locator('figure.plot') })
    expect(await read(plot.locator('.stale'))).toBe('out of date: computing')
    await soon(async () => {
      await letGo(page, 1)
      return plot.locator('.stale').count()
    }).toBe(0)
    await close()
  })

  it('does not show the demo unmarked for a link whose program never comes', async () => {
    const { page, close } = await site.newPage()
    await page.route(/assets\/.*\.js$/, (route) => route.abort())
    await page.goto(site.url('divider/?choice.reference=22+ohm'))
    const said = () =>
      page.evaluate(() =>
        [...document.querySelectorAll('.strip, .results')].map((it) => getComputedStyle(it, '::before').content),
      )
    expect(new Set(await said())).toEqual(new Set(['"the demo: the choice of the link is not read yet"']))
    await page.unroute(/assets\/.*\.js$/)
    await page.goto(site.url('divider/?choice.reference=22+ohm'))
    await live(page)
    expect(new Set(await said())).toEqual(new Set(['none']))
    await close()
  })

  it('answers in an old tab after the site was replaced by a newer one', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'ohmward-site-'))
    cpSync(`${root}docs/.vitepress/dist`, folder, { recursive: true })
    const server = await serveFolder({ folder, base: baseOf(folder), strict: true })
    const context = await site.browser.newContext({ reducedMotion: 'reduce' })
    try {
      const page = await context.newPage()
      await page.goto(`${server.url}divider/`)
      await page.evaluate(async () => {
        await navigator.serviceWorker.ready
        if (navigator.serviceWorker.controller) return
        await new Promise((resolve) => navigator.serviceWorker.addEventListener('controllerchange', resolve))
      })
      // A newer site has other names for what changed.
      const newer = (name: string) => name.replace(/\.js$/, 'x.js')
      const workers = readdirSync(`${folder}/assets`).filter((name) => /^(worker|block)-/.test(name))
      expect(workers.length).toBeGreaterThan(1)
      for (const name of workers) renameSync(`${folder}/assets/${name}`, `${folder}/assets/${newer(name)}`)
      let text = readFileSync(`${folder}/sw.js`, 'utf8').replace(/(const version = ".* )\w+"/, '$1newer"')
      for (const name of workers) text = text.replaceAll(name, newer(name))
      writeFileSync(`${folder}/sw.js`, text)
      await page.evaluate(async () => {
        const registration = await navigator.serviceWorker.ready
        await registration.update()
        const isThere = () => registration.waiting !== null || registration.active?.state === 'activated'
        while (registration.installing || !isThere()) await new Promise((resolve) => setTimeout(resolve, 20))
      })
      expect(await page.evaluate(async () => (await caches.keys()).length)).toBe(2)
      await field(page, 'choice.reference').fill('22 ohm ±1 %')
      await soon(() => read(answer(page))).toMatch(/^fails/)
      expect(await page.locator('.failure').count()).toBe(0)
    } finally {
      await context.close()
      await server.close()
      rmSync(folder, { recursive: true })
    }
  })
})
