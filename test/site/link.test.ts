import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { demoOf } from '../../docs/.vitepress/theme/block.js'
import { fromQuery, toQuery } from '../../docs/.vitepress/theme/link.js'
import { form } from '../../docs/divider/form.js'
import { openSite, type Site } from '../tools/site.js'
import { answer, field, live, read, soon } from './worked-page.js'

const demo = demoOf(form)
const changed = {
  ...demo,
  'choice.reference': '22R & more ±1 %',
  'choice.topology': 'load at rail',
  'choice.calibration.kind': 'zero',
}
const dropped = (query: string) => fromQuery(form, query).dropped

describe('a link', () => {
  it('brings back what it was made of, and has dropped nothing', () => {
    expect(fromQuery(form, toQuery(form, changed))).toEqual({ texts: changed, dropped: [] })
    expect(toQuery(form, demo)).toBe('')
    expect(fromQuery(form, '')).toEqual({ texts: demo, dropped: [] })
  })

  it('written by hand, needs neither count nor end', () => {
    const { texts, dropped } = fromQuery(form, '?choice.reference=22+ohm&amplifier=bipolar+single+supply')
    expect(dropped).toEqual([])
    expect(texts['choice.reference']).toBe('22 ohm')
    expect(texts['choice.amplifier.offsetVoltage']).not.toBe(demo['choice.amplifier.offsetVoltage'])
  })

  it('names what it carried in vain: an unknown or misspelled key, rubbish, a class or a word that is not there', () => {
    expect(dropped('?choice.refrence=22+ohm')).toEqual(['“choice.refrence=22 ohm” names no field of this page.'])
    expect(dropped('?%%%')).toEqual(['“%%%” names no field of this page.'])
    expect(dropped('?__proto__=1&constructor=2')).toHaveLength(2)
    expect(dropped('?amplifier=golden')).toEqual(['“amplifier=golden”: there is no such class of amplifier.'])
    expect(dropped('?amplifier=constructor')).toHaveLength(1)
    expect(dropped('?choice.topology=upside+down')).toEqual([
      '“choice.topology=upside down”: allowed is load at ground or load at rail.',
    ])
    expect(dropped('?choice.reference=1+ohm&choice.reference=2+ohm')).toEqual([
      '“choice.reference=2 ohm” appears twice; the first was used.',
    ])
    expect(dropped(`?x=${'y'.repeat(100_000)}`)[0]!.length).toBeLessThan(120)
  })

  it('says wherever it was cut', () => {
    const whole = toQuery(form, changed)
    for (let length = '?entries=3'.length; length < whole.length - 1; length++) {
      expect(dropped(whole.slice(0, length)).join(' '), whole.slice(0, length)).toContain('The link was cut')
    }
  })
})

describe('a page', () => {
  let site: Site
  let page: Page
  beforeAll(async () => {
    site = await openSite()
    page = (await site.newPage()).page
  })
  afterAll(() => site?.close())

  it('shows what of its link it could not use', async () => {
    await page.goto(site.url('divider/?choice.refrence=22+ohm&amplifier=golden'))
    await live(page)
    const note = page.getByRole('alert')
    await soon(() => note.count()).toBe(1)
    expect(await read(note)).toContain('choice.refrence=22 ohm')
    expect(await read(note)).toContain('there is no such class of amplifier')
    await page.goto(site.url('divider/?choice.reference=22+ohm'))
    await live(page)
    await soon(() => read(answer(page))).toMatch(/^fails/)
    expect(await note.count()).toBe(0)
  })

  it('follows a link to another choice of its own, and the way back and forth', async () => {
    await page.goto(site.url('mosfet/'))
    await live(page)
    const frequency = () => field(page, 'choice.pwm.frequency').inputValue()
    const first = await frequency()
    const link = page.getByRole('link', { name: 'Put the last line into the form' })
    await link.click()
    await soon(frequency).toBe('4 kHz')
    await soon(() => read(answer(page))).toMatch(/^fails/)
    // Another link of the same page, from its text as from elsewhere.
    await link.evaluate((it) => it.setAttribute('href', '?choice.pwm.frequency=2+kHz'))
    await link.click()
    await soon(frequency).toBe('2 kHz')
    await page.goBack()
    await soon(frequency).toBe('4 kHz')
    await page.goBack()
    await soon(frequency).toBe(first)
    await soon(() => read(answer(page))).toMatch(/^holds/)
    await page.goForward()
    await soon(frequency).toBe('4 kHz')
  })
})
