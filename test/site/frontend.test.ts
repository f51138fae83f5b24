import { exampleAmplifiers } from '@ohmward/divider'
import { type Design, exampleDesign } from '@ohmward/frontend'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openSite, type Site } from '../tools/site.js'
import { answer, field, live, read, soon } from './worked-page.js'

let site: Site
beforeAll(async () => {
  site = await openSite()
})
afterAll(() => site?.close())

const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true })
const text = (page: Page) => page.locator('#design-text:not([readonly])')
const change = (page: Page, id: string) => page.locator(`.changes > [data-id="${id}"]`)
const answered = (page: Page) =>
  page.waitForFunction(() => document.querySelector('progress') === null, null, { timeout: 90_000 })

async function open() {
  const watched = await site.newPage()
  await watched.page.goto(site.url('frontend/'))
  await text(watched.page).waitFor()
  return watched
}

describe('the page of the whole design', () => {
  it('says without a script what gives way first, what helps, the map readable without colour, and the first board', async () => {
    const { page, problems, close } = await site.newPage({ javaScriptEnabled: false })
    await page.goto(site.url('frontend/'))
    expect(await read(page.locator('.sentence'))).toMatch(/^No\. First to give way: highest amplifier output.* charged/)
    const rows = page.locator('table.map tbody tr')
    expect(await rows.count()).toBeGreaterThan(5)
    const failing = await page.locator('table.map td.fails').allTextContents()
    expect(failing.length).toBeGreaterThan(0)
    for (const one of failing) expect(one).toMatch(/^× [1-9]\d*$/)
    expect(await page.getByText('cells, at their terminals').count()).toBeGreaterThan(0)
    expect(await read(page.locator('#what-would-help + p'))).toMatch(/^No single change is enough; .* together are/)
    expect(problems).toEqual([])
    await close()
  })

  it('tells what gives way in a window of 320 px without a part of it out of sight', async () => {
    const { page, close } = await site.newPage({ javaScriptEnabled: false, viewport: { width: 320, height: 700 } })
    await page.goto(site.url('frontend/'))
    const cells = page.locator('table.stacks tbody [role]')
    expect(await cells.count()).toBeGreaterThan(10)
    const right = await cells.evaluateAll((all) => all.map((it) => it.getBoundingClientRect().right))
    expect(Math.max(...right)).toBeLessThanOrEqual(320)
    expect(await read(page.locator('table.stacks td.limit').first())).toMatch(/, at (most|least) [\d.−]+ \S+$/)
    await close()
  })

  it('prints on three sheets of A4, without what is there to be typed in or pressed', async () => {
    const { page, close } = await open()
    await page.emulateMedia({ media: 'print' })
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1')
    const sheets = pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0
    expect(sheets).toBeGreaterThan(0)
    expect(sheets).toBeLessThanOrEqual(3)
    expect(await page.locator('#design-text').isVisible()).toBe(false)
    expect(await page.getByRole('rowheader', { name: 'cells, at their terminals' }).isVisible()).toBe(true)
    await close()
  })

  it('checks the design where it is typed, and says there what is refused', async () => {
    const { page, close } = await open()
    const beside = page.locator('.typed')
    const typed = async (from: string, to: string) => {
      const now = await text(page).inputValue()
      expect(now).toContain(from)
      await text(page).fill(now.replace(from, to))
      await button(page, 'Check it as it stands').click()
    }
    expect(await read(beside)).toContain('No. First to give way: highest amplifier output')
    await typed('"100 Hz"', '"100 Hs"')
    await soon(() => read(beside)).toContain('pwm.frequency = "100 Hs": allowed is')
    await typed('"100 Hs"', '"120 Hz"')
    await answered(page)
    await soon(() => read(beside)).toMatch(/No\. First to give way/)
    await close()
  })

  it('draws what feeds controller and amplifier where a diode stands between', async () => {
    const { page, close } = await open()
    const drawing = page.locator('figure.circuit svg').first()
    expect(await drawing.getByText('diode', { exact: true }).count()).toBe(0)
    const design: Design = {
      ...exampleDesign,
      rails: [
        {
          name: 'logic',
          source: 'main',
          through: { kind: 'diode', forwardVoltage: '0.35 V', forwardAt: '10 mA', capacitance: '470 uF' },
        },
      ],
      lives: { controller: 'logic', converter: 'logic', amplifier: 'logic', sensor: 'logic' },
    }
    await text(page).fill(JSON.stringify(design))
    await button(page, 'Check the design').click()
    await soon(() => drawing.getByText('diode', { exact: true }).count()).toBe(2)
    await close()
  })

  it('refuses a file that is no design, in words, and marks the answer as old; goes back to the demo', async () => {
    const { page, close } = await open()
    const demo = await text(page).inputValue()
    await text(page).fill('{ "version": 1,\n  oops }')
    expect(await page.locator('.results.old').count()).toBeGreaterThan(1)
    await button(page, 'Check the design').click()
    await soon(() => read(page.getByRole('alert'))).toMatch(/line 2/)
    await text(page).fill(demo.replace('"pwm"', '"pmw"'))
    await button(page, 'Check the design').click()
    await soon(() => read(page.getByRole('alert'))).toMatch(/pmw/)
    await page.getByLabel('Load a design').setInputFiles({
      name: 'knife.json',
      mimeType: 'application/json',
      buffer: Buffer.from('{\n  "version": 1,\n  "name": "mine"\n  "supply": 1\n}'),
    })
    await soon(() => read(page.locator('#file-problem'))).toMatch(/knife\.json.*line 4, column 3/)
    await button(page, 'Back to the demo').click()
    expect(await page.locator('.results.old').count()).toBe(0)
    expect(await page.getByRole('alert').count()).toBe(0)
    await close()
  })

  it('starts from the mat on an adapter instead, which holds', async () => {
    const { page, problems, close } = await open()
    await button(page, 'Start from the seedling mat').click()
    await soon(() => read(page.locator('.sentence'))).toMatch(/^Yes\./)
    expect(await text(page).inputValue()).toContain('"seedling mat"')
    await answered(page)
    await button(page, 'Back to the demo').click()
    expect(await read(page.locator('.sentence'))).toMatch(/^No\./)
    expect(problems).toEqual([])
    await close()
  })

  it('leads by its own buttons from no to yes: one change after the other, and back', async () => {
    const { page, problems, close } = await open()
    const [demo, said] = [await text(page).inputValue(), await read(page.locator('.sentence'))]
    const rows = page.locator('table', { hasText: 'Holds down to' }).locator('tbody tr.fails')
    const failing = async () => new Set(await rows.locator('th').allTextContents())
    const before = await failing()
    expect([...before].join()).toMatch(/highest amplifier output/)
    expect([...before].join()).toMatch(/lowest rail against the brown-out threshold/)
    const map = await page.locator('table.map td.fails').count()

    await button(page, 'Check the design').waitFor()
    await change(page, 'brown-out').getByRole('button', { name: 'Apply' }).click()
    // The map at a glance comes first, and says that it is one.
    await page.locator('table.map caption', { hasText: 'Estimate while the check runs' }).waitFor()
    expect(await page.locator('table.map td.fails').count()).toBe(0)
    await answered(page)
    expect(await page.getByText('Estimate while the check').count()).toBe(0)
    expect(await page.locator('.results.old .sentence').count()).toBe(0)
    expect(await read(page.locator('.sentence'))).toMatch(/^No\. First to give way: highest amplifier output/)
    expect([...(await failing())].join()).not.toMatch(/brown-out/)
    expect(await page.locator('table.map td.fails').count()).toBeLessThan(map)
    expect(await read(change(page, 'brown-out'))).toContain('Already in the design')

    await change(page, 'divider/amplifier').getByRole('button', { name: 'Apply' }).click()
    await answered(page)
    expect(await read(page.locator('.sentence'))).toMatch(/^Yes\./)
    expect(await failing()).toEqual(new Set())

    await button(page, 'Take the last change back').click()
    await answered(page)
    await button(page, 'Take the last change back').click()
    await answered(page)
    expect(await read(page.locator('.sentence'))).toBe(said)
    expect(await text(page).inputValue()).toBe(demo)
    expect(await failing()).toEqual(before)
    expect(problems).toEqual([])
    await close()
  }, 240_000)

  it("opens each part on its block's page with the design's choice and the rail there, and comes back with a change", async () => {
    const { page, problems, close } = await open()
    const parts = page.locator('.parts-of a')
    expect(await parts.evaluateAll((all) => all.map((one) => (one as HTMLElement).dataset['part']))).toEqual([
      'divider',
      'hall',
      'mosfet',
      'decoupling',
    ])
    for (const [block, row] of [
      ['hall', 'supply-low'],
      ['mosfet', 'gate-drive'],
      ['decoupling', 'rail-brown-out'],
      ['divider', 'headroom'],
    ] as const) {
      await page.goto(site.url('frontend/'))
      await text(page).waitFor()
      await page.locator(`.parts-of a[data-part="${block}"]`).click()
      await live(page)
      await soon(() => page.locator('.part-of').count()).toBe(1)
      expect(await read(page.locator('.part-of')), block).toMatch(
        /^Part of the design “sailmaker's hot knife”, on the supply that it has at .* charged/,
      )
      expect(await page.locator('.failure').count(), block).toBe(0)
      await soon(() => page.locator('.said .stale').count()).toBe(0)
      expect(await page.locator(`[id="margin-${row}"]`).count(), block).toBe(1)
    }
    expect(await read(answer(page))).toMatch(/^fails/)
    expect(await field(page, 'choice.gainResistors.feedback').inputValue()).toBe(
      exampleDesign.divider.gainResistors.feedback,
    )
    await field(page, 'choice.gainResistors.feedback').fill('18 kohm ±0.1 %')
    await field(page, 'conditions.rail.to').fill('5 V')
    await soon(() => read(page.locator('.part-of'))).toMatch(/Stays here, since the design works it out: rail/)
    await page.getByRole('link', { name: 'Back to the design with the change' }).click()
    await soon(() => text(page).inputValue()).toContain('"18 kohm ±0.1 %"')
    await answered(page)
    expect(await read(page.locator('.sentence'))).toMatch(/^No\. First to give way: lowest rail against the brown-out/)
    expect(await page.locator('.results.old .sentence').count()).toBe(0)
    await button(page, 'Take the last change back').waitFor()
    expect(problems).toEqual([])
    await close()
  }, 120_000)

  it('tells how many boards work, of the design as it stands', async () => {
    const { page, problems, close } = await open()
    const shares = page.locator('.boards-work')
    expect(await read(shares)).toMatch(/^Of 10,000 boards.* 0\.?\d* % work/)
    const rows = page.locator('table', { hasText: 'First on' }).locator('tbody tr')
    expect(await read(rows.first())).toMatch(/open-circuit detection\s*divider\s*100 %\s*100 %/)
    const better = structuredClone(exampleDesign) as unknown as Record<string, Record<string, unknown>>
    better['controller']!['brownOut'] = '2.1 V ±3 %'
    better['divider']!['amplifier'] = exampleAmplifiers.zeroDrift
    await text(page).fill(JSON.stringify(better, null, 2))
    await soon(() => page.locator('.results.old .boards-work').count()).toBe(1)
    await button(page, 'Simulate boards').click()
    await answered(page)
    expect(await page.locator('.results.old .boards-work').count()).toBe(0)
    // Where every row holds at its worst, every board works.
    expect(await read(shares)).toMatch(/ 100 % work/)
    expect(await rows.count()).toBe(0)
    // The answer above is still the demo's.
    expect(await page.locator('.results.old .sentence').count()).toBe(1)
    expect(problems).toEqual([])
    await close()
  }, 120_000)

  it('can be stopped while it computes', async () => {
    const { page, close } = await open()
    await button(page, 'Check the design').click()
    await button(page, 'Stop').click()
    expect(await page.getByRole('progressbar').count()).toBe(0)
    expect(await button(page, 'Check the design').isEnabled()).toBe(true)
    await close()
  })
})
