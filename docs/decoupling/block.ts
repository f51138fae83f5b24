import type { AnyFormula } from '@ohmward/budget'
import { checkDecoupling, decoupling, decouplingChanges, railLimitMargins } from '@ohmward/decoupling'
import * as library from '@ohmward/decoupling/formulas'
import { exampleSupply } from '@ohmward/supply'
import type { Block } from '../.vitepress/theme/block.ts'
import { statedBy } from '../.vitepress/theme/form/symbols.ts'
import { evenly, sweepOver } from '../.vitepress/theme/sweep.ts'
import { form } from './form.ts'
import { size } from './sizing.ts'

const stated = statedBy(form)

/** The symbols of the two kinds of capacitor, with the number that the library gives each. */
const kinds = [
  ['C_r', 'F', 'capacitance'],
  ['ESR_r', 'ohm', 'series resistance'],
  ['ESL_', 'H', 'series inductance'],
] as const
const numbered = ['first', 'second'].flatMap((which, k) =>
  kinds.map(([symbol, unit, name]) => [`${symbol}${k + 1}`, unit, `${which} kind: ${name}`] as const),
)

/** The symbols of the source: the elements of the path by their names. */
const sourceSymbols: readonly (readonly [symbol: string, unit: string, name: string])[] = [
  ...exampleSupply.path.map(({ name }, k) => [`R_${k + 1}`, 'ohm', name] as const),
  ['V_drop', 'V', 'diodes in the path'],
  ['L', 'H', 'loop inductance'],
]

const isFormula = (value: unknown): value is AnyFormula =>
  typeof value === 'function' && 'expression' in value && 'source' in value

/** The bulk capacitor for a load step: what computes. */
export const block: Block = {
  ...form,
  check: ({ choice, conditions }, simulation) =>
    checkDecoupling(choice, conditions, simulation ? {} : { simulation: false }),
  sweep: ({ choice, conditions }) => {
    const { from, to } = decoupling.read(choice, conditions).openCircuit
    // By the voltage at rest, so that the curve goes on below the charge that is asked for.
    const { charge: _, ...around } = conditions
    const points = evenly(to, 0.9 * from, 13)
    return sweepOver(
      {
        quantity: 'cell voltage at rest',
        symbol: 'V_oc',
        unit: 'V',
        points,
        first: 'rail-brown-out',
        asked: [from, to],
      },
      (volts) => railLimitMargins(choice, { openCircuit: { from, to }, ...around }, volts),
    )
  },
  changes: ({ choice, conditions }) => decouplingChanges(choice, conditions),
  size,
  formulas: () => Object.values(library as Record<string, unknown>).filter(isFormula),
  units: {
    ...stated.units,
    ...Object.fromEntries([...numbered, ...sourceSymbols].map(([symbol, unit]) => [symbol, unit])),
    V_oc: 'V',
    T_a: 'degC',
    Y_age: '1',
    I_0: 'A',
    R_L: 'ohm',
    I_step: 'A',
    P_L: 'W',
  },
  names: {
    ...stated.names,
    ...Object.fromEntries([...numbered, ...sourceSymbols].map(([symbol, , name]) => [symbol, name])),
    V_oc: 'cell at rest',
    T_a: 'air in the case',
    Y_age: 'age in years',
    I_0: 'current drawn all the time',
    R_L: 'blade',
    I_step: 'load current',
    P_L: 'load power',
  },
}
