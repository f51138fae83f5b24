import type { Locator, Page } from 'playwright-core'
import { expect } from 'vitest'
import { argumentsOf, demoOf, type Form, type Texts } from '../../docs/.vitepress/theme/block.js'

/** The text of an element, its spaces made one. */
export const read = async (of: Locator): Promise<string> =>
  ((await of.textContent()) ?? '').replace(/[\s\u00a0]+/g, ' ').trim()

/** What becomes so when the worker has answered. */
export const soon = <T>(what: () => T | Promise<T>, message?: string) =>
  expect.poll(what, { timeout: 30_000, interval: 25, ...(message !== undefined && { message }) })

export const field = (page: Page, id: string): Locator => page.locator(`[id="field-${id}"]`)
export const answer = (page: Page): Locator => page.locator('.answer').first()
export const margin = (page: Page, id: string): Locator => page.locator(`[id="margin-${id}"]`)

/** Waits until the fields take input; a choice of files can't be `readonly`, and says nothing. */
export const live = (page: Page) =>
  page.waitForFunction(() => document.querySelector('form.choice input:not([readonly], [type="file"])') !== null)

/** Waits until the simulation has answered too. */
export const settled = (page: Page) => soon(() => page.locator('.results[aria-busy]').count()).toBe(0)

/** A summary without regard to what the page sets otherwise: the verdict's letters and the spaces around it. */
export const sentence = (summary: string): string =>
  summary.replaceAll('\u00a0', ' ').replace(/^(\w[\w ]*): ?/, (_, verdict: string) => `${verdict.toLowerCase()}: `)

/** The call's arguments for a form's demo with some of its fields changed. */
export const choiceWith = (form: Pick<Form, 'groups'>, changes: Texts = {}): { choice: never; conditions: never } =>
  argumentsOf(form, { ...demoOf(form), ...changes }) as { choice: never; conditions: never }
