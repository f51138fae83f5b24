import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/** Rules that look at colours; all others find the same in the light and in the dark. */
export const colourRules = ['color-contrast', 'link-in-text-block'] as const

/** Rules whose findings depend on how wide the window is, beside what a narrow one shows and hides. */
export const widthRules = ['target-size', 'scrollable-region-focusable'] as const

/**
 * Makes each typeset formula one text of the same words. Axe looks at their outside only, but walks through every letter
 * of them, on a page of formulas more than through all else. To be called when nothing else is wanted of the page.
 */
export const flattenFormulas = (page: Page): Promise<void> =>
  page.evaluate(() => {
    for (const formula of document.querySelectorAll('math')) {
      const text = document.createElementNS('http://www.w3.org/1998/Math/MathML', 'mtext')
      text.textContent = formula.textContent
      formula.replaceChildren(text)
    }
  })

/**
 * Leaves of each long table and list the first rows only, and fewer of the lists that follow several of the same kind:
 * they are made by the same lines of a template. To be called when nothing else is wanted of the page.
 */
export const thinOut = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const seen = new Map<string, number>()
    for (const one of document.querySelectorAll('main :is(tbody, ol, ul, dl)')) {
      const kind = `${one.localName}.${one.className}`
      const before = seen.get(kind) ?? 0
      seen.set(kind, before + 1)
      // An even number: of a term and what it means both, or neither.
      for (const row of [...one.children].slice(before < 5 ? 6 : 2)) row.remove()
    }
  })

/**
 * What axe finds on a page against WCAG 2.2 AA and its own best practices, one line for each place. Of typeset
 * formulas only the outside counts: thousands of letters in one ink, for which axe has no rule but that of contrast.
 *
 * @param rules - the rules to try, all of axe's usual ones by default
 */
export async function axeFindings(page: Page, rules?: readonly string[]): Promise<string[]> {
  if (await page.evaluate(() => !('axe' in globalThis))) await page.evaluate(source)
  const violations = await page.evaluate(async (rules) => {
    const { axe } = globalThis as unknown as {
      axe: { run: (where: object, options: object) => Promise<Record<string, any[]>> }
    }
    const tried = { resultTypes: ['violations'], ...(rules && { runOnly: { type: 'rule', values: rules } }) }
    const { violations = [], passes = [] } = await axe.run({ exclude: [['math']] }, tried)
    if (violations.length + passes.length === 0) throw new Error('axe looked at nothing')
    return violations
  }, rules)
  return violations.flatMap((violation) =>
    violation.nodes.map((node: any) => `${violation.id} at ${node.target.join(' ')}: ${node.failureSummary}`),
  )
}
