import { checkMosfet, exampleChoice, exampleConditions } from '@ohmward/mosfet'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openSite, type Site } from '../tools/site.js'
import { answer, field, live, margin, read, soon } from './worked-page.js'

let site: Site

beforeAll(async () => {
  site = await openSite()
})

afterAll(() => site?.close())

/** Opens the page and waits until its fields take input. */
async function open(query = '') {
  const watched = await site.newPage()
  await watched.page.goto(site.url(`mosfet/${query}`))
  await live(watched.page)
  return watched
}

describe('the page of the MOSFET switch', () => {
  it('says, without any script, what the package says', async () => {
    const { page, close } = await site.newPage({ javaScriptEnabled: false })
    await page.goto(site.url('mosfet/'))
    const { summary, margins } = checkMosfet(exampleChoice, exampleConditions)
    const shown = await read(answer(page))
    expect(shown.replace(/^\w+: ?/, '')).toBe(summary.replace(/^\w+: /, ''))
    for (const { id, name } of margins) expect(await read(margin(page, id))).toContain(name)
    const drives = page.locator('table', { hasText: 'pull-up of 10' })
    expect(await drives.locator('tbody tr').count()).toBe(4)
    // One prefix in a column.
    const loss = page.locator('table', { hasText: 'Part of the loss' })
    expect(await read(loss.locator('thead'))).toMatch(/Power, mW/)
    for (const cell of await loss.locator('tbody td:nth-child(2)').allTextContents()) expect(cell).toMatch(/^[\d.]+$/)
    expect(await page.locator('#step-T_j').count()).toBe(1)
    await close()
  })

  it('turns to failure with the slow drive, and its link brings the choice back', async () => {
    const { page, problems, close } = await open()
    await page.getByLabel('kind', { exact: true }).selectOption('NPN and pull-up of 10 kohm')
    await field(page, 'choice.pwm.frequency').fill('4 kHz')
    await soon(() => read(answer(page))).toMatch(/^fails/)
    await soon(() => read(margin(page, 'off-edge'))).toMatch(/fails/)
    expect(await page.locator('figcaption', { hasText: 'PWM heats it more than the current does' }).count()).toBe(1)
    await soon(() => page.url()).toContain('4+kHz')
    const url = page.url()
    await page.goto(url)
    await soon(() => read(answer(page))).toMatch(/^fails/)
    expect(await field(page, 'choice.drive.pull.resistance').inputValue()).toBe('10 kohm ±1 %')
    expect(problems).toEqual([])
    await close()
  })

  it('the link to the second choice is the last line of its table', async () => {
    const { page, close } = await open()
    const worst = await read(page.locator('table', { hasText: 'pull-up of 10' }).locator('tbody tr').last())
    await page.getByRole('link', { name: 'Put the last line into the form' }).click()
    await soon(() => read(answer(page))).toMatch(/^fails/)
    const temperature = /at worst ([\d.]+)/.exec(await read(answer(page)))?.[1]
    expect(worst).toContain(temperature)
    await close()
  })

  it('draws the junction against the current up to runaway, and says where it is', async () => {
    const { page, problems, close } = await open()
    const picture = page.getByRole('img', { name: 'Junction temperature against load current' })
    expect(await picture.locator('.mark').count()).toBe(2)
    expect(await picture.locator('.curve').count()).toBe(2)
    expect(await picture.locator('.crossing').count()).toBe(2)
    // A blade of a tenth: nothing balances any more, and that is an answer.
    await field(page, 'choice.load.resistance').fill('0.07 ohm')
    await field(page, 'choice.thermal.copperSquareMillimetres').fill('40')
    await soon(() => read(answer(page))).toMatch(/^fails.*in runaway/s)
    expect(await picture.locator('.crossing').count()).toBeLessThan(2)
    expect(await read(page.locator('main'))).not.toMatch(/NaN|undefined|Infinity/)
    expect(problems).toEqual([])
    await close()
  })

  it('redraws for an N-channel transistor on the low side', async () => {
    const { page, problems, close } = await open()
    await page.getByLabel('class', { exact: true }).selectOption('N-channel, driven from 1.8 V')
    await page.getByLabel('kind', { exact: true }).selectOption('controller pin')
    await soon(() => page.locator('.circuit svg title').first().textContent()).toMatch(
      /N-channel switch on the low side/,
    )
    await soon(() => read(answer(page))).toMatch(/^holds/)
    await soon(() => margin(page, 'pin-current').count()).toBe(1)
    expect(problems).toEqual([])
    await close()
  })

  it('says beside a table of points why it can’t be read, and keeps the last answer', async () => {
    const { page, close } = await open()
    await page.getByText('the limits of its data sheet').click()
    const before = await read(answer(page))
    await field(page, 'choice.transistor.onResistance').fill('4.5 V: 12 mohm; 2.5 V: 20 mohm')
    const said = page.locator('[id="field-choice.transistor.onResistance-problem"]')
    await soon(() => read(said)).toMatch(/points must ascend/)
    expect(await read(answer(page))).toBe(before)
    expect(await page.locator('.results.old').count()).toBeGreaterThan(3)
    await field(page, 'choice.transistor.onResistance').fill('1.8 V: 20 mohm; 2.5 V: 12 mohm')
    await soon(() => said.count()).toBe(0)
    await soon(() => read(answer(page))).not.toBe(before)
    await close()
  })

  it('steps a pull-up along the preferred values by keyboard alone', async () => {
    const { page, close } = await open()
    const pull = field(page, 'choice.drive.pull.resistance')
    await pull.focus()
    await page.keyboard.press('ArrowUp')
    expect(await pull.inputValue()).toMatch(/^1\.1 kohm/)
    await page.keyboard.press('ArrowDown')
    expect(await pull.inputValue()).toMatch(/^1 kohm/)
    await close()
  })

  it('follows the gate margin over the discharge to where it gives way', async () => {
    const { page, close } = await open()
    const picture = page.getByRole('img', { name: /against cell voltage at rest/ })
    expect(await picture.locator('title').textContent()).toMatch(/gate drive/)
    expect(await picture.locator('.crossing').count()).toBe(1)
    await close()
  })
})
