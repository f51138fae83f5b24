import { readFileSync } from 'node:fs'
import { inspect } from 'node:util'
import { type FieldRow, fieldsOf, typographic } from '@ohmward/quantity'
import { root, run } from '../sources.ts'
import { declarations, type Exported, type Named } from './declarations.ts'
import type { Entry } from './entries.ts'
import { type Example, examplesOf } from './examples.ts'

/** A page of the reference: Markdown with HTML in it. */
export interface ReferencePage {
  readonly entry: Entry
  readonly content: string
}

/** What all pages are made from: the place of each name. */
type Places = ReadonlyMap<string, string>

/** Every page of the reference. */
export async function referencePages(): Promise<ReferencePage[]> {
  const all = declarations()
  return Promise.all([...all].map(([entry, exported]) => pageOf(entry, exported, placesFor(entry, all))))
}

/** Of each name the page that has it, the nearest one where several do; only what the package builds on is meant. */
function placesFor(own: Entry, all: ReadonlyMap<Entry, readonly Exported[]>): Places {
  const places = new Map<string, string>()
  const nearness = ({ package: name, page }: Entry) => (page === own.page ? 2 : name === own.package ? 1 : 0)
  const { dependencies = {} } = JSON.parse(readFileSync(`${root}packages/${own.package}/package.json`, 'utf8'))
  const isBelow = ({ package: name }: Entry) => name === own.package || `@ohmward/${name}` in dependencies
  for (const [entry, exported] of [...all]
    .filter(([entry]) => isBelow(entry))
    .sort(([a], [b]) => nearness(a) - nearness(b))) {
    for (const { name } of exported) places.set(name, `${entry === own ? '' : `${entry.page}.html`}#${name}`)
  }
  return places
}

async function pageOf(entry: Entry, exported: readonly Exported[], places: Places): Promise<ReferencePage> {
  const values = await run<Record<string, unknown>>(`export * from '${entry.name}'`)
  const examples = examplesOf(entry.page)
  const write = writer(places)
  const functions = exported.filter(({ kind }) => kind === 'function')
  const tables = exported.filter(({ kind, name }) => kind === 'value' && isTable(values[name]))
  const typeOf = ({ name }: Exported) =>
    exported.find(({ kind, text }) => kind === 'type' && new RegExp(`^(extends )?\\w+<typeof ${name}>$`).test(text))
  const given = tables.map((table) => ({ table, type: typeOf(table) }))
  const isGiven = (one: Exported) => given.some(({ table, type }) => table === one || type === one)
  const shapes = exported.filter((one) => (one.kind === 'type' || one.kind === 'class') && !isGiven(one))
  const rest = exported.filter((one) => one.kind === 'value' && !isGiven(one))
  const firstUse = new Map<Example, string>()
  /** On a page of many functions each is a line that unfolds. */
  const isLong = functions.length > 20
  const functionText = (one: Exported): string => {
    const example = examples.find(({ uses }) => uses.has(`${entry.name} ${one.name}`))
    const first = example && firstUse.get(example)
    if (example && first === undefined) firstUse.set(example, one.name)
    const text = [
      write.head(one),
      write.call(one),
      write.words(one.summary),
      write.terms(one),
      exampleText(example, first, isLong),
    ].join('\n\n')
    return isLong ? unfolding(write, one, text) : text
  }
  const content = [
    introduction(entry),
    functions.length > 0 &&
      `## Functions\n\n<p class="names">${functions.map(({ name }) => `<a href="#${name}">${name}</a>`).join(', ')}</p>\n\n${functions.map(functionText).join('\n\n')}`,
    given.length > 0 &&
      `## What is given\n\nA value is written as a text with its unit, a number in the unit named, or a spread. What has nothing under *otherwise* must be given, unless it says that it may be absent.\n\n${given.map(({ table, type }) => givenText(write, type ?? table, table, values[table.name])).join('\n\n')}`,
    shapes.length > 0 &&
      `## Types\n\n<Fold title="${shapes.length} types, what each holds">\n\n${shapes.map((one) => shapeText(write, one)).join('\n\n')}\n\n</Fold>`,
    rest.length > 0 && `## Constants\n\n${rest.map((one) => constantText(write, one, values[one.name])).join('\n\n')}`,
  ]
    .filter(Boolean)
    .join('\n\n')
  return { entry, content }
}

/** What the page is of, how it is imported, and where its formulas stand. */
function introduction({ name, package: own, page, description }: Entry): string {
  const { exports } = JSON.parse(readFileSync(`${root}packages/${own}/package.json`, 'utf8'))
  const formulas =
    './formulas' in exports
      ? ` Its formulas, \`@ohmward/${own}/formulas\`, stand [by themselves](../formulas/index.md#${own}).`
      : ''
  return `# ${name}\n\n${page === own ? `${description}.${formulas}` : `${description}. A part of [@ohmward/${own}](${own}.html) with an entry of its own.`}`
}

const isTable = (value: unknown): value is Record<string, unknown> => {
  if (typeof value !== 'object' || value === null) return false
  const fields = 'fields' in value ? value.fields : value
  const all = Object.values(fields as object)
  return all.length > 0 && all.every((field) => typeof field === 'object' && field !== null && 'meaning' in field)
}

/** A function as a line that unfolds: its name, and what it does in a sentence. A link to its heading opens it. */
const unfolding = (write: Writer, { name, summary }: Exported, text: string): string => {
  const [first = ''] = summary.replace(/\s+/g, ' ').split(/(?<=[.:;]) (?=\S)/)
  return `<details class="fold entry"><summary v-pre><code>${name}</code> <span>${write.inline(first.replace(/[:;]$/, '.'))}</span></summary>\n\n${text}\n\n</details>`
}

/** An example, folded on a page of many functions. */
function exampleText(example: Example | undefined, first: string | undefined, isFolded: boolean): string {
  if (!example) return ''
  if (first) return `<p class="note">Its example stands at <a href="#${first}">${first}</a>.</p>`
  const text = `\`\`\`ts\n${example.code}\n\`\`\`\n\n\`\`\`text\n${example.output}\n\`\`\``
  return isFolded ? `<Fold title="Example">\n\n${text}\n\n</Fold>` : text
}

type Writer = ReturnType<typeof writer>

/** The record of a choice or a part: field, takes, otherwise, meaning. */
function givenText(write: Writer, one: Exported, table: Exported, value: unknown): string {
  const rows = fieldsOf('fields' in (value as object) ? (value as never) : { fields: value as never })
  const own = one === table ? '' : `<p id="${table.name}" class="note">Its record is <code>${table.name}</code>.</p>`
  const line = ({ path, otherwise, required, meaning, ...row }: FieldRow) =>
    `<tr><th scope="row"><code>${escaped(path)}</code></th><td>${escaped(takesOf(row))}</td><td>${escaped(otherwise) || (required ? '' : 'may be absent')}</td><td>${escaped(meaning)}</td></tr>`
  return [
    write.head(one),
    write.words(one.summary),
    own,
    folded(
      rows.length,
      `<table v-pre><thead><tr><th scope="col">Field</th><th scope="col">Takes</th><th scope="col">Otherwise</th><th scope="col">Meaning</th></tr></thead><tbody>${rows.map(line).join('')}</tbody></table>`,
    ),
  ].join('\n\n')
}

const takesOf = ({ takes, unit, limits }: Pick<FieldRow, 'takes' | 'unit' | 'limits'>): string =>
  [takes, unit === '1' || unit === '' ? '' : `in ${unit}`, limits]
    .filter(Boolean)
    .map((words) => (words.length < 200 ? typographic(words) : words))
    .join(', ')

/** The shape of an answer, or another type. */
function shapeText(write: Writer, one: Exported): string {
  const line = ({ name, type, optional, meaning }: Named) =>
    `<tr><th scope="row"><code>${escaped(name)}</code></th><td><code>${write.type(type)}</code>${optional ? ', or absent' : ''}</td><td>${write.inline(meaning)}</td></tr>`
  return [
    write.head(one),
    write.words(one.summary),
    one.text && `<p class="note" v-pre><code>${write.type(one.text)}</code></p>`,
    one.members.length > 0 &&
      folded(
        one.members.length,
        `<table v-pre><thead><tr><th scope="col">Field</th><th scope="col">Holds</th><th scope="col">Meaning</th></tr></thead><tbody>${one.members.map(line).join('')}</tbody></table>`,
      ),
  ]
    .filter(Boolean)
    .join('\n\n')
}

/** Parts by class and the like, as they stand. */
function constantText(write: Writer, one: Exported, value: unknown): string {
  const text = isPlain(value) ? inspect(value, { depth: 6, breakLength: 100, maxArrayLength: 20 }) : ''
  const lines = text.split('\n')
  const shown = lines.length > 120 ? [...lines.slice(0, 120), '…'].join('\n') : text
  return [
    write.head(one),
    write.words(one.summary),
    shown && (lines.length < 6 ? code(shown) : `<Fold title="As it stands">\n\n${code(shown)}\n\n</Fold>`),
  ]
    .filter(Boolean)
    .join('\n\n')
}

const code = (text: string): string => `\`\`\`ts\n${text}\n\`\`\``

const isPlain = (value: unknown): boolean =>
  typeof value !== 'function' && (typeof value !== 'object' || value === null || Object.values(value).every(isPlain))

const folded = (count: number, table: string): string => {
  const box = `<ScrollBox class="wide" label="Table">${table}</ScrollBox>`
  return count <= 6 ? box : `<Fold title="${count} fields">${box}</Fold>`
}

const escapes: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '{': '&#123;',
  '}': '&#125;',
}
const escaped = (text: string): string => text.replace(/[&<>{}]/g, (sign) => escapes[sign]!)

/** Writes words and types with links to the names in them. */
function writer(places: Places) {
  const type = (text: string): string =>
    escaped(shortened(text)).replace(/\b[A-Z]\w+\b/g, (name) => {
      const place = places.get(name)
      return place ? `<a href="${place}">${name}</a>` : name
    })
  const inline = (text: string): string =>
    escaped(linked(text))
      .replace(/`([^`]+)`/g, '<code>$1</code>')
      .replace(/⟪(.+?)⟫/g, (_, name: string) => anchor(name))
  const linked = (text: string) => text.replace(/\{@link\s+([\w.]+)\s*\}/g, '⟪$1⟫')
  const anchor = (name: string) => {
    const place = places.get(name)
    return place ? `<a href="${place}"><code>${name}</code></a>` : `<code>${name}</code>`
  }
  return {
    type,
    inline,
    head: ({ name }: Exported) => `### ${name} {#${name}}`,
    call: ({ name, parameters, returns }: Exported) =>
      `<p class="call" v-pre><code>${name}(${parameters.map((one) => `${/^\W/.test(one.name) ? 'x' : one.name}${one.optional ? '?' : ''}`).join(', ')})</code> gives <code>${type(returns.type)}</code></p>`,
    words: (text: string) =>
      text
        .split(/\n\s*\n/)
        .map((paragraph) => `<p v-pre>${inline(paragraph.replace(/\s+/g, ' '))}</p>`)
        .join('\n'),
    terms: ({ parameters, returns, throws }: Exported) => {
      const term = (name: string, text: string) => `<dt>${name}</dt><dd>${text}</dd>`
      const given = parameters.map((one) =>
        term(
          `<code>${/^\W/.test(one.name) ? 'x' : one.name}</code>`,
          [inline(one.meaning), `<code>${type(one.type)}</code>`].filter(Boolean).join('; '),
        ),
      )
      const more = [
        returns.meaning && term('gives', inline(returns.meaning)),
        ...throws.map((text) => term('throws', inline(text))),
      ]
      const all = [...given, ...more].filter(Boolean)
      return all.length > 0 ? `<dl class="terms" v-pre>${all.join('')}</dl>` : ''
    },
  }
}

/** A type that would fill the page, without what stands between its outermost braces and angle brackets. */
function shortened(text: string): string {
  let short = text.replace(/import\("[^"]*"\)\./g, '').replace(/\breadonly (?=\w+\??:)/g, '')
  while (short.length > 140) {
    const next = short.replace(/<[^<>{}]+>(?!\s*\()|\{[^{}…]+\}/, (piece) => (piece.startsWith('{') ? '{ … }' : ''))
    if (next === short) break
    short = next
  }
  return short.replace(/readonly \[(\w+)(?:<[^<>]*>)?(?:, \1(?:<[^<>]*>)?)+\]/, 'readonly $1[]')
}
