import { join } from 'node:path'
import { InputError } from '@ohmward/quantity'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'
import {
  type Arguments,
  argumentsOf,
  type Block,
  demoOf,
  fieldsOf,
  type Texts,
} from '../../docs/.vitepress/theme/block.js'
import { typescriptOf } from '../../docs/.vitepress/theme/take-away.js'
import { block as decoupling } from '../../docs/decoupling/block.js'
import { block as divider } from '../../docs/divider/block.js'
import { block as hall } from '../../docs/hall/block.js'
import { block as mosfet } from '../../docs/mosfet/block.js'
import { root } from '../tools/workspace.js'

/** As strict as a careful project is. The site's folder sees the built packages by their names. */
const options: ts.CompilerOptions = {
  strict: true,
  exactOptionalPropertyTypes: true,
  noUncheckedIndexedAccess: true,
  verbatimModuleSyntax: true,
  noEmit: true,
  target: ts.ScriptTarget.ES2022,
  lib: ['lib.es2023.d.ts', 'lib.dom.d.ts'],
  module: ts.ModuleKind.NodeNext,
  moduleResolution: ts.ModuleResolutionKind.NodeNext,
  types: [],
  skipLibCheck: true,
}

/** What the compiler says of modules, by name. */
function complaints(codes: Readonly<Record<string, string>>): string[] {
  const folder = join(root, 'docs')
  const own = new Map(Object.entries(codes).map(([name, code]) => [join(folder, `${name}.mts`), code]))
  const host = ts.createCompilerHost(options)
  const { fileExists, readFile, getSourceFile } = host
  host.fileExists = (name) => own.has(name) || fileExists(name)
  host.readFile = (name) => own.get(name) ?? readFile(name)
  host.getSourceFile = (name, target, ...rest) => {
    const code = own.get(name)
    return code === undefined
      ? getSourceFile(name, target, ...rest)
      : ts.createSourceFile(name, code, target, true, ts.ScriptKind.TS)
  }
  const program = ts.createProgram([...own.keys()], options, host)
  return ts
    .getPreEmitDiagnostics(program)
    .map(({ file, messageText }) => `${file?.fileName}: ${ts.flattenDiagnosticMessageText(messageText, '\n')}`)
}

/** The demo, and in its place each class of each preset and each word of each field that takes words. */
const choicesOf = (block: Block): Arguments[] => {
  const demo = demoOf(block)
  const classes = block.groups.flatMap(({ preset }) => Object.values(preset?.choices ?? {}))
  const words = fieldsOf(block).flatMap(({ id, words = [] }) => words.map((word) => ({ [id]: word })))
  const choices = [demo, ...[...classes, ...words].map((texts): Texts => ({ ...demo, ...texts }))]
  return choices.map((texts) => argumentsOf(block, texts)).filter((x) => isTaken(block, x))
}

/** Whether the library takes a choice: the page shows code of no other. */
function isTaken(block: Block, x: Arguments): boolean {
  try {
    return block.check(x, false) !== undefined
  } catch (error) {
    if (error instanceof InputError) return false
    throw error
  }
}

describe('the code to paste', () => {
  it('is refused by the compiler where it is wrong', () => {
    expect(complaints({ wrong: "import { checkDivider } from '@ohmward/divider'\ncheckDivider({}, {})" })).toHaveLength(
      1,
    )
  })

  it('compiles in strict TypeScript on every page, for the demo and for every class and word', () => {
    const codes = Object.fromEntries(
      [divider, hall, mosfet, decoupling].flatMap((block) =>
        choicesOf(block).map((x, i) => [`${block.id}-${i}`, typescriptOf(block, x)]),
      ),
    )
    expect(Object.keys(codes).length).toBeGreaterThan(20)
    expect(complaints(codes)).toEqual([])
  })
})
