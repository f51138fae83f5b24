import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'
import { packages, readJson, root } from '../tools/workspace.js'

/*
 * The public face: every name that a package exports, by entry, in a committed file. A new name is a decision, seen in a
 * diff; every one has a doc comment. OHMWARD_UPDATE=1 writes the file anew.
 */

const file = `${root}test/results/face.json`

/** What several packages have alike, each its own: the same role under the same name. */
const parallel = [
  'chainFormulas',
  'exampleChoice',
  'exampleConditions',
  'loadFields',
  'readingOf',
  'surroundingsFields',
  'timingFields',
  'type Bursts',
  'type ChainInputs',
  'type Curve',
  'type Limits',
  'type Load',
  'type Reading',
  'type Signal',
]

/** The entries of each package: `@ohmward/budget/statistics` and the file of its types. */
const entries = packages.flatMap((name) =>
  Object.entries(
    readJson(`packages/${name}/package.json`).exports as Record<string, string | { types: string }>,
  ).flatMap(([path, entry]) =>
    typeof entry === 'string'
      ? []
      : [{ entry: `@ohmward/${name}${path.slice(1)}`, types: `${root}packages/${name}/${entry.types}` }],
  ),
)

const program = ts.createProgram({
  rootNames: entries.map(({ types }) => types),
  options: { module: ts.ModuleKind.NodeNext, moduleResolution: ts.ModuleResolutionKind.NodeNext, skipLibCheck: true },
})
const checker = program.getTypeChecker()

/** The names that an entry exports, types marked as such, and those without a doc comment. */
function faceOf(types: string) {
  const source = program.getSourceFile(types)!
  const symbols = checker.getExportsOfModule(checker.getSymbolAtLocation(source)!)
  const named = symbols.map((symbol) => {
    const real = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol
    const isValue = (real.flags & ts.SymbolFlags.Value) !== 0
    const isSaid = ts.displayPartsToString(real.getDocumentationComment(checker)).trim() !== ''
    return { name: isValue ? symbol.name : `type ${symbol.name}`, isSaid }
  })
  return {
    names: named.map(({ name }) => name).sort(),
    silent: named.filter(({ isSaid }) => !isSaid).map(({ name }) => name),
  }
}

const faces = Object.fromEntries(entries.map(({ entry, types }) => [entry, faceOf(types)]))

describe('the public face', () => {
  it('is that of the committed file', () => {
    const names = Object.fromEntries(Object.entries(faces).map(([entry, face]) => [entry, face.names]))
    if (process.env['OHMWARD_UPDATE']) writeFileSync(file, `${JSON.stringify(names, null, 1)}\n`)
    expect(existsSync(file)).toBe(true)
    const message = 'the public face differs: run this test with OHMWARD_UPDATE=1 and review the change'
    expect(names, message).toEqual(JSON.parse(readFileSync(file, 'utf8')))
  })

  it.each(Object.keys(faces))('%s says of each name what it is for', (entry) => {
    expect(faces[entry]!.names.length).toBeGreaterThan(0)
    expect(faces[entry]!.silent).toEqual([])
  })

  it('keeps a name for one thing over all packages', () => {
    const homes = new Map<string, string[]>()
    for (const [entry, { names }] of Object.entries(faces)) {
      // Formulas are the blocks' own; what they are made of is the bare twin of what everyone else takes.
      if (/\/formulas?$/.test(entry)) continue
      for (const name of names) homes.set(name, [...(homes.get(name) ?? []), entry])
    }
    const shared = [...homes].filter(([name, all]) => all.length > 1 && !parallel.includes(name))
    expect(shared).toEqual([])
    expect(parallel.filter((name) => (homes.get(name) ?? []).length < 2)).toEqual([])
  })
})
