/// <reference types="vite/client" />
import type { AnyFormula } from '@ohmward/budget'
import { describe, expect, it } from 'vitest'
import { math } from '../tools/prove/math.js'
import { formulasOf } from '../tools/prove/prove.js'
import { slipsOf } from '../tools/prove/slips.js'
import type { ByHand } from './by-hand.js'
import { rounded } from './check.js'
import { compareWithCommitted } from './results.js'

/*
 * Every exported formula at a case that is stated, against arithmetic of plain numbers that stands beside it, done by a
 * library of general mathematics. Six digits are written; constants of the arithmetic may be rounded to as many.
 */

const sources = import.meta.glob<Record<string, unknown>>('../../packages/*/src/formulas/index.ts', { eager: true })
const files = import.meta.glob<{ cases: ByHand[] }>('./by-hand/*.ts', { eager: true })
const cases = Object.values(files).flatMap((file) => file.cases)

/** Every formula once, with the package that it is of and the name under which that exports it. */
const formulas = new Map<AnyFormula, { package: string; name: string }>()
for (const [path, module] of Object.entries(sources)) {
  const names = new Map(Object.entries(module).map(([name, value]) => [value, name]))
  for (const f of formulasOf(module)) {
    if (!formulas.has(f)) formulas.set(f, { package: path.split('/')[3]!, name: names.get(f) ?? f.symbol })
  }
}
const nameOf = (f: AnyFormula) => `${formulas.get(f)?.package}/${formulas.get(f)?.name}`

/** Slips after which an expression is still the same. */
const changesNothing = new Set([
  // Below one the logarithm counts for nothing: the sign behind it is 0 then.
  'max(V_cpl / max(V_thair, V_min), 1) as V_cpl / max(V_thair, V_min)',
])

const near = (a: number, b: number) => Math.abs(a - b) <= 1e-5 * Math.abs(b)

/** The arithmetic of a case without its words, its value and the value that is written. */
function read({ arithmetic }: ByHand) {
  const [, left = '', right] = /^(?:.*: )?(.+) = (\S+)$/.exec(arithmetic) ?? []
  return { left, value: Number(math.evaluate(left)), written: Number(right) }
}

describe('by hand', () => {
  it('stands every exported formula', () => {
    const held = new Set(cases.map(({ formula }) => formula))
    expect(formulas.size).toBeGreaterThan(500)
    const bare = [...formulas.keys()].filter((f) => !held.has(f)).map(nameOf)
    expect(bare, 'add byHand(f.NAME, …) to test/published/by-hand/PACKAGE.ts for each').toEqual([])
    expect(cases.filter(({ formula }) => !formulas.has(formula)).map(({ arithmetic }) => arithmetic)).toEqual([])
  })

  it.each(cases.map((one) => [`${nameOf(one.formula)}: ${one.arithmetic}`, one] as const))('%s', (_, one) => {
    const { value, written } = read(one)
    expect(near(written, value), `written ${written}, the arithmetic gives ${value}`).toBe(true)
    const computed = one.formula(one.at)
    expect(near(computed, value), `computed ${computed}, by hand ${value}`).toBe(true)
  })

  it('states its arithmetic, unless a value is taken as it is', () => {
    const isTaken = ({ formula }: ByHand) => Object.hasOwn(formula.inputs, formula.expression)
    const bare = cases.filter(
      (one) => !isTaken(one) && !/\S ?[-+*/^] ?\S|\(/.test(read(one).left.replace(/^-|e-/g, '')),
    )
    expect(bare.map(({ formula, arithmetic }) => `${nameOf(formula)}: ${arithmetic}`)).toEqual([])
  })

  it('feels each input in one case or another', () => {
    const unfelt = [...formulas.keys()].flatMap((f) => {
      const own = cases.filter(({ formula }) => formula === f)
      if (own.length === 0) return []
      const isFelt = (symbol: string) =>
        own.some(({ at }) =>
          [0.5, 1.1, 2].some((k) => f({ ...at, [symbol]: at[symbol]! === 0 ? k : at[symbol]! * k }) !== f(at)),
        )
      return Object.keys(f.inputs).flatMap((symbol) => (isFelt(symbol) ? [] : [`${nameOf(f)}: ${symbol}`]))
    })
    expect(unfelt).toEqual([])
  })

  it('would see a sign, a term, a factor or a number that is wrong in one case or another', () => {
    const unseen = [...formulas.keys()].flatMap((f) => {
      const own = cases.filter(({ formula }) => formula === f)
      if (own.length === 0) return []
      return slipsOf(f.expression).flatMap(({ slip, evaluate }) =>
        own.some(({ at }) => !near(evaluate(at), f(at))) || changesNothing.has(slip) ? [] : [`${nameOf(f)}: ${slip}`],
      )
    })
    expect(unseen).toEqual([])
  })

  it('is counted by package in the committed results', () => {
    const packages = [...new Set([...formulas.values()].map((one) => one.package))]
    const rows = packages.map((name) => {
      const own = [...formulas].filter(([, one]) => one.package === name)
      const held = cases.filter(({ formula }) => formulas.get(formula)?.package === name)
      return {
        package: name,
        formulas: own.length,
        withValue: new Set(held.map(({ formula }) => formula)).size,
        values: held.map((one) => ({
          formula: formulas.get(one.formula)!.name,
          quantity: one.formula.quantity,
          unit: one.formula.unit,
          arithmetic: one.arithmetic,
          computed: rounded(one.formula(one.at), 6),
        })),
      }
    })
    compareWithCommitted('formulas', rows)
  })
})
