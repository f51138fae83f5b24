import type { AnyFormula } from '@ohmward/budget'
import { all, create } from 'mathjs'
import { describe, expect, it } from 'vitest'
import * as adc from '../src/formulas/index.js'

const math = create(all!, {})
/** A power of two is bare arithmetic beside them, with no symbol of its own. */
const formulas = Object.values(adc).filter((x) => typeof x === 'function' && 'expression' in x) as AnyFormula[]

/** A small generator of its own, so that the drawn inputs never change. */
function draws(seed: number): () => number {
  let state = seed
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2 ** 32
  }
}

describe('each formula of the package', () => {
  it('is here', () => {
    expect(formulas.length).toBeGreaterThan(40)
    const symbols = formulas.map((f) => f.symbol)
    const twice = symbols.filter((symbol, i) => symbols.indexOf(symbol) < i)
    // The reference has three ways: as its data sheet states it, at the board's temperature, or the rail.
    expect(twice).toEqual(['V_ref', 'V_ref'])
  })

  it.each(formulas.map((f) => [f.quantity, f] as const))('%s: text and code agree, and the unit comes out', (_, f) => {
    const draw = draws(7)
    const node = math.parse(f.expression).compile()
    const symbols = Object.entries(f.inputs)
    for (let n = 0; n < 300; n++) {
      const x: Record<string, number> = {}
      for (const [key, [, from, to]] of symbols) x[key] = from + (to - from) * draw()
      const value = f(x)
      const text = node.evaluate({ ...x }) as number
      expect(Math.abs(text - value), JSON.stringify(x)).toBeLessThanOrEqual(1e-9 * Math.abs(value))
      if (n > 0) continue
      const units = Object.fromEntries(symbols.map(([k, [u]]) => [k, u === '1' ? x[k] : math.unit(x[k]!, u)]))
      const out = node.evaluate(units)
      expect(f.unit === '1' ? out : out.toNumber(f.unit)).toBeCloseTo(value, 9)
    }
  })
})
