import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { demoOf, type Form } from '../../docs/.vitepress/theme/block.js'
import { classOf } from '../../docs/.vitepress/theme/link.js'
import { form as decoupling } from '../../docs/decoupling/form.js'
import { form as divider } from '../../docs/divider/form.js'
import { form as hall } from '../../docs/hall/form.js'
import { form as mosfet } from '../../docs/mosfet/form.js'
import { openSite, type Site, type Watched } from '../tools/site.js'

let site: Site
let watched: Watched
beforeAll(async () => {
  site = await openSite()
  watched = await site.newPage({ javaScriptEnabled: false })
})
afterAll(() => site?.close())

/** Yes and no, where the library takes true and false. */
const inWords = (word: string): string => ({ true: 'yes', false: 'no' })[word] ?? word

/** What the form's selects show where the demo stands in it, by their id. */
const shownBy = (form: Form): Record<string, string> => {
  const demo = demoOf(form)
  return Object.fromEntries(
    form.groups.flatMap((group) => [
      ...(group.preset ? [[`class-${group.id}`, classOf(group, demo) ?? 'your own values']] : []),
      ...group.fields.flatMap(({ id, words, otherwise = '' }) =>
        words
          ? [[`field-${id}`, inWords(demo[id]!) || (otherwise && `by default: ${inWords(otherwise)}`) || 'none']]
          : [],
      ),
    ]),
  )
}

describe.each([
  ['divider', divider],
  ['hall', hall],
  ['mosfet', mosfet],
  ['decoupling', decoupling],
] as const)('without script the page /%s/', (path, form) => {
  it('shows in every select what was computed', async () => {
    const { page } = watched
    await page.goto(site.url(`${path}/`))
    const selects = page.locator('main select')
    const shown = await selects.evaluateAll((all) =>
      (all as HTMLSelectElement[]).map((it) => [it.id, it.selectedOptions[0]?.text] as const),
    )
    const wanted = shownBy(form)
    expect(Object.keys(wanted).length).toBeGreaterThan(3)
    expect(Object.fromEntries(shown.filter(([id]) => wanted[id] !== undefined))).toEqual(
      Object.fromEntries(Object.entries(wanted).filter(([id]) => shown.some(([own]) => own === id))),
    )
    const curve = page.locator('figure.plot', { has: page.locator('select') })
    const [chosen] = await curve
      .locator('select')
      .evaluateAll((all) => (all as HTMLSelectElement[]).map((it) => it.selectedOptions[0]?.text))
    expect(await curve.locator('title').textContent()).toContain(`${chosen} against`)
  })
})
