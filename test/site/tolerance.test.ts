import { checkDivider } from '@ohmward/divider'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Field } from '../../docs/.vitepress/theme/block.js'
import { isBare, parted } from '../../docs/.vitepress/theme/tolerance.js'
import { form } from '../../docs/divider/form.js'
import { openSite, type Site } from '../tools/site.js'
import { answer, choiceWith, field, live, read, sentence, settled, soon } from './worked-page.js'

const id = 'choice.reference'
const ohms: Field = { id, label: 'reference', unit: 'ohm', demo: '47 ohm ±1 %' }

describe('a text', () => {
  it.each([
    ['47 ohm ±1 %', '47 ohm', ' ±1 %'],
    ['47R', '47R', ''],
    ['1.1 V +5/-3 %', '1.1 V', ' +5/-3 %'],
    ['100 uF -20/+50 %', '100 uF', ' -20/+50 %'],
    ['47 +/- 0.5 triangular', '47', ' +/- 0.5 triangular'],
    ['±10 uV', '', '±10 uV'],
    ['1e-3 ohm', '1e-3 ohm', ''],
    ['-10 degC', '-10 degC', ''],
  ])('%s is parted', (text, value, tolerance) => {
    expect(parted(text)).toEqual([value, tolerance])
  })

  it('is bare where it can be read, has no width, and the field would count it as exact', () => {
    expect(['47R', '22', '0.1 ohm'].map((text) => isBare(ohms, text))).toEqual([true, true, true])
    expect(['', '47 ohmm', '47 ±1 %', '47 ±0 %', '3 ohm max'].map((text) => isBare(ohms, text))).toEqual(
      Array(5).fill(false),
    )
    expect(isBare({ ...ohms, plain: true }, '47R')).toBe(false)
    expect(isBare({ ...ohms, magnitude: true }, '47R')).toBe(false)
    expect(isBare({ ...ohms, also: ['rail'] }, 'rail')).toBe(false)
  })
})

describe('a value typed without a tolerance', () => {
  let site: Site
  let page: Page
  beforeAll(async () => {
    site = await openSite()
    page = (await site.newPage()).page
  })
  afterAll(() => site?.close())

  const shows = async (text: string) => {
    await settled(page)
    const { choice, conditions } = choiceWith(form, { [id]: text })
    expect(sentence(await read(answer(page)))).toBe(sentence(checkDivider(choice, conditions).summary))
  }
  const note = () => read(page.locator('.field', { has: field(page, id) }).locator('.width'))

  it('keeps the one that stood there, shown apart; counts as exact where the reader says so', async () => {
    await page.goto(site.url(`divider/?${id}=47+ohm+±1+%25`))
    await live(page)
    await soon(() => read(answer(page))).toMatch(/^fails/)
    await field(page, id).selectText()
    await page.keyboard.type('47R')
    expect(await field(page, id).inputValue()).toBe('47R')
    expect(await note()).toContain('±1 % is kept')
    await shows('47R ±1 %')
    expect(await read(answer(page))).toMatch(/^fails/)
    await soon(() => new URL(page.url()).searchParams.get(id)).toBe('47R ±1 %')
    await page.keyboard.press('Tab')
    expect(await field(page, id).inputValue()).toBe('47R ±1 %')
    await page.getByRole('button', { name: 'count as exact' }).click()
    expect(await field(page, id).inputValue()).toBe('47R')
    expect(await note()).toBe('counts as exact')
    await shows('47R')
    // Exact it stays while the value is edited, until a tolerance is typed again.
    await field(page, id).selectText()
    await page.keyboard.type('22R')
    expect(await note()).toBe('counts as exact')
    await field(page, id).fill('22R ±0.1 %')
    await shows('22R ±0.1 %')
    expect(await page.locator('.width').count()).toBe(0)
  })

  it('is said to count as exact where a link brings it so', async () => {
    await page.goto(site.url(`divider/?${id}=22+ohm`))
    await live(page)
    await soon(note).toBe('counts as exact')
  })
})
