import { existsSync, readFileSync } from 'node:fs'
import ts from 'typescript'
import { root } from '../sources.ts'

/** A piece of code that runs as it is printed, and what it prints. */
export interface Example {
  readonly code: string
  readonly output: string
  /** What it imports: `@ohmward/adc toCode`. */
  readonly uses: ReadonlySet<string>
}

const results = `${root}test/results/examples.json`

/** The examples of a page: `docs/api/examples/PAGE.ts` holds them as functions, a test has run them and kept what they print. */
export function examplesOf(page: string): Example[] {
  const path = `${root}docs/api/examples/${page}.ts`
  if (!existsSync(path)) return []
  const outputs = existsSync(results) ? (JSON.parse(readFileSync(results, 'utf8')) as Record<string, string[]>) : {}
  return writtenIn(path).map((one, i) => ({ ...one, output: outputs[page]?.[i] ?? '' }))
}

/** The code of each example with the imports and the constants that it needs. */
function writtenIn(path: string): Pick<Example, 'code' | 'uses'>[] {
  const source = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.ES2022, true)
  const imports = new Map<string, { module: string; text: string }>()
  const constants = new Map<string, ts.VariableStatement>()
  let functions: readonly ts.ArrowFunction[] = []
  for (const statement of source.statements) {
    if (ts.isImportDeclaration(statement)) {
      const module = (statement.moduleSpecifier as ts.StringLiteral).text
      const names = statement.importClause!.namedBindings as ts.NamedImports
      for (const one of names.elements) imports.set(one.name.text, { module, text: one.getText() })
    } else if (ts.isVariableStatement(statement)) {
      const [{ name, initializer }] = statement.declarationList.declarations as unknown as [ts.VariableDeclaration]
      if (name.getText() === 'examples') {
        functions = (initializer as ts.ArrayLiteralExpression).elements as unknown as readonly ts.ArrowFunction[]
      } else constants.set(name.getText(), statement)
    }
  }
  return functions.map((one) => {
    const needed = new Set<string>()
    const collect = (node: ts.Node): void => {
      if (ts.isIdentifier(node) && !needed.has(node.text)) {
        needed.add(node.text)
        const constant = constants.get(node.text)
        if (constant) collect(constant)
      }
      ts.forEachChild(node, collect)
    }
    collect(one.body)
    const used = [...imports].filter(([name]) => needed.has(name)).map(([, one]) => one)
    const modules = [...new Set(used.map(({ module }) => module))].sort()
    const before = [...constants].filter(([name]) => needed.has(name)).map(([, statement]) => statement.getText())
    return {
      uses: new Set([...imports].flatMap(([name, { module }]) => (needed.has(name) ? [`${module} ${name}`] : []))),
      code: [
        modules.map((module) =>
          importOf(
            module,
            used.filter((one) => one.module === module).map(({ text }) => text),
          ),
        ),
        before,
        bodyOf(one),
      ]
        .map((lines) => (Array.isArray(lines) ? lines.join('\n') : lines))
        .filter(Boolean)
        .join('\n\n'),
    }
  })
}

function importOf(module: string, names: readonly string[]): string {
  const line = `import { ${names.join(', ')} } from '${module}'`
  return line.length <= 110 ? line : `import {\n${names.map((name) => `  ${name},`).join('\n')}\n} from '${module}'`
}

/** What a function does, as the statements of a module: what it returns, or what that comes to, is printed. */
function bodyOf({ body, modifiers }: ts.ArrowFunction): string {
  const isAsync = modifiers?.some(({ kind }) => kind === ts.SyntaxKind.AsyncKeyword) ?? false
  const shown = (text: string) => `console.log(${isAsync ? 'await ' : ''}${text})`
  if (!ts.isBlock(body)) return dedented(shown(inner(body).getText()), depthOf(inner(body)))
  const returns: ts.ReturnStatement[] = []
  const seek = (node: ts.Node): void => {
    if (ts.isReturnStatement(node)) returns.push(node)
    else if (!ts.isArrowFunction(node)) ts.forEachChild(node, seek)
  }
  seek(body)
  const start = body.statements[0]!.getStart()
  let code = body
    .getText()
    .slice(start - body.getStart(), -1)
    .trimEnd()
  for (const one of returns.reverse()) {
    const text = one.expression!.getText()
    code =
      code.slice(0, one.getStart() - start) +
      (text === 'undefined' ? '' : shown(text)) +
      code.slice(one.getEnd() - start)
  }
  return dedented(code.trimEnd(), depthOf(body.statements[0]!))
}

const inner = (node: ts.Expression): ts.Expression => (ts.isParenthesizedExpression(node) ? node.expression : node)
const depthOf = (node: ts.Node): number => {
  const source = node.getSourceFile()
  const line = source.text.slice(source.text.lastIndexOf('\n', node.getStart()) + 1)
  return /^ */.exec(line)![0].length
}
const dedented = (code: string, depth: number): string => code.replaceAll(`\n${' '.repeat(depth)}`, '\n')
