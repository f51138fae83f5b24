import type { AnyFormula, Derivation } from '@ohmward/budget'
import { argumentsOf, type Block, demoOf } from '../theme/block.ts'
import type { FormulaLink, Worked } from '../theme/work.ts'
import { formulasByPlace } from './catalogue.ts'
import { load, run } from './sources.ts'

type Named = Pick<AnyFormula, 'symbol' | 'expression' | 'source'>

type Places = Worked['places']

const same = (one: Named) => (other: Named) => one.symbol === other.symbol && one.expression === other.expression
/** The same for one of several elements or capacitors, whose symbols have its number: `R_el2`. */
const numbered = (one: Named) => (other: Named) =>
  one.symbol.replace(/_?\d+$/, '') === other.symbol && one.source === other.source

/**
 * Where the formulas of a worked page stand.
 *
 * @param formulas - the page's, the more likely one of a symbol first
 * @param derivation - of its demo
 */
export async function placesOf(name: string, formulas: readonly AnyFormula[], derivation: Derivation): Promise<Places> {
  const all = await formulasByPlace()
  const isOwn = ({ id }: { id: string }) => id.startsWith(`${name}-`)
  const placeOf = (one: Named): string | undefined => {
    const exact = all.filter(({ formula }) => same(one)(formula))
    const found = exact.length > 0 ? exact : all.filter(({ formula }) => numbered(one)(formula))
    return (found.find(isOwn) ?? found[0])?.id
  }
  const linkOf = (symbol: string): FormulaLink[] => {
    const named = ({ symbol: own }: Named) => own === symbol
    const one = derivation.find(named) ?? formulas.find(named)
    const id = one && placeOf(one)
    return id ? [[symbol, id]] : []
  }
  const watched = await symbolsOfMargins(name)
  return {
    steps: Object.fromEntries(
      [...derivation, ...formulas].flatMap((one) => {
        const id = placeOf(one)
        return id ? [[`${one.symbol} = ${one.expression}`, id]] : []
      }),
    ),
    margins: {
      ...Object.fromEntries(Object.entries(watched).map(([id, symbols]) => [id, symbols.flatMap(linkOf)])),
      ...Object.fromEntries(
        Object.entries(own[name] ?? {}).map(([margin, ids]) => [
          margin,
          ids.flatMap((id): FormulaLink[] => {
            const one = all.find((one) => one.id === id)
            if (!one) throw new Error(`${name}, margin ${margin}: there is no formula ${id}`)
            return [[one.formula.symbol, id]]
          }),
        ]),
      ),
    },
  }
}

/** Which formula computes what on a worked page: its place, the step or margin in words, and where that stands. */
export async function usesOf(name: string): Promise<(readonly [id: string, name: string, path: string])[]> {
  const { block } = await load<{ block: Block }>(`${name}/block.ts`)
  const { derivation, margins } = block.check(argumentsOf(block, demoOf(block)), false)
  const places = await placesOf(name, block.formulas(), derivation)
  return [
    ...derivation.flatMap(({ symbol, expression }) => {
      const id = places.steps[`${symbol} = ${expression}`]
      return id ? [[id, `${name}, step by step`, `/${name}/#step-${symbol}`] as const] : []
    }),
    ...margins.flatMap(({ id: margin, name: words }) =>
      (places.margins[margin] ?? []).map(([, id]) => [id, `${name}: ${words}`, `/${name}/#margin-${margin}`] as const),
    ),
  ]
}

/** Margins that are held by physics of their own, or with the worst case in them: the formulas behind them. */
export const own: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = {
  divider: {
    undershoot: ['divider-R_pneed'],
    settling: ['divider-t_need', 'adc-t_settle'],
    acquisition: ['adc-t_need'],
    sampling: ['adc-e_burst'],
    resolution: ['divider-R_count'],
  },
  hall: {
    conductor: ['hall-T_cond'],
    resolution: ['hall-I_step'],
    noise: ['hall-I_npp'],
    range: ['hall-p_used'],
    quotient: ['hall-code_I'],
    settling: ['hall-t_need'],
    'on-window': ['adc-s_on'],
    'off-window': ['adc-s_off'],
    sampling: ['adc-e_burst'],
    'trip-false': ['hall-code_trip', 'hall-I_trip'],
    'trip-late': ['hall-I_trip'],
    'trip-reach': ['hall-I_trip'],
  },
  mosfet: { runaway: ['mosfet-I_run'] },
  decoupling: {
    'rail-brown-out': ['decoupling-V_firstI', 'decoupling-V_stepI', 'decoupling-V_ring'],
    'rail-amplifier': ['decoupling-V_firstI', 'decoupling-V_stepI', 'decoupling-V_ring'],
    'rail-clock': ['decoupling-V_firstI', 'decoupling-V_stepI', 'decoupling-V_ring'],
    'steady-sag': ['decoupling-V_endI', 'decoupling-V_endR'],
    'protection-trip': ['decoupling-I_safe', 'decoupling-I_low'],
    'rail-maximum': ['decoupling-V_plug'],
    'contact-surge': ['decoupling-I_in'],
    'short-delay': ['decoupling-I_short'],
  },
}

/** The symbols that each margin of a page's demo watches; a function is asked which values it reads. */
async function symbolsOfMargins(name: string): Promise<Record<string, readonly string[]>> {
  const { block: form } = await load<{ block: Block }>(`${name}/block.ts`)
  const { block } = await run<{ block: any }>(`export { ${name} as block } from '@ohmward/${name}'`)
  const { choice, conditions } = argumentsOf(form, demoOf(form))
  const rows: readonly WatchedRow[] = block.setup(block.read(choice, conditions)).rows
  return Object.fromEntries(
    rows.map(({ id, value, limit, budget }) => [
      id,
      budget ? [budget.symbol] : [...new Set([value, limit].flatMap(readBy))],
    ]),
  )
}

/** What of a row of a block tells which values it watches. */
interface WatchedRow {
  readonly id: string
  readonly value?: unknown
  readonly limit?: unknown
  readonly budget?: { readonly symbol: string }
}

function readBy(told: unknown): string[] {
  if (typeof told === 'string') return [told]
  if (typeof told !== 'function') return []
  const seen: string[] = []
  const place = new Proxy(
    {},
    {
      get: (_, symbol) => {
        seen.push(String(symbol))
        return 1
      },
    },
  )
  told(place)
  return seen
}
