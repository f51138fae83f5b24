import { readdirSync } from 'node:fs'
import { basename, join, relative } from 'node:path'
import type { AnyFormula, InputRange } from '@ohmward/budget'
import type { Template } from '../math/template.ts'
import { toTemplate } from '../math/typeset.ts'
import { dimensionOf } from './dimension.ts'
import { once } from './once.ts'
import { root, runSources, shown } from './sources.ts'

/** A formula as `/formulas/` shows it. */
export interface Entry {
  /** Where it stands on the page: `divider-V_x`, `divider-V_x-2` for another one of the same symbol. */
  readonly id: string
  readonly symbol: string
  readonly quantity: string
  readonly unit: string
  readonly dimension: readonly (readonly [letter: string, power: number])[]
  readonly expression: string
  readonly template: Template
  readonly source: string
  readonly inputs: readonly (readonly [symbol: string, unit: string, from: number, to: number])[]
  /** Steps and margins of worked pages that it computes: what they are called, and where they stand. */
  readonly usedAt: readonly (readonly [name: string, path: string])[]
}

/** The formulas of one package. */
export interface Chapter {
  readonly name: string
  readonly groups: readonly { readonly name: string; readonly id: string; readonly formulas: readonly Entry[] }[]
}

/** Every formula that any module of any package exports, once, in the order of the layers. */
export async function catalogue(usedAt: (id: string) => Entry['usedAt'] = () => []): Promise<Chapter[]> {
  return (await chapters()).map(({ name, groups }) => ({
    name,
    groups: groups.map((group) => ({
      ...group,
      formulas: group.formulas.map((one) => entryOf(one.formula, one.id, usedAt(one.id))),
    })),
  }))
}

/** The same, not typeset, in one list. */
export const formulasByPlace = async (): Promise<readonly Found[]> =>
  (await chapters()).flatMap(({ groups }) => groups.flatMap(({ formulas }) => formulas))

interface Found {
  readonly id: string
  readonly formula: AnyFormula
}

/** Formulas by package and file; one that a package takes over from another stands there. */
export const chapters = () =>
  once('chapters', async () => {
    const own = new Map<string, string>()
    const isOwn = (name: string, { symbol, quantity, expression, source }: AnyFormula): boolean => {
      const key = JSON.stringify([symbol, quantity, expression, source])
      if (!own.has(key)) own.set(key, name)
      return own.get(key) === name
    }
    return (await Promise.all(shown.map(chapterOf)))
      .map(({ name, groups }) => ({
        name,
        groups: groups
          .map((group) => ({ ...group, formulas: group.formulas.filter(({ formula }) => isOwn(name, formula)) }))
          .filter(({ formulas }) => formulas.length > 0),
      }))
      .filter(({ groups }) => groups.length > 0)
  })

async function chapterOf(name: string) {
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
      .map((formula): Found => ({ id: idOf(formula), formula })),
  }))
  return { name, groups }
}

const isFormula = (value: unknown): value is AnyFormula =>
  typeof value === 'function' && 'expression' in value && 'source' in value

const entryOf = (
  { symbol, quantity, unit, expression, source, inputs }: AnyFormula,
  id: string,
  usedAt: Entry['usedAt'],
): Entry => ({
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
  usedAt,
})
