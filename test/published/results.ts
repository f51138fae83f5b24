import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect } from 'vitest'

/** Set by `pnpm results`: write the results files instead of comparing with them. */
export const isUpdate = process.env['OHMWARD_UPDATE'] === '1'

/**
 * Holds results against the committed file `test/results/NAME.json`, or writes it when updating. The file is data for
 * the site's page of checked values, so a change of it is reviewed like code.
 */
export function compareWithCommitted(name: string, results: readonly object[]): void {
  const path = fileURLToPath(new URL(`../results/${name}.json`, import.meta.url))
  if (isUpdate) {
    mkdirSync(dirname(path), { recursive: true })
    writeFileSync(path, `${JSON.stringify(results, null, 2)}\n`)
  }
  const committed: unknown = JSON.parse(readFileSync(path, 'utf8'))
  const message = `test/results/${name}.json differs: run this test with OHMWARD_UPDATE=1 and review the change`
  expect(JSON.parse(JSON.stringify(results)), message).toEqual(committed)
}
