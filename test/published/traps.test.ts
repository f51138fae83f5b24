/// <reference types="vite/client" />
import { describe, expect, it } from 'vitest'
import { isWithin, rounded, type TrapResult, type TrapRow } from './check.js'
import { compareWithCommitted } from './results.js'

const files = import.meta.glob<{ rows: TrapRow[] }>('./traps/*.ts', { eager: true })
const rows = Object.values(files).flatMap((file) => file.rows)

const resultOf = ({ trap, statement, printed, tolerance, unit, independent, library }: TrapRow): TrapResult => ({
  trap,
  statement,
  printed,
  tolerance,
  unit,
  independent: rounded(independent()),
  library: library === undefined ? null : rounded(library()),
})

describe('arithmetic of the pitfalls', () => {
  it('is there, and some of it runs through a package', () => {
    expect(rows.length).toBeGreaterThan(0)
    expect(rows.filter((row) => row.library !== undefined).length).toBeGreaterThan(0)
    const statements = rows.map((row) => `${row.trap} ${row.statement} ${row.printed} ${row.unit}`)
    expect(statements.filter((statement, i) => statements.indexOf(statement) !== i)).toEqual([])
  })

  it.each(rows.map((row) => [`${row.trap} ${row.statement}`, row] as const))('%s', (_, row) => {
    expect(row.trap).toMatch(/^[A-Z]\d\d$/)
    expect(row.statement.trim()).not.toBe('')
    expect(row.tolerance).toBeGreaterThanOrEqual(0)
    for (const [route, compute] of [
      ['independent', row.independent],
      ['library', row.library],
    ] as const) {
      if (compute === undefined) continue
      const value = compute()
      const text = `${route} ${value}, stated ${row.printed} ± ${row.tolerance} ${row.unit}`
      expect(isWithin(value, row.printed, row.tolerance), text).toBe(true)
    }
  })

  it('is that of the committed results', () => {
    compareWithCommitted('traps', rows.map(resultOf))
  })
})
