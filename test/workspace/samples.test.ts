import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import ts from 'typescript'
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest'
import { type Sample, samplesOf, says, shownValues, statement } from '../tools/samples.js'
import { files, packages, root, run, tool } from '../tools/workspace.js'

const isUpdate = process.env['OHMWARD_UPDATE'] === '1'

/** Pages of the site, without what its build makes: that may be at work beside this. */
function pages(): string[] {
  const inside = readdirSync(`${root}docs`, { withFileTypes: true })
  const own = inside.filter((one) => one.isDirectory() && !/^(\.|node_modules$|api$)/.test(one.name))
  const top = inside.filter((one) => one.isFile() && one.name.endsWith('.md')).map(({ name }) => `docs/${name}`)
  return [...top, ...own.flatMap(({ name }) => files(`docs/${name}`, '.md'))]
}

const documents = [
  'README.md',
  'DEVELOPERS.md',
  ...packages.map((name) => `packages/${name}/README.md`),
  ...pages(),
].filter((path) => existsSync(root + path))
const samples = documents.flatMap(samplesOf)

/** A folder in the project of a user who installed the packed packages, and nothing else. */
let folder: string

beforeAll(() => {
  folder = mkdtempSync(join(inject('packed').folder, 'samples-'))
  const compilerOptions = {
    strict: true,
    exactOptionalPropertyTypes: true,
    noUncheckedIndexedAccess: true,
    noEmit: true,
    target: 'es2022',
    lib: ['es2023', 'dom'],
    module: 'nodenext',
    types: [],
  }
  writeFileSync(join(folder, 'package.json'), JSON.stringify({ type: 'module' }))
  writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify({ compilerOptions, include: ['*.ts'] }))
})

afterAll(() => {
  if (folder !== undefined) rmSync(folder, { recursive: true })
})

/** What a sample prints, and what each of its shown expressions is worth; or what it threw. */
type Outcome = { readonly printed: string; readonly values: readonly string[] } | { readonly thrown: string }

/** A sample as a module whose default export is its outcome. */
function moduleOf(sample: Sample): string {
  let code = sample.code
  for (const { statement: span, expression } of shownValues(code).reverse()) {
    const [start, end] = span
    code = `${code.slice(0, start)};try { __show(${expression}) } catch (error) { __values.push(error.name + ': ' + error.message) };${code.slice(end)}`
  }
  const whole = `import { inspect as __inspect } from 'node:util'
    const __values = [], __lines = []; let __on = false
    const __show = (x) => { __values.push(__inspect(x, { depth: null, breakLength: Infinity, compact: true })) }
    const __log = console.log
    console.log = (...x) => { if (__on) __lines.push(x.map((y) => typeof y === 'string' ? y : __inspect(y, { depth: null })).join(' ')) }
    ${sample.before}
    ;__on = true
    ${code}
    console.log = __log
    export default { printed: __lines.join('\\n'), values: __values }`
  const target = { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext, verbatimModuleSyntax: false }
  return ts.transpileModule(whole, { compilerOptions: target }).outputText
}

/** Every sample's outcome, one after another in one process: to start one apiece took longer than the samples. */
function outcomesOf(all: readonly Sample[]): Outcome[] {
  all.forEach((sample, i) => {
    writeFileSync(join(folder, `run${i}.mjs`), moduleOf(sample))
  })
  const runner = `const log = console.log, outcomes = []
    for (let i = 0; i < ${all.length}; i++) {
      try { outcomes.push((await import('./run' + i + '.mjs')).default) }
      catch (error) { outcomes.push({ thrown: String(error?.stack ?? error) }) }
      finally { console.log = log }
    }
    process.stdout.write(JSON.stringify(outcomes))`
  writeFileSync(join(folder, 'runner.mjs'), runner)
  return JSON.parse(run('node', ['runner.mjs'], folder))
}

/** Writes what the samples really give into their document, the last place first. */
function update(path: string, edits: { start: number; end: number; text: string }[]): void {
  let text = readFileSync(root + path, 'utf8')
  for (const { start, end, text: more } of edits.sort((a, b) => b.start - a.start)) {
    text = text.slice(0, start) + more + text.slice(end)
  }
  writeFileSync(root + path, text)
}

describe('samples in the documents', () => {
  it('are there, and show what they give', () => {
    expect(documents).toContain('README.md')
    expect(samples.filter(({ path }) => path === 'README.md').length).toBeGreaterThanOrEqual(3)
    const shown = samples.filter(({ code, output }) => output !== undefined || shownValues(code).length > 0)
    expect(shown.length).toBeGreaterThanOrEqual(3)
  })

  it('type-check', () => {
    samples.forEach(({ before, code }, i) => {
      writeFileSync(join(folder, `sample${i}.ts`), `${before}${code}\nexport {}\n`)
    })
    const names = samples.map(({ place }, i) => `sample${i}.ts is ${place}`).join('\n')
    expect(() => tool('tsc', ['-p', '.'], folder), names).not.toThrow()
  })

  const runnable = samples.filter(({ isRun }) => isRun)
  let outcomes: readonly Outcome[]
  beforeAll(() => {
    outcomes = outcomesOf(runnable)
  })

  it.each(runnable.map((sample, i) => [sample.place, sample, i] as const))('%s', (_, sample, i) => {
    const outcome = outcomes[i]!
    if ('thrown' in outcome) throw new Error(outcome.thrown)
    const { printed, values } = outcome
    const shown = shownValues(sample.code)
    expect(values.length).toBe(shown.length)
    if (isUpdate) return update(sample.path, editsOf(sample, printed, values))
    shown.forEach(({ expression, comment }, i) => {
      expect(says(comment, values[i]!), `${expression} is ${values[i]}, the comment says ${comment}`).toBe(true)
    })
    if (sample.output !== undefined) expect(printed.trimEnd()).toBe(sample.output.text.trimEnd())
  })
})

/** Edits are found anew in the document's present text: an edit of an earlier sample moves the later ones. */
function editsOf(sample: Sample, printed: string, values: readonly string[]) {
  const now = samplesOf(sample.path).find(({ code }) => code === sample.code)!
  const lines = readFileSync(root + sample.path, 'utf8').split('\n')
  const offset = (line: number) => lines.slice(0, line).join('\n').length + (line > 0 ? 1 : 0)
  const edits = shownValues(now.code).flatMap(({ comment, commentStart }, i) => {
    const start = offset(now.start) + commentStart
    return says(comment, values[i]!) ? [] : [{ start, end: start + statement(comment).length, text: values[i]! }]
  })
  if (now.output !== undefined) {
    edits.push({ start: offset(now.output.start), end: offset(now.output.end), text: `${printed.trimEnd()}\n` })
  }
  return edits
}
