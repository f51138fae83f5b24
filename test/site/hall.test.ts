import { readFileSync } from 'node:fs'
import { checkHall, hallFirmware, hallOverCurrent, hallPeriod } from '@ohmward/hall'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { argumentsOf, demoOf } from '../../docs/.vitepress/theme/block.js'
import { block } from '../../docs/hall/block.js'
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
  await watched.page.goto(site.url(`hall/${query}`))
  await live(watched.page)
  return watched
}

const scenario = (page: Page) => page.getByLabel('scenario', { exact: true })
const { choice, conditions } = argumentsOf(block, demoOf(block)) as { choice: never; conditions: never }

describe('the page of the Hall sensor', () => {
  it('says, without any script, what the package says', async () => {
    const { page, close } = await site.newPage({ javaScriptEnabled: false })
    await page.goto(site.url('hall/'))
    const { summary, margins } = checkHall(choice, conditions)
    const shown = await read(answer(page))
    expect(shown.replace(/^\w+: ?/, '')).toBe(summary.replace(/^\w+: /, ''))
    for (const { id, name } of margins) expect(await read(margin(page, id))).toContain(name)
    expect(await page.locator('#step-A_count').count()).toBe(1)
    const cold = hallOverCurrent(choice, conditions, ['6 A'])[0]!
    const row = page.locator('table', { hasText: 'Largest error over all limits' }).locator('tbody tr').last()
    expect(await read(row)).toContain(`±${Number((cold.worstError * 1e3).toPrecision(3))} mA`)
    const made = hallFirmware(choice, conditions)
    expect(made.kind === 'possible' && made.c).toContain(`* ${made.kind === 'possible' && made.integers.multiplier}UL`)
    expect(await page.locator('pre', { hasText: '#ifndef CURRENT_MA_H' }).textContent()).toBe(
      made.kind === 'possible' ? made.c : '',
    )
    await close()
  })

  it('turns to failure with the 5 V class on a cell, and its link brings the choice back', async () => {
    const { page, problems, close } = await open()
    await page.getByLabel('class of sensor', { exact: true }).selectOption('five volt two way')
    await soon(() => read(answer(page))).toMatch(/^fails/)
    expect(await read(margin(page, 'supply-low'))).toContain('fails')
    await soon(() => page.url()).toContain('sensor=five+volt+two+way')
    await page.goto(page.url())
    await soon(() => read(answer(page))).toMatch(/^fails/)
    expect(await field(page, 'choice.sensor.supplyMinimum').inputValue()).toBe('4.5 V')
    expect(problems).toEqual([])
    await close()
  })

  it('has a seedling mat as its second scenario: other supplies, a divider, another lead', async () => {
    const { page, problems, close } = await open()
    await scenario(page).selectOption('seedling mat on 12 V')
    await soon(() => read(page.locator('.lead'))).toMatch(/seedling mat on 12 V/)
    await soon(() => read(answer(page))).toMatch(/^holds/)
    const circuit = page.getByRole('group', { name: 'Current measurement with a Hall sensor' })
    expect(await circuit.getByRole('img').count()).toBe(6)
    expect(await read(circuit)).toContain('supply of the load')
    expect(await read(page.locator('main'))).not.toMatch(/NaN|undefined|Infinity/)
    await soon(() => page.url()).toContain('seedling')
    await scenario(page).selectOption('hot knife on one cell')
    await soon(() => read(page.locator('.lead'))).toMatch(/hot knife/)
    expect(await circuit.getByRole('img').count()).toBe(4)
    expect(problems).toEqual([])
    await close()
  })

  it('draws the period with the settling and the sampling instant, and says when the window is too short', async () => {
    const { page, problems, close } = await open()
    const picture = page.getByRole('img', { name: /^Sensor and pin over the first .*, enlarged/ })
    const { settled } = hallPeriod(choice, conditions)
    const caption = page.locator('.panels + .caption')
    expect(await read(caption)).toContain(`${Number((settled! * 1e6).toPrecision(3))} µs after the edge`)
    expect(await picture.locator('.mark').count()).toBe(2)
    const before = await picture.locator('.curve').last().getAttribute('d')
    await field(page, 'choice.filter.capacitance').fill('1 uF')
    await soon(() => read(caption)).toContain('within the on-time of 1 ms, before the pin has settled')
    expect(await read(margin(page, 'settling'))).toContain('fails')
    // Without a wait of its own the reading comes when the pin has settled.
    await page.getByText('stray fields, zero reading').click()
    await field(page, 'choice.wait').fill('')
    await soon(() => read(caption)).toContain('after the on-time is over')
    expect(await picture.locator('.curve').last().getAttribute('d')).not.toBe(before)
    expect(await read(margin(page, 'on-window'))).toContain('fails')
    // Averaged, no instant matters, and the second picture goes.
    await field(page, 'choice.reading').selectOption('averaged')
    await soon(() => read(caption)).toContain('no instant matters')
    expect(await picture.count()).toBe(0)
    await soon(() => read(margin(page, 'power'))).toContain('fails')
    expect(problems).toEqual([])
    await close()
  })

  it('gives the firmware of the choice, to copy and to save', async () => {
    const { page, problems, close } = await open()
    await field(page, 'choice.timing.samples').fill('16')
    const text = page.locator('pre', { hasText: '#ifndef CURRENT_MA_H' })
    await soon(() => text.textContent()).toContain('mA from the sum of 16 codes of 0 to 65520.')
    await page.getByText('C99 header, 32 bits').click()
    const take = page.locator('details', { hasText: 'C99 header, 32 bits' }).last()
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write'])
    await take.getByRole('button', { name: 'Copy' }).click()
    await soon(() => read(take.getByRole('status'))).toBe('Copied')
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(await text.textContent())
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      take.getByRole('link', { name: 'Save as current_ma.h' }).click(),
    ])
    expect(readFileSync(await download.path(), 'utf8')).toBe(await text.textContent())
    expect(problems).toEqual([])
    await close()
  })

  it('says beside the field what can’t be, keeps the last answer and marks it as old', async () => {
    const { page, close } = await open()
    const before = await read(answer(page))
    await field(page, 'choice.pwm.duty.from').fill('0')
    await soon(() => read(page.locator('.field.wrong .problem'))).toContain('at least')
    expect(await page.locator('.results.old').count()).toBeGreaterThan(0)
    expect(await read(answer(page))).toBe(before)
    await field(page, 'choice.pwm.duty.from').fill('10 %')
    await field(page, 'choice.errors.0.at').fill('9 A')
    await soon(() => read(page.locator('.field.wrong .problem'))).toContain('to 6.5 A')
    await field(page, 'choice.errors.0.at').fill('2 A')
    await soon(() => page.locator('.results.old').count()).toBe(0)
    // Without the other reading its fields go, and nothing is missing.
    await page.getByText('windows and times of the other readings').click()
    await page.getByRole('button', { name: 'Leave out: other task 2' }).click()
    await page.getByRole('button', { name: 'Leave out: other task 1' }).click()
    await soon(() => margin(page, 'off-window').count()).toBe(0)
    expect(await field(page, 'choice.otherTasks.0.settling').inputValue()).toBe('')
    await close()
  })

  it('does it all from the keyboard', async () => {
    const { page, close } = await open()
    const url = page.url()
    await field(page, 'choice.filter.capacitance').focus()
    await page.keyboard.press('ArrowUp')
    expect(await field(page, 'choice.filter.capacitance').inputValue()).toBe('1.5 nF ±10 %')
    await soon(() => page.url()).not.toBe(url)
    await scenario(page).focus()
    await page.keyboard.press('End')
    await soon(() => read(page.locator('.lead'))).toMatch(/seedling mat/)
    await close()
  })

  it('says from which code on the trip acts, for another level too', async () => {
    const { page, close } = await open()
    await field(page, 'choice.trip.current').fill('7.5 A')
    await settled(page)
    expect(await read(page.locator('main'))).toMatch(/Trip at code \d+ and above/)
    const { trip } = checkHall(
      { ...(choice as object), trip: { current: '7.5 A', normal: '6.5 A', withstand: '10 A' } } as never,
      conditions,
      { simulation: false },
    )
    expect(await read(page.locator('main'))).toContain(`Trip at code ${trip!.code} and above`)
    await close()
  })
})
