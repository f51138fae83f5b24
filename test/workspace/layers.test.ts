import { readFileSync } from 'node:fs'
import { posix } from 'node:path'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'
import { layers, packages, readJson, root, sourcesOf } from '../tools/workspace.js'

/** What a source file imports or re-exports, types included. */
const importsOf = (path: string): string[] =>
  ts.preProcessFile(readFileSync(`${root}${path}`, 'utf8'), true, true).importedFiles.map(({ fileName }) => fileName)

/** The first way that leads back to where it began, or nothing. */
function circleOf(next: ReadonlyMap<string, readonly string[]>): string[] {
  const done = new Set<string>()
  const from = (path: string, way: readonly string[]): string[] => {
    if (way.includes(path)) return [...way.slice(way.indexOf(path)), path]
    if (done.has(path)) return []
    for (const target of next.get(path) ?? []) {
      const circle = from(target, [...way, path])
      if (circle.length > 0) return circle
    }
    done.add(path)
    return []
  }
  for (const path of next.keys()) {
    const circle = from(path, [])
    if (circle.length > 0) return circle
  }
  return []
}

describe('layers', () => {
  it('name every package that exists', () => {
    expect(packages.length).toBeGreaterThanOrEqual(4)
    expect(packages.filter((name) => layers[name] === undefined)).toEqual([])
  })

  it('see imports of every form', () => {
    const text = "import 'a'\nimport type { B } from 'b'\nexport * from 'c'\nconst d = await import('d')\n"
    expect(ts.preProcessFile(text, true, true).importedFiles.map(({ fileName }) => fileName)).toEqual([
      'a',
      'b',
      'c',
      'd',
    ])
  })

  /** A package by what is imported of it: its main entry, or one of its own such as `@ohmward/adc/formulas`. */
  const packageOf = (wanted: string): string => /^@ohmward\/[a-z]+/.exec(wanted)?.[0] ?? wanted

  describe.each(packages)('%s', (name) => {
    const sources = sourcesOf(name)
    const imports = sources.flatMap((path) => importsOf(path).map((wanted) => ({ path, wanted })))
    const foreign = imports.filter(({ wanted }) => !wanted.startsWith('.'))

    it('imports only what lies below it, and nothing from outside', () => {
      expect(sources.length).toBeGreaterThan(0)
      const allowed = layers[name]!.map((below) => `@ohmward/${below}`)
      expect(foreign.filter(({ wanted }) => !allowed.includes(packageOf(wanted)))).toEqual([])
    })

    it('imports exactly the packages that it depends on', () => {
      const declared = Object.keys(readJson(`packages/${name}/package.json`).dependencies)
      expect([...new Set(foreign.map(({ wanted }) => packageOf(wanted)))].sort()).toEqual(declared.sort())
    })

    it('reaches its own files with .js, and never leaves its folder', () => {
      const own = imports.filter(({ wanted }) => wanted.startsWith('.'))
      expect(own.length).toBeGreaterThan(0)
      const wrong = own.filter(({ path, wanted }) => {
        const target = posix.join(posix.dirname(path), wanted)
        return !(wanted.endsWith('.js') && target.startsWith(`packages/${name}/src/`))
      })
      expect(wrong).toEqual([])
    })

    it('has no circle of imports, not even of types', () => {
      const next = new Map<string, string[]>()
      for (const { path, wanted } of imports.filter(({ wanted }) => wanted.startsWith('.'))) {
        const target = posix.join(posix.dirname(path), wanted).replace(/\.js$/, '.ts')
        next.set(path, [...(next.get(path) ?? []), target])
      }
      expect(circleOf(next)).toEqual([])
    })
  })

  it('see a circle where there is one', () => {
    const next = new Map([
      ['a', ['b', 'c']],
      ['b', ['c']],
      ['c', ['d']],
    ])
    expect(circleOf(next)).toEqual([])
    expect(circleOf(next.set('d', ['b']))).toEqual(['b', 'c', 'd', 'b'])
  })
})
