import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/** What axe finds on a page against WCAG 2.2 AA and its own best practices, one line for each place. */
export async function axeFindings(page: Page): Promise<string[]> {
  await page.evaluate(source)
  const violations = await page.evaluate(async () => {
    const { axe } = globalThis as unknown as { axe: { run: () => Promise<{ violations: any[]; passes: any[] }> } }
    const { violations, passes } = await axe.run()
    if (passes.length === 0) throw new Error('axe looked at nothing')
    return violations
  })
  return violations.flatMap((violation) =>
    violation.nodes.map((node: any) => `${violation.id} at ${node.target.join(' ')}: ${node.failureSummary}`),
  )
}
