import { checkDecoupling, decouplingChanges, exampleChoice, exampleConditions } from '@ohmward/decoupling'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { text } from '../../docs/.vitepress/theme/numbers.js'
import { openSite, type Site } from '../tools/site.js'
import { answer, field, live, margin, read, settled, soon } from './worked-page.js'

let site: Site

beforeAll(async () => {
  site = await openSite()
})

afterAll(() => site?.close())

/** Opens the page and waits until its fields take input. */
async function open(query = '') {
  const watched = await site.newPage()
  await watched.page.goto(site.url(`decoupling/${query}`))
  await live(watched.page)
  return watched
}

const verdictless = (summary: string) => summary.replace(/^[^:]*: ?/, '').replaceAll('\u00a0', ' ')

describe('the page of the bulk capacitor', () => {
  it('says, without any script, what the package says, of both cases', async () => {
    const { page, close } = await site.newPage({ javaScriptEnabled: false })
    await page.goto(site.url('decoupling/'))
    const { summary, margins, steady } = checkDecoupling(exampleChoice, exampleConditions)
    expect(verdictless(await read(answer(page)))).toBe(verdictless(summary))
    for (const { id } of margins) expect(await margin(page, id).count(), id).toBe(1)
    const limits = { ...exampleChoice.limits, brownOut: '2.1 V ±3 %' }
    const second = checkDecoupling({ ...exampleChoice, limits }, exampleConditions, { simulation: false })
    expect(verdictless(await read(page.locator('.other .answer').first()))).toBe(verdictless(second.summary))
    const { changes } = decouplingChanges(exampleChoice, exampleConditions)
    expect(changes.length).toBeGreaterThan(1)
    for (const { name } of changes) {
      expect(await page.locator('.changes strong', { hasText: name }).count(), name).toBeGreaterThan(0)
    }
    // One voltage, rounded to the side of its limit wherever it stands.
    const settles = text(steady.voltage, 'V', 3, 'down').replace('\u00a0', ' ')
    expect(summary).toContain(`leave ${settles} in the end`)
    expect(await read(page.locator('main'))).toContain(`leave ${settles} while the load stays on`)
    // A rail that only sinks is lowest where it ends, and says it once; what is asked of it is asked to one side.
    expect(await read(page.locator('.sentence'))).toMatch(
      /^No\. Steady and lowest rail against the brown-out threshold: [\d.]+ V, at least [\d.]+ V\.$/,
    )
    expect(await read(page.locator('.picture .nested li').first())).toMatch(/^asked for at least 2\.781 V$/)
    // No capacitor holds the demo's rail above its brown-out, and none is proposed.
    expect(await page.locator('.sizing').locator('li').count()).toBe(0)
    await close()
  })

  it('fails whatever the capacitor, tries what helps, and turns to the lower brown-out; its link brings it back', async () => {
    const { page, problems, close } = await open()
    expect(await read(answer(page))).toMatch(/^fails: ?no capacitor can help/)
    expect(await read(margin(page, 'steady-sag'))).toMatch(/fails/)
    expect(await page.locator('.changes [data-id="less-source"]').count()).toBe(1)
    await page.getByLabel('controller', { exact: true }).selectOption('brown-out at 2.1 V')
    await soon(() => read(answer(page))).toMatch(/^holds/)
    await soon(() => page.url()).toContain('2.1')
    const url = page.url()
    await page.goto(url)
    await soon(() => read(answer(page))).toMatch(/^holds/)
    expect(await field(page, 'choice.limits.brownOut').inputValue()).toBe('2.1 V ±3 %')
    expect(problems).toEqual([])
    await close()
  })

  it('a burst is a matter of the capacitor: without the first kind it fails, and says how much it needs', async () => {
    const { page, problems, close } = await open()
    await page.getByLabel('what the blade does').selectOption('burst of 100 µs')
    await field(page, 'choice.limits.brownOut').fill('2.5 V')
    await soon(() => read(margin(page, 'rail-brown-out'))).toMatch(/holds/)
    await page.locator('#class-bulk').selectOption('ceramic')
    await soon(() => read(margin(page, 'rail-brown-out'))).toMatch(/fails/)
    await settled(page)
    const json = await page.getByRole('group', { name: 'Your parts as JSON', includeHidden: true }).textContent()
    const { choice, conditions } = JSON.parse(json!)
    const { capacitance } = checkDecoupling(choice, conditions, { simulation: false }).steady
    expect(capacitance).toBeGreaterThan(100e-6)
    expect(await read(page.locator('main'))).toContain(
      `It takes ${text(capacitance!, 'F', 3, 'up').replace('\u00a0', ' ')} on the rail`,
    )
    expect(problems).toEqual([])
    await close()
  })

  it('shows the ripple of PWM and the current of each capacitor', async () => {
    const { page, problems, close } = await open(`?${new URLSearchParams({ 'conditions.charge.from': '10 %' })}`)
    await soon(() => read(page.locator('.lead'))).toContain('100 % charged down to 10 % charged')
    await page.getByRole('button', { name: 'Use this load' }).click()
    await soon(() => page.locator('figcaption', { hasText: 'In steady PWM' }).count()).toBe(2)
    await soon(() => margin(page, 'ripple-1').count()).toBe(1)
    expect(problems).toEqual([])
    await close()
  })

  it('keeps the last good answer beside a field that cannot be, in the words of the library', async () => {
    const { page, problems, close } = await open()
    const before = await read(answer(page))
    await page.locator('fieldset', { hasText: 'Second kind' }).locator('summary').first().click()
    await field(page, 'choice.capacitors.second.bias').fill('0 V: 0.5, 5 V: 0.8')
    await soon(() => page.locator('.problem').count()).toBe(1)
    expect(await read(page.locator('.problem'))).toContain('only lowers the capacitance')
    expect(await read(answer(page))).toBe(before)
    await field(page, 'choice.capacitors.second.bias').fill('0 V: 1, 5 V: 0.4')
    await soon(() => page.locator('.problem').count()).toBe(0)
    await field(page, 'choice.load.duration').fill('10 us')
    await soon(() => read(page.locator('.problem'))).toContain('at most the on-time')
    expect(problems).toEqual([])
    await close()
  })
})
