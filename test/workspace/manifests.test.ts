import { existsSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { layers, packages, readJson, root } from '../tools/workspace.js'

const keys = 'name version description license type sideEffects engines exports files dependencies'.split(' ')

describe('manifests', () => {
  it('are there', () => {
    expect(packages.length).toBeGreaterThanOrEqual(4)
  })

  it('build every package, and the site shows every package', () => {
    const built = readJson('packages/tsconfig.json').references.map(({ path }: { path: string }) => path)
    expect(built.sort()).toEqual([...packages].sort())
    const shown = Object.keys(readJson('docs/package.json').dependencies).filter((name) => name.startsWith('@ohmward/'))
    expect(shown.sort()).toEqual(packages.map((name) => `@ohmward/${name}`).sort())
  })

  it.each(packages)('%s is published like all others', (name) => {
    const manifest = readJson(`packages/${name}/package.json`)
    const workspace = readJson('package.json')
    // A package with a command of its own has it in bin.
    const bin = manifest.bin === undefined ? [] : ['bin']
    expect(Object.keys(manifest).filter((key) => key !== 'bin')).toEqual(keys)
    expect(manifest).toMatchObject({
      name: `@ohmward/${name}`,
      version: workspace.version,
      license: workspace.license,
      type: 'module',
      sideEffects: false,
      engines: workspace.engines,
      files: [...bin, 'dist', '!dist/.tsbuildinfo', 'src', 'CHANGELOG.md'],
    })
    expect(manifest.description.length).toBeGreaterThan(20)
    const { '.': main, './package.json': itself, ...others } = manifest.exports
    expect(main).toEqual({ types: './dist/index.d.ts', default: './dist/index.js' })
    expect(itself).toBe('./package.json')
    for (const [path, entry] of Object.entries(others)) {
      const folder = /^\.\/([a-z]+)$/.exec(path)?.[1]
      expect(entry).toEqual({ types: `./dist/${folder}/index.d.ts`, default: `./dist/${folder}/index.js` })
      expect(existsSync(`${root}packages/${name}/src/${folder}/index.ts`), `${name}${path}`).toBe(true)
    }
    expect(existsSync(`${root}packages/${name}/README.md`), `packages/${name}/README.md`).toBe(true)
    const changes = readFileSync(`${root}packages/${name}/CHANGELOG.md`, 'utf8')
    expect(changes, 'the version that is next has its section').toContain(`## ${manifest.version}`)
  })

  it.each(packages)('%s depends only on packages below it, and its build refers to the same', (name) => {
    const { dependencies } = readJson(`packages/${name}/package.json`) as { dependencies: Record<string, string> }
    const below = Object.keys(dependencies).map((key) => key.replace('@ohmward/', ''))
    expect(below.filter((key) => !layers[name]!.includes(key))).toEqual([])
    expect(Object.values(dependencies).filter((version) => version !== 'workspace:*')).toEqual([])
    const config = readJson(`packages/${name}/tsconfig.json`)
    expect(config).toEqual({
      extends: '../../tsconfig.base.json',
      compilerOptions: { rootDir: 'src', outDir: 'dist', tsBuildInfoFile: 'dist/.tsbuildinfo' },
      include: ['src'],
      references: config.references,
    })
    const referred = (config.references ?? []).map(({ path }: { path: string }) => path.replace('../', ''))
    expect(referred.sort()).toEqual(below.sort())
  })
})
