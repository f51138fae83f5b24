import { readFileSync } from 'node:fs'
import type { CheckOptions } from '@ohmward/budget'
import { checkDivider, dividerOverRail } from '@ohmward/divider'
import { InputError } from '@ohmward/quantity'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { demoOf, fieldsOf, nameOf } from '../../docs/.vitepress/theme/block.js'
import { text, worstText } from '../../docs/.vitepress/theme/numbers.js'
import { form } from '../../docs/divider/form.js'
import { load } from '../tools/load.mjs'
import { openSite, type Site, type Watched } from '../tools/site.js'
import { answer, choiceWith, field, live, margin, read, sentence, settled, soon } from './worked-page.js'

let site: Site
let watched: Watched
let page: Page

const bipolar = form.groups.find(({ id }) => id === 'amplifier')!.preset!.choices['bipolar single supply']!
const check = (changes = {}, options?: CheckOptions) => {
  const { choice, conditions } = choiceWith(form, changes)
  return checkDivider(choice, conditions, options)
}
const open = async (query = '') => {
  await page.goto(site.url(`divider/${query}`))
  await live(page)
}
const demo = demoOf(form)
const unreadable = [
  ['choice.reference', '47 ohmm'],
  ['choice.reference', 'NaN'],
  ['choice.reference', 'Infinity'],
  ['choice.reference', '-47 ohm'],
  ['choice.reference', '0'],
  ['choice.reference', '47 48'],
  ['choice.reference', '47 ohm ±120 %'],
  ['choice.reference', ''],
  ['choice.converter.bits', '0'],
  ['choice.converter.bits', '3.5'],
  ['choice.converter.bits', '64'],
  ['choice.amplifier.offsetVoltage', ''],
  ['conditions.rail.from', '0 V'],
  ['conditions.rail.from', '5 V'],
  ['choice.load.from', '2 ohm'],
  ['choice.error', 'much'],
  ['choice.error', ''],
  ['choice.excitation', 'rails'],
] as const

const labelOf = (id: string) => nameOf(fieldsOf(form).find((field) => field.id === id)!)

/** What the page says of a choice with one field changed: the label, and the library's words without the value. */
function refusalOf(id: string, typed: string): string {
  try {
    check({ [id]: typed }, { simulation: false })
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    if (error.hint.startsWith('Missing: ')) return `${labelOf(id)}: a value is needed`
    return `${labelOf(id)} | ${error.message.replace(/^.*?: (?=allowed)/, '')}`
  }
  throw new Error(`the library takes ${typed} as ${id}`)
}

/** What the page shows of a field and of its last answer. */
const stateOf = (id: string) =>
  page.evaluate((id) => {
    const [input, problem] = [`field-${id}`, `field-${id}-problem`].map((it) => document.getElementById(it))
    const spaced = (text?: string | null) => text?.replace(/[\s\u00a0]+/g, ' ').trim()
    return {
      problem: spaced(problem?.textContent)?.replace(/ = .*?: (?=allowed)/, ' | '),
      role: problem?.role,
      invalid: input?.getAttribute('aria-invalid'),
      described: input?.getAttribute('aria-describedby'),
      old: document.querySelectorAll('.results.old > .stale').length,
      strip: document.querySelector('.strip .stale')?.checkVisibility(),
      answer: spaced(document.querySelector('.answer')?.textContent),
    }
  }, id)

/** Opens every fold of the form. */
const unfold = () =>
  page.evaluate(() => {
    for (const fold of document.querySelectorAll<HTMLDetailsElement>('form.choice details')) fold.open = true
  })
const amplifier = () => page.getByLabel('class of amplifier')
const code = (title: string) => page.getByRole('group', { name: title, includeHidden: true }).textContent()

beforeAll(async () => {
  site = await openSite()
  watched = await site.newPage()
  page = watched.page
})
beforeEach(() => open())
afterAll(() => site?.close())

describe('the page of the low-ohm measurement', () => {
  it('says, without any script, all that it says with one, and both say what the package says', async () => {
    // biome-ignore lint/performance/useDomNodeTextContent: only what a reader sees counts
    const withScript = (await page.innerText('main')).replace(/\s+/g, ' ')
    const still = await site.newPage({ javaScriptEnabled: false })
    await still.page.goto(site.url('divider/'))
    const { summary, margins, budgets } = check()
    expect(sentence(await read(answer(still.page)))).toBe(sentence(summary))
    for (const { id, name, limit, unit, ...rest } of margins) {
      const row = await still.page.locator(`[id="margin-${id}"] :is(th, td)`).allTextContents()
      expect(row[0], id).toContain(name)
      expect(row[3], id).toContain(text(limit, unit, 3))
      expect(row[4], id).toBe(worstText({ unit, ...rest }))
    }
    const { expanded } = budgets.R_ind.linear
    expect(await read(still.page.locator('main'))).toContain(
      `of boards ±${text(expanded, 'ohm', 3)}`.replace('\u00a0', ' '),
    )
    expect(await still.page.locator('.steps .equation').count()).toBeGreaterThan(10)
    // biome-ignore lint/performance/useDomNodeTextContent: only what a reader sees counts
    const without = (await still.page.innerText('main')).replace(/\s+/g, ' ')
    const difference = (a: string, b: string) => a.split(' ').filter((word) => !b.split(' ').includes(word))
    expect(difference(withScript.replace(/ A link that carries.*$/, ''), without)).toEqual([])
    await still.close()
  })

  it('the precise amplifier saturates, one from rail to rail holds; another shows at which rail it saturates', async () => {
    expect(await read(answer(page))).toMatch(/^fails/)
    expect(await read(margin(page, 'headroom'))).toMatch(/fails/)
    await amplifier().selectOption('zero drift')
    await soon(() => read(answer(page))).toMatch(/^holds/)
    expect(await read(margin(page, 'headroom'))).toMatch(/holds/)
    await amplifier().selectOption('bipolar single supply')
    await soon(() => read(answer(page))).toMatch(/^fails/)
    await settled(page)
    expect(sentence(await read(answer(page)))).toBe(sentence(check(bipolar).summary))
    expect(await read(margin(page, 'headroom'))).toMatch(/fails/)
    const { choice, conditions } = choiceWith(form, bipolar)
    const { saturatesBelow } = dividerOverRail(choice, conditions)
    const { name } = check(bipolar, { simulation: false }).margins.find(({ id }) => id === 'headroom')!
    const plot = page.locator('figure.plot', { has: page.getByRole('img', { name: /against rail/ }) })
    await soon(() => read(plot.locator('figcaption'))).toContain(
      `worst case of the ${name} crosses zero at ${saturatesBelow!.toPrecision(3)} V`,
    )
    expect(await read(plot.locator('figcaption'))).toContain(
      `a: the worst case meets the limit, ${saturatesBelow!.toPrecision(3)} V`,
    )
    // Ohm's law and the data sheet's limits, all to the same side: the largest load, the smallest resistors above it, warm
    // or cold by 25 K, and the largest gain, which drifts the same way.
    const gain = 1 + ((22 * 1.001) / 0.999) * (1 + 25 * 1e-4)
    const sensed = 1.2 / (0.4 + 0.01 + 47 * 0.999 * (1 - 25 * 1e-4) + 1.2)
    // 65 dB: of the supply's distance from the 5 V of the sheet, and of the inputs' from the middle of them.
    const rejection = 10 ** (-65 / 20)
    // Bias and half of the offset current in 1 kohm against 22 parallel to 1 kohm, leakage of the clamp in the 1 kohm.
    const currents = 250e-9 * (1000 - 957) + 25e-9 * (1000 + 957) + 10e-9 * 1000
    // Three times the noise of 60 nV over the bandwidth of a loop twice as fast as the least; 5 uV/K of 2 K in the junctions.
    const noise = 3 * 60e-9 * Math.sqrt((Math.PI / 2) * ((2 * 0.7e6) / 23))
    const shifts = 7e-3 + 25 * 10e-6 + currents + noise
    let V = 4
    for (let turn = 0; turn < 60; turn++) {
      const V_in = V * sensed + 10e-6
      V = 1.5 + gain * (V_in + shifts + (5 - V + 2.5 - V_in) * rejection)
    }
    // Of the terms the smallest, the noise, is worth 3 mV of the rail; self-heating of the reference resistor less than 1 mV.
    expect(Math.abs(saturatesBelow! - V)).toBeLessThan(1.5e-3)
  })

  it('says beside a field, in the library’s words, why it can’t be read; keeps the last answer as old; recovers', async () => {
    await unfold()
    await settled(page)
    const before = await read(answer(page))
    const results = await page.locator('.results').count()
    expect(results).toBeGreaterThan(4)
    for (const [id, typed] of unreadable) {
      await field(page, id).fill(typed)
      await soon(() => stateOf(id), `${id} = "${typed}"`).toEqual({
        problem: refusalOf(id, typed),
        role: 'alert',
        invalid: 'true',
        described: `field-${id}-problem`,
        old: results,
        strip: true,
        answer: before,
      })
      await field(page, id).fill(demo[id]!)
      // Not for the simulation, the sweep and the changes: those are waited for once.
      await soon(() => page.locator('.problem').count()).toBe(0)
    }
    await settled(page)
    await soon(() => page.locator('.old, .stale').count()).toBe(0)
    await field(page, 'choice.reference').fill('22 ohm ±0.1 %')
    await settled(page)
    expect(sentence(await read(answer(page)))).toBe(sentence(check({ 'choice.reference': '22 ohm ±0.1 %' }).summary))
  })

  it('arrow keys step along the E24 series and keep the tolerance', async () => {
    // IEC 60063, table of E24: 43, 47, 51, 56.
    const reference = field(page, 'choice.reference')
    const before = await read(answer(page))
    await reference.focus()
    await page.keyboard.press('ArrowUp')
    expect(await reference.inputValue()).toBe('51 ohm ±0.1 %')
    await page.keyboard.press('ArrowUp')
    expect(await reference.inputValue()).toBe('56 ohm ±0.1 %')
    await soon(() => read(answer(page))).not.toBe(before)
    await settled(page)
    const { summary } = check({ 'choice.reference': '56 ohm ±0.1 %' })
    expect(sentence(await read(answer(page)))).toBe(sentence(summary))
    for (const value of [51, 47, 43]) {
      await page.keyboard.press('ArrowDown')
      expect(await reference.inputValue()).toBe(`${value} ohm ±0.1 %`)
    }
  })

  it('a link carries the whole choice to another reader', async () => {
    await amplifier().selectOption('CMOS rail to rail')
    await field(page, 'choice.reference').fill('22R ±0.5 %')
    await field(page, 'choice.topology').selectOption('load at rail')
    await field(page, 'choice.calibration.kind').selectOption('zero and span')
    await field(page, 'choice.calibration.resistor').fill('0.82 ohm ±0.05 %')
    await field(page, 'conditions.ambientCelsius.from').fill('-10 degC')
    await soon(() => page.locator('.link').textContent()).toContain('-10')
    await settled(page)
    const values = () =>
      page.evaluate(() =>
        [...document.querySelectorAll<HTMLInputElement | HTMLSelectElement>('form.choice :is(input, select)')].map(
          ({ id, value }) => [id, value],
        ),
      )
    const shown = async () => [
      await read(answer(page)),
      await read(page.locator('.margins')),
      await code('Your parts as JSON'),
    ]
    const [sent, saw] = [await values(), await shown()]
    expect(saw[0]).not.toMatch(/^holds: tightest is error at the smallest load, with 3.2/)
    const link = (await page.locator('.link').getAttribute('href'))!
    await soon(() => page.url()).toBe(new URL(link).href)
    const theirs = await site.newPage()
    const mine = page
    try {
      page = theirs.page
      await page.goto(link)
      await live(page)
      await soon(() => read(answer(page))).toBe(saw[0])
      await settled(page)
      expect(await values()).toEqual(sent)
      expect(await shown()).toEqual(saw)
    } finally {
      page = mine
      await theirs.close()
    }
  })

  it('a check that comes later than the simulation does not take its place', async () => {
    const theirs = await site.newPage()
    // Of the page's two workers the first checks and the second simulates; here nothing is heard of the first at once.
    await theirs.page.addInitScript(() => {
      const held: (() => void)[] = []
      let isFirst = true
      class Late extends Worker {
        readonly #isHeld = isFirst
        override set onmessage(hear: (event: MessageEvent) => void) {
          super.onmessage = this.#isHeld ? (event) => held.push(() => hear(event)) : hear
          isFirst = false
        }
      }
      Object.assign(globalThis, { Worker: Late, held })
    })
    const held = (hear = false) =>
      theirs.page.evaluate((hear) => {
        const { held } = globalThis as unknown as { held: (() => void)[] }
        if (hear) for (const it of held) it()
        return held.length
      }, hear)
    try {
      await theirs.page.goto(site.url('divider/?choice.reference=22+ohm'))
      await live(theirs.page)
      await settled(theirs.page)
      await soon(held).toBe(1)
      const budget = theirs.page.locator('figcaption', { hasText: 'the more boards' })
      expect(await read(budget)).toMatch(/^Linear propagation (agrees|differs)/)
      await held(true)
      expect(await read(budget)).toMatch(/^Linear propagation (agrees|differs)/)
      expect(await theirs.page.locator('.results[aria-busy]').count()).toBe(0)
    } finally {
      await theirs.close()
    }
  })

  it('what is typed before an answer is there leaves nothing waiting, and no fault of an older text', async () => {
    /** Types texts into a field, each before the page could simulate the one before. */
    const type = (id: string, texts: readonly string[]) =>
      field(page, id).evaluate(async (input: HTMLInputElement, texts) => {
        for (const text of texts) {
          input.value = text
          input.dispatchEvent(new Event('input', { bubbles: true }))
          await null // The page takes notice.
        }
      }, texts)
    const [reference, rail] = ['choice.reference', 'conditions.rail.from']
    await type(reference, ['22 ohm ±0.1 %', '22 ohmm'])
    await settled(page)
    const { summary } = check({ [reference]: '22 ohm ±0.1 %' })
    expect(sentence(await read(answer(page)))).toBe(sentence(summary))
    expect(await stateOf(reference)).toMatchObject({ problem: refusalOf(reference, '22 ohmm'), strip: true })
    await field(page, reference).fill(demo[reference]!)
    await type(rail, ['5 V', '5 Vx'])
    await settled(page)
    expect(await stateOf(rail)).toMatchObject({ problem: refusalOf(rail, '5 Vx'), strip: true })
  })

  it('the code sample runs against the packages and gives the page’s numbers', async () => {
    await amplifier().selectOption('bipolar single supply')
    await soon(() => read(answer(page))).toMatch(/^fails/)
    await settled(page)
    const sample = (await code('The same call, in TypeScript'))!
    expect(sample).toContain("import { checkDivider } from '@ohmward/divider'")
    const said = vi.spyOn(console, 'log').mockImplementation(() => {})
    const { assessment } = await load(`${sample}\nexport { assessment }`)
    const lines = said.mock.calls.map(([line]) => String(line))
    said.mockRestore()
    expect(lines[0]).toBe('fails')
    expect(sentence(await read(answer(page)))).toBe(sentence(lines[1]!))
    const { margins } = assessment as ReturnType<typeof checkDivider>
    expect(await page.locator('tr[id^="margin-"]').count()).toBe(margins.length)
    for (const one of margins) {
      expect(await margin(page, one.id).locator('[data-label=Worst]').textContent(), one.id).toBe(worstText(one))
    }
  })

  it('JSON is the choice and CSV the budget, as shown and as saved', async () => {
    await field(page, 'choice.reference').fill('22 ohm ±1 %')
    await soon(() => code('Your parts as JSON')).toContain('22 ohm ±1 %')
    await settled(page)
    const { choice, conditions } = JSON.parse((await code('Your parts as JSON'))!)
    const { summary, budgets } = checkDivider(choice, conditions)
    expect(sentence(await read(answer(page)))).toBe(sentence(summary))

    await page.getByText('The budget as CSV').click()
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'Save as divider-budget.csv' }).click(),
    ])
    const csv = readFileSync(await download.path(), 'utf8')
    expect(csv).toBe(await code('The budget as CSV'))
    const [head = [], ...rows] = csv
      .trimEnd()
      .split('\n')
      .map((line) => line.split(','))
    expect(head).toContain('contribution to R_ind in ohm')
    const { linear } = budgets.R_ind
    expect(rows.map(([input]) => input)).toEqual(linear.contributions.map(({ input }) => input))
    const column = (name: string) =>
      rows.map((row) => Number(row[head.findIndex((it) => it.replace(/ .*/, '') === name)]))
    // JCGM 100:2008, 5.1.2: u² is the sum of the squares of sensitivity times input uncertainty.
    const [u, sensitivity, contribution] = ['u', 'sensitivity', 'contribution'].map(column) as [
      number[],
      number[],
      number[],
    ]
    expect(u.length).toBeGreaterThan(10)
    for (const [i, own] of u.entries())
      expect(Math.abs(sensitivity[i]! * own)).toBeCloseTo(Math.abs(contribution[i]!), 12)
    expect(Math.hypot(...contribution)).toBeCloseTo(linear.u, 9)
    expect(column('share').reduce((a, b) => a + b)).toBeCloseTo(1, 9)
    const first = rows.find(([input]) => input === 'R_ref')!
    expect(first.slice(1, 5).map(Number)).toEqual([22, 22, 21.78, 22.22])
  })

  it('all of it can be done by keyboard alone', async () => {
    // Each control notes that it was reached, and whether that can be seen.
    const controls = await page.evaluate(() => {
      for (const fold of document.querySelectorAll('details')) fold.open = true
      const all = [
        ...document.querySelectorAll<HTMLElement>('a[href], button, input, select, textarea, summary, [tabindex="0"]'),
      ].filter((it) => it.checkVisibility() && !(it as HTMLButtonElement).disabled)
      document.addEventListener('focusin', ({ target }) => {
        const it = target as HTMLElement
        const isMarked =
          getComputedStyle(it).outlineStyle !== 'none' ||
          getComputedStyle(it.querySelector('.reach') ?? it).stroke !== 'none'
        it.dataset['reached'] = isMarked ? 'visibly' : 'unseen'
      })
      return all.map(({ id, localName, parentElement }) => ({
        id,
        localName,
        isFold: parentElement?.localName === 'details',
      }))
    })
    expect(controls.length).toBeGreaterThan(100)
    const place = controls.findIndex(({ id }) => id === 'class-amplifier')
    const fold = page.locator('fieldset', { has: amplifier() }).locator('details')
    await fold.evaluate((it: HTMLDetailsElement) => (it.open = false))
    const tab = async (times: number) => {
      for (let i = 0; i < times; i++) await page.keyboard.press('Tab')
    }
    await tab(place + 1)
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('class-amplifier')
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowDown')
    expect(await amplifier().inputValue()).toBe('bipolar single supply')
    // Past the name of a part to keep, and the button that tries all.
    await tab(3)
    await page.keyboard.press('Enter')
    expect(await fold.getAttribute('open')).not.toBeNull()
    await soon(() => read(answer(page))).toMatch(/^fails/)
    await settled(page)
    // The other answer may have more or fewer controls, the last of them with its changes: on to the page's end.
    await soon(() => page.locator('.stale').count()).toBe(0)
    await tab((await page.locator('summary, a, input, select, button, [tabindex="0"]').count()) - place)
    const missed = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('a[href], button, input, select, textarea, summary, [tabindex="0"]')]
        .filter(
          (it) => it.checkVisibility() && !(it as HTMLButtonElement).disabled && it.dataset['reached'] !== 'visibly',
        )
        .map(
          (it) => `${it.localName} ${it.id} ${it.textContent.slice(0, 40)} ${it.dataset['reached'] ?? 'not reached'}`,
        ),
    )
    expect(missed).toEqual([])
  })

  it('does all that without an error and without a request to another host', () => {
    expect(watched.problems).toEqual([])
  })
})
