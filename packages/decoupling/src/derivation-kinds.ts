import type { DerivationStep } from '@ohmward/budget'
import { type Board, factorsOf } from './board.js'
import type { ReadDecoupling } from './choice.js'
import * as f from './formulas/index.js'

type Values = Readonly<Record<string, number>>

/** What is left of each kind of capacitor, and of all together: symbols with the number of the kind. */
export function kindSteps(read: ReadDecoupling, board: Board, given: Values, rest: number): DerivationStep[] {
  const years = given['Y_age'] ?? 0
  const worn = read.age.to > 0 ? years / read.age.to : 0
  const steps = read.capacitors.flatMap((part, k) => {
    const factors = factorsOf(part, rest, board.ambientCelsius, years, worn)
    const all: Values = { ...factors, n_C: part.count, C_r: given[`C_r${k + 1}`]!, ESR_r: given[`ESR_r${k + 1}`]! }
    return [f.effectiveCapacitance, f.effectiveSeriesResistance].map((formula): DerivationStep => {
      const { quantity, unit, expression, source } = formula
      const inputs = Object.fromEntries(Object.keys(formula.inputs).map((name) => [name, all[name]!]))
      const value = (formula as (x: Values) => number)(inputs)
      const symbol = `${formula.symbol}_${k + 1}`
      return { symbol, quantity: `${quantity} of ${part.name}`, unit, expression, inputs, value, source }
    })
  })
  for (const { symbol, quantity, unit, source } of [f.capacitanceOfTwo, f.seriesResistanceOfTwo]) {
    const own = steps.filter((one) => one.symbol.startsWith(`${symbol}_`))
    const inputs = Object.fromEntries(own.map((one) => [one.symbol, one.value]))
    const names = Object.keys(inputs)
    const isSum = symbol === 'C'
    const value = isSum
      ? own.reduce((sum, one) => sum + one.value, 0)
      : 1 / own.reduce((sum, one) => sum + 1 / one.value, 0)
    const expression = isSum ? names.join(' + ') : `1 / (${names.map((name) => `1 / ${name}`).join(' + ')})`
    steps.push({ symbol, quantity: quantity.replace('both', 'all'), unit, expression, inputs, value, source })
  }
  return steps
}
