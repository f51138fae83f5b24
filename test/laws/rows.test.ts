import { readFileSync } from 'node:fs'
import { type Block, type BlockRow, holdRow } from '@ohmward/budget'
import { decoupling } from '@ohmward/decoupling'
import { divider } from '@ohmward/divider'
import { hall } from '@ohmward/hall'
import { mosfet } from '@ohmward/mosfet'
import { describe, expect, it, vi } from 'vitest'
import { choiceOfToday } from '../frozen/earlier.js'
import type { Case } from '../tools/frozen.js'

vi.setConfig({ testTimeout: 120_000 })

/*
 * What stands behind a row is derived from the formulas: of a row that names symbols, every other input stays nominal. A
 * formula that is missing on the way would leave a part out, and the worst case with it. So every such row is held a
 * second time with the symbols hidden in functions, by which all inputs move.
 */

const blocks: Readonly<Record<string, Block<any, any, any, any>>> = { divider, hall, mosfet, decoupling }
const cases = (name: string): Case[] => {
  const all = JSON.parse(readFileSync(new URL(`../frozen/${name}.json`, import.meta.url), 'utf8')) as Case[]
  return name === 'decoupling' ? all.map((one) => ({ ...one, choice: choiceOfToday(one.choice) })) : all
}

/** The same row, of which nobody can tell what it reads. */
function opaque(row: BlockRow): BlockRow | undefined {
  if (row.kind !== 'limit' || typeof row.value !== 'string' || typeof row.limit === 'function') return undefined
  const { value, limit } = row
  return {
    ...row,
    value: (y) => y[value]!,
    limit: typeof limit === 'string' ? (y) => y[limit]! : limit,
  }
}

describe.each(Object.keys(blocks))('every row of %s', (name) => {
  const block = blocks[name]!
  let seen = 0

  it.each(cases(name).filter((_, i) => i % 3 === 0))(
    'has behind it what its formulas say: $name',
    ({ choice, conditions }) => {
      for (const row of block.setup(block.read(choice, conditions)).rows) {
        const whole = opaque(row)
        if (whole === undefined) continue
        seen++
        const [narrow, wide] = [holdRow(row).margin, holdRow(whole).margin]
        const scale = Math.max(Math.abs(wide.limit), Math.abs(wide.worst), 1e-12)
        expect(Math.abs(narrow.slack - wide.slack) / scale, row.id).toBeLessThan(1e-6)
        expect(Math.abs(narrow.worst - wide.worst) / scale, row.id).toBeLessThan(1e-6)
      }
    },
  )

  it('was looked at', () => {
    // The rail's rows are held by findings of their own, which no symbol names.
    if (name !== 'decoupling') expect(seen).toBeGreaterThanOrEqual(20)
  })
})
