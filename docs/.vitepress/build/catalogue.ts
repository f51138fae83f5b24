import { readdirSync } from 'node:fs'
import { basename, join, relative } from 'node:path'
import type { AnyFormula, InputRange } from '@ohmward/budget'
import type { Template } from '../math/template.ts'
import { toTemplate } from '../math/typeset.ts'
import { dimensionOf } from './dimension.ts'
import { root, runSources, shown } from './sources.ts'

/** A formula as `/formulas/` shows it. */
export interface Entry {
  /** Where it stands on the page: `divider-V_x`, `divider-V_x-2` for another one of the same symbol. */
  readonly id: string
  readonly symbol: string
  readonly quantity: string
  readonly unit: string
  readonly dimension: string
  readonly expression: string
  readonly template: Template
  readonly source: string
  readonly inputs: readonly (readonly [symbol: string, unit: string, from: number, to: number])[]
}

/** The formulas of one package. */
export interface Chapter {
  readonly name: string
  readonly groups: readonly { readonly name: string; readonly id: string; readonly formulas: readonly Entry[] }[]
}

/** Every formula that any module of any package exports, once, in the order of the layers. */
export async function catalogue(): Promise<Chapter[]> {
  const chapters = await Promise.all(shown.map(chapterOf))
  return chapters.filter(({ groups }) => groups.length > 0)
}

async function chapterOf(name: string): Promise<Chapter> {
  const files = readdirSync(join(root, 'packages', name, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.ts$/.test(entry.name) && entry.name !== 'index.ts')
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
    .sort()
  const modules = await runSources<Record<string, object>>(
    files.map((file, i) => `export * as m${i} from './${file}'`).join('\n'),
  )
  const seen = new Set<unknown>()
  const times = new Map<string, number>()
  const idOf = ({ symbol }: AnyFormula) => {
    const time = (times.get(symbol) ?? 0) + 1
    times.set(symbol, time)
    return time === 1 ? `${name}-${symbol}` : `${name}-${symbol}-${time}`
  }
  const groups = files.map((file, i) => ({
    name: basename(file, '.ts').replaceAll('-', ' '),
    id: `${name}/${relative(`packages/${name}/src`, file).replace(/\.ts$/, '')}`.replaceAll('/', '-'),
    formulas: Object.values(modules[`m${i}`]!)
      .filter((value): value is AnyFormula => isFormula(value) && !seen.has(value) && seen.add(value) !== undefined)
      .map((formula) => entryOf(formula, idOf(formula))),
  }))
  return { name, groups: groups.filter(({ formulas }) => formulas.length > 0) }
}

const isFormula = (value: unknown): value is AnyFormula =>
  typeof value === 'function' && 'expression' in value && 'source' in value

const entryOf = ({ symbol, quantity, unit, expression, source, inputs }: AnyFormula, id: string): Entry => ({
  id,
  symbol,
  quantity,
  unit,
  dimension: dimensionOf(unit),
  expression,
  template: toTemplate(expression),
  source,
  inputs: Object.entries(inputs as Record<string, InputRange>).map(([name, [inUnit, from, to]]) => [
    name,
    inUnit,
    from,
    to,
  ]),
})
