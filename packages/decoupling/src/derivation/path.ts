import type { DerivationStep } from '@ohmward/budget'
import { warmResistance } from '@ohmward/supply/formulas'
import type { ElementPlace } from '../chain/path.js'
import type { ReadSource } from '../choice/choice.js'
import { elementSymbol } from '../choice/inputs.js'

/** Each element of the path at its temperature, by its name, and all of them in series. */
export function pathSteps({ path }: ReadSource, places: readonly ElementPlace[]): DerivationStep[] {
  if (path.length === 0) return []
  const { quantity, unit, expression, source } = warmResistance
  const parts: Record<string, number> = {}
  const steps = path.flatMap(({ name, resistance }, k): DerivationStep[] => {
    const { R_20, alpha_el, dT_el, R_el: value } = places[k]!
    if (resistance.upper === 0) return []
    const isWarmed = alpha_el !== 0 && dT_el !== 0
    const symbol = isWarmed ? `R_el${k + 1}` : elementSymbol(k)
    parts[symbol] = value
    if (!isWarmed) return []
    return [
      { symbol, quantity: `${quantity}: ${name}`, unit, expression, inputs: { R_20, alpha_el, dT_el }, value, source },
    ]
  })
  const value = Object.values(parts).reduce((sum, one) => sum + one, 0)
  const sum: DerivationStep = {
    symbol: 'R_path',
    quantity: 'resistance of the power path',
    unit,
    expression: Object.keys(parts).join(' + ') || '0',
    inputs: parts,
    value,
    source: 'resistances in series',
  }
  return [...steps, sum]
}
