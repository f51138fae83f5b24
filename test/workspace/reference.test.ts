import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import ts from 'typescript'
import { afterAll, beforeAll, expect, inject, it } from 'vitest'
import { declarations } from '../../docs/.vitepress/build/reference/declarations.js'
import { entries } from '../../docs/.vitepress/build/reference/entries.js'
import { examplesOf } from '../../docs/.vitepress/build/reference/examples.js'
import { root, run, tool } from '../tools/workspace.js'

/*
 * Each example of the reference, as it is printed there: type-checked as a user's compiler would, and run, one module each.
 * What they print is kept in a committed file, from which the site shows it; OHMWARD_UPDATE=1 writes the file anew.
 */

const file = `${root}test/results/examples.json`
const pages = entries.map(({ page }) => [page, examplesOf(page)] as const)
const all = pages.flatMap(([, examples]) => examples)

/** A folder in the project of a user who installed the packed packages. */
let folder: string

beforeAll(() => {
  folder = mkdtempSync(join(inject('packed').folder, 'reference-'))
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
  all.forEach(({ code }, i) => {
    writeFileSync(join(folder, `example${i}.ts`), `${code}\n`)
  })
})
afterAll(() => {
  if (folder !== undefined) rmSync(folder, { recursive: true })
})

it('shows an example with every function', () => {
  const bare = [...declarations()].flatMap(([entry, exported]) => {
    const used = new Set(examplesOf(entry.page).flatMap(({ uses }) => [...uses]))
    return exported
      .filter(({ kind, name }) => kind === 'function' && !used.has(`${entry.name} ${name}`))
      .map(({ name }) => `${entry.name}: ${name}`)
  })
  expect(bare).toEqual([])
})

it('shows examples that type-check', () => {
  expect(() => tool('tsc', ['-p', '.'], folder)).not.toThrow()
})

it('shows what they print', () => {
  const compilerOptions = { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext }
  all.forEach(({ code }, i) => {
    writeFileSync(join(folder, `run${i}.mjs`), ts.transpileModule(code, { compilerOptions }).outputText)
  })
  const runner = `import { format } from 'node:util'
    const log = console.log, printed = []
    for (let i = 0; i < ${all.length}; i++) {
      const lines = []
      console.log = (...x) => lines.push(format(...x))
      await import('./run' + i + '.mjs')
      printed.push(lines.join('\\n'))
    }
    console.log = log
    process.stdout.write(JSON.stringify(printed))`
  writeFileSync(join(folder, 'runner.mjs'), runner)
  const printed: string[] = JSON.parse(run('node', ['runner.mjs'], folder))
  const found = Object.fromEntries(
    pages.map(([page, examples]) => [page, examples.map((one) => printed[all.indexOf(one)]!)]),
  )
  for (const text of printed) expect(text).not.toMatch(/\bNaN\b|Promise \{|^undefined$|^$/)
  if (process.env['OHMWARD_UPDATE'] === '1') writeFileSync(file, `${JSON.stringify(found, null, 1)}\n`)
  expect(existsSync(file)).toBe(true)
  expect(found, 'what examples print differs: run this test with OHMWARD_UPDATE=1 and review the change').toEqual(
    JSON.parse(readFileSync(file, 'utf8')),
  )
})
