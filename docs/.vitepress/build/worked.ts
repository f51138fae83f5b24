import type { AnyFormula, InputRange } from '@ohmward/budget'
import { toTemplate } from '../math/typeset.ts'
import { argumentsOf, type Block, demoOf } from '../theme/block.ts'
import type { Worked } from '../theme/work.ts'
import { placesOf } from './places.ts'
import { load, watch } from './sources.ts'

/**
 * The data loader of a worked page: the demo's whole answer, simulation included, and the block's formulas typeset.
 *
 * @param name - of the block: `docs/NAME/block.ts` exports it as `block`
 */
export const workedExample = (name: string) => ({
  watch,
  async load(): Promise<Worked> {
    const block = (await load<{ block: Block }>(`${name}/block.ts`)).block
    const x = argumentsOf(block, demoOf(block))
    const assessment = shortened(block.check(x, true))
    const formulas = block.formulas()
    const { templates, units, names } = typeset(formulas)
    return {
      assessment,
      ...(block.sweep && { sweep: shortened(block.sweep(x)) }),
      ...(block.changes && { changes: shortened(block.changes(x)) }),
      sizing: block.size(x),
      templates,
      places: await placesOf(name, formulas, assessment.derivation),
      units: { ...units, ...block.units },
      names: { ...names, ...block.names },
    }
  },
})

/** Numbers to ten digits: more than a page shows, and half the weight. */
const shortened = <T>(value: T): T =>
  JSON.parse(JSON.stringify(value, (_, item) => (typeof item === 'number' ? Number(item.toPrecision(10)) : item)))

/**
 * The data loader of a page that only shows formulas.
 *
 * @param path - a module that exports them, from `docs`
 */
export const typesetFormulas = (path: string) => ({
  watch,
  load: async (): Promise<Typeset> =>
    typeset(
      Object.values(await load<Record<string, AnyFormula>>(path)).filter(({ expression }) => expression !== undefined),
    ),
})

/** What pages need of formulas, by expression and by symbol. */
export type Typeset = Pick<Worked, 'templates' | 'units' | 'names'>

const typeset = (formulas: readonly AnyFormula[]): Typeset => ({
  templates: Object.fromEntries(formulas.map(({ expression }) => [expression, toTemplate(expression)])),
  units: unitsOf(formulas),
  names: Object.fromEntries(formulas.map(({ symbol, quantity }) => [symbol, quantity])),
})

/** The unit of every symbol that the formulas name, as input or as result. */
function unitsOf(formulas: readonly AnyFormula[]): Record<string, string> {
  const units: Record<string, string> = {}
  for (const { symbol, unit, inputs } of formulas) {
    units[symbol] = unit
    for (const [input, [inputUnit]] of Object.entries(inputs as Record<string, InputRange>)) units[input] = inputUnit
  }
  return units
}
