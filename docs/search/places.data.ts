import { readFileSync } from 'node:fs'
import { fieldsOf } from '@ohmward/quantity'
import { chapters } from '../.vitepress/build/catalogue.ts'
import { declarations } from '../.vitepress/build/reference/declarations.ts'
import { load, root, run, watch } from '../.vitepress/build/sources.ts'
import { argumentsOf, type Block, demoOf } from '../.vitepress/theme/block.ts'
import { pages } from '../.vitepress/theme/pages.ts'
import { chapters as pitfalls } from '../pitfalls/pitfalls.data.ts'
import { questions } from '../questions/questions.ts'
import type { Findable } from './find.ts'

export declare const data: readonly Findable[]

const worked = ['divider', 'hall', 'mosfet', 'decoupling']

/** Parts and choices whose fields a reader may look for: package and record. */
const records = {
  adc: ['converterFields', 'internalReferenceFields'],
  supply: ['cellFields', 'elementFields', 'portFields', 'regulatorFields', 'diodeFields'],
  divider: ['amplifierFields', 'dividerRecord'],
  hall: ['sensorFields', 'hallRecord'],
  mosfet: ['transistorFields', 'choiceRecord'],
  decoupling: ['capacitorFields', 'decouplingRecord', 'logicFields'],
} as const

const fieldsOfParts = async (): Promise<Findable[]> => {
  const all: Findable[] = []
  for (const [name, tables] of Object.entries(records)) {
    const values = await run<Record<string, any>>(`export { ${tables.join(', ')} } from '@ohmward/${name}'`)
    for (const table of tables) {
      const record = values[table]
      for (const { path, meaning } of fieldsOf('fields' in record ? record : { fields: record })) {
        all.push({
          kind: 'part',
          name: meaning,
          says: `${name}: ${path}`,
          path: `/api/${name}.html#${table}`,
        })
      }
    }
  }
  return all
}

const marginsOf = async (name: string): Promise<Findable[]> => {
  const { block } = await load<{ block: Block }>(`${name}/block.ts`)
  const { margins, cautions } = block.check(argumentsOf(block, demoOf(block)), false)
  return [
    ...margins.map(({ id, name: words, unit }) => ({
      kind: 'margin',
      name: words,
      says: `${name}, in ${unit}: ${id.replaceAll('-', ' ')}`,
      path: `/${name}/#margin-${id}`,
    })),
    ...cautions.map(({ text }) => ({ kind: 'caution', name: text, says: name, path: `/${name}/#cautions` })),
  ]
}

/** A page with what it says of itself, and its headings. */
function placesOfPage({ path, name }: { readonly path: string; readonly name: string }): Findable[] {
  const text = readFileSync(`${root}docs${path}index.md`, 'utf8')
  const slug = (heading: string) =>
    heading
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '')
  const headings = [...text.matchAll(/^##+ ([^{[<]+?)$/gm)].map(([, heading]) => heading!.trim())
  return [
    { kind: 'page', name, says: /^description: (.*)$/m.exec(text)?.[1] ?? '', path },
    ...headings.map((heading) => ({ kind: 'page', name: heading, says: name, path: `${path}#${slug(heading)}` })),
  ]
}

export default {
  watch,
  async load(): Promise<Findable[]> {
    return [
      ...pages.flatMap(placesOfPage),
      ...questions.map(({ asks, places }) => ({
        kind: 'question',
        name: asks,
        says: places.map(([name]) => name).join(', '),
        path: places[0]![1].replace(/^/, '/'),
      })),
      ...pitfalls.flatMap(({ title: chapter, pitfalls }) =>
        pitfalls.map(({ code, title, seen, why, helps }) => ({
          kind: 'pitfall',
          name: `${code}: ${title}`,
          says: [chapter, seen, why, ...helps].join(' · '),
          path: `/pitfalls/#${code.toLowerCase()}`,
        })),
      ),
      ...(await Promise.all(worked.map(marginsOf))).flat(),
      ...(await fieldsOfParts()),
      ...(await chapters()).flatMap(({ name, groups }) =>
        groups.flatMap(({ name: group, formulas }) =>
          formulas.map(({ id, formula }) => ({
            kind: 'formula',
            name: formula.quantity,
            says: `${formula.symbol}, ${name}, ${group}: ${formula.source}`,
            path: `/formulas/#${id}`,
          })),
        ),
      ),
      ...[...declarations()].flatMap(([{ page, name }, exported]) =>
        exported
          .filter(({ kind }) => kind === 'function')
          .map((one) => ({
            kind: 'function',
            name: one.name,
            says: `${name}: ${one.summary.split(/(?<=\.)\s/)[0]!.replace(/\s+/g, ' ')}`,
            path: `/api/${page}.html#${one.name}`,
          })),
      ),
    ]
  },
}
