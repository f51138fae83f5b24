/// <reference types="vite/client" />
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { difference, isWithin, type PublishedCheck, type PublishedResult, rounded } from './check.js'
import { compareWithCommitted } from './results.js'

const files = import.meta.glob<{ checks: PublishedCheck[] }>('./checks/*.ts', { eager: true })
const checks = Object.values(files).flatMap((file) => file.checks)

function resultOf({ compute, ...check }: PublishedCheck): PublishedResult {
  const computed = compute()
  return {
    id: check.id,
    package: check.package,
    source: check.source,
    fromMemory: check.fromMemory === true,
    quantity: check.quantity,
    unit: check.unit,
    printed: check.printed,
    tolerance: check.tolerance,
    computed: rounded(computed),
    difference: difference(computed, check.printed),
    remark: check.remark ?? '',
  }
}

describe('published values', () => {
  it('are at least twenty, each with its own id and its own statement', () => {
    expect(checks.length).toBeGreaterThanOrEqual(20)
    expect(repeated(checks.map((check) => check.id))).toEqual([])
    expect(repeated(checks.map((check) => [check.source, check.quantity, check.printed].join(' | ')))).toEqual([])
  })

  it.each(checks.map((check) => [check.id, check] as const))('%s', (_, check) => {
    for (const text of [check.id, check.source, check.quantity, check.unit]) expect(text.trim()).not.toBe('')
    const folder = fileURLToPath(new URL(`../../packages/${check.package}`, import.meta.url))
    expect(existsSync(folder), `package ${check.package}`).toBe(true)
    expect(Number.isFinite(check.printed)).toBe(true)
    expect(check.tolerance).toBeGreaterThanOrEqual(0)
    const computed = check.compute()
    const text = `computed ${computed}, printed ${check.printed} ± ${check.tolerance} (${check.source})`
    expect(isWithin(computed, check.printed, check.tolerance), text).toBe(true)
  })

  it('are those of the committed results', () => {
    compareWithCommitted('published', checks.map(resultOf))
  })
})

function repeated(names: readonly string[]): string[] {
  return names.filter((name, i) => names.indexOf(name) !== i)
}
