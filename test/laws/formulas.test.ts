/// <reference types="vite/client" />
import type { AnyFormula } from '@ohmward/budget'
import { describe, expect, it } from 'vitest'
import { faultsOf, formulasOf } from '../tools/prove/prove.js'
import { typeset } from '../tools/prove/typeset.js'

const modules = import.meta.glob<object>('../../packages/*/src/**/*.ts', { eager: true })

/** Every formula of every package once, wherever it is exported. */
const found = new Map<AnyFormula, string>()
for (const [path, module] of Object.entries(modules)) {
  const name = path.split('/')[3] ?? '?'
  for (const f of formulasOf(module)) if (!found.has(f)) found.set(f, name)
}
const formulas = [...found].map(([f, name]) => [`${name}: ${f.symbol} = ${f.expression}`, f] as const)

describe('every formula', () => {
  it('was found', () => {
    expect(formulas.length).toBeGreaterThan(20)
    expect(new Set(found.values()).size).toBeGreaterThanOrEqual(2)
  })

  it.each(formulas)('%s', (_, f) => {
    expect(faultsOf(f, typeset)).toEqual([])
  })

  it('keeps one unit for each symbol of its package', () => {
    const units = new Map<string, string>()
    const clashes: string[] = []
    for (const [f, name] of found) {
      const symbols = [[f.symbol, f.unit], ...Object.entries(f.inputs).map(([symbol, [unit]]) => [symbol, unit])]
      for (const [symbol, unit] of symbols as [string, string][]) {
        const key = `${name}: ${symbol}`
        const known = units.get(key) ?? unit
        if (known !== unit) clashes.push(`${key} is in ${known} and in ${unit}`)
        units.set(key, known)
      }
    }
    expect(units.size).toBeGreaterThan(20)
    expect(clashes).toEqual([])
  })
})
