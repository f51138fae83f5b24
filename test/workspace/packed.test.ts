import { spawnSync } from 'node:child_process'
import { cpSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, inject, it } from 'vitest'
import { lintTarball } from '../tools/export-maps.js'
import { bundle, bundleEach } from '../tools/size.js'
import { packages, readJson, run, tool } from '../tools/workspace.js'

const packed = inject('packed')

/** Runs a module in the user's project and reads the JSON that it prints. */
function answer(code: string): any {
  writeFileSync(join(packed.folder, 'question.mjs'), code)
  return JSON.parse(run('node', ['question.mjs'], packed.folder))
}

const hasFormulas = (name: string): boolean => './formulas' in readJson(`packages/${name}/package.json`).exports

/** Names of a package's formulas, which have an entry of their own. */
const formulaNames = (name: string): string[] =>
  answer(`const all = await import('@ohmward/${name}/formulas')
    const names = Object.keys(all).filter((key) => typeof all[key] === 'function' && 'expression' in all[key])
    console.log(JSON.stringify(names))`)

describe('packed packages', () => {
  it('hold built code, types and sources, and nothing else', () => {
    expect(packages.length).toBeGreaterThanOrEqual(4)
    for (const name of packages) {
      const folder = join(packed.folder, 'node_modules/@ohmward', name)
      const commands = 'bin' in readJson(`packages/${name}/package.json`) ? ['bin'] : []
      const wanted = ['CHANGELOG.md', 'LICENSE', 'README.md', ...commands, 'dist', 'package.json', 'src']
      expect(readdirSync(folder).sort()).toEqual(wanted)
      const built = readdirSync(join(folder, 'dist'), { recursive: true, encoding: 'utf8' })
      expect(built).toEqual(expect.arrayContaining(['index.js', 'index.d.ts']))
      expect(built.filter((file) => file.endsWith('tsbuildinfo'))).toEqual([])
    }
  })

  it.each(packages)('%s imports as a module and prints nothing', (name) => {
    const exported = answer(
      `const all = await import('@ohmward/${name}'); console.log(JSON.stringify(Object.keys(all)))`,
    )
    expect(exported.length).toBeGreaterThan(0)
  })

  it('compute what they compute here', () => {
    // A sixteenth of an ampere through 2 ohm: Ohm's law, and exact in binary.
    const V_x = answer(`import { senseVoltage } from '@ohmward/divider/formulas'
      console.log(JSON.stringify(senseVoltage({ I_t: 0.0625, I_off: 0, R_span: 2, V_stray: 0 })))`)
    expect(V_x).toBe(0.125)
  })

  it('hold a design in a terminal: written, checked, 1 where it fails', () => {
    const design = run('npx', ['--no-install', 'ohmward', 'new'], packed.folder)
    writeFileSync(join(packed.folder, 'knife.json'), design)
    const { name, version } = JSON.parse(design)
    expect({ name, version }).toEqual({ name: "sailmaker's hot knife", version: 1 })
    const checked = spawnSync('npx', ['--no-install', 'ohmward', 'check', 'knife.json'], { cwd: packed.folder })
    // npm may say there what it thinks of its settings.
    expect(String(checked.stderr).replace(/^npm warn .*\n/gm, '')).toBe('')
    expect(checked.status).toBe(1)
    expect(String(checked.stdout)).toContain("sailmaker's hot knife: fails")
    writeFileSync(join(packed.folder, 'mat.json'), run('npx', ['--no-install', 'ohmward', 'new', 'mat'], packed.folder))
    const held = spawnSync('npx', ['--no-install', 'ohmward', 'check', 'mat.json'], { cwd: packed.folder })
    expect(held.status).toBe(0)
    expect(String(held.stdout)).toContain('seedling mat: holds')
  })

  it('type-check in a strict project, their declarations included', () => {
    const lines = packages.map((name) => `export * as ${name} from '@ohmward/${name}'`)
    lines.push(
      "import { senseVoltage } from '@ohmward/divider/formulas'",
      'export const volts: number = senseVoltage({ I_t: 0.0625, I_off: 0, R_span: 2, V_stray: 0 })',
      '// @ts-expect-error an input is missing',
      'senseVoltage({ I_t: 0.0625, I_off: 0, R_span: 2 })',
      '// @ts-expect-error no text where a number belongs',
      "senseVoltage({ I_t: 0.0625, I_off: 0, R_span: '2', V_stray: 0 })",
    )
    writeFileSync(join(packed.folder, 'sample.ts'), lines.join('\n'))
    const compilerOptions = {
      noEmit: true,
      strict: true,
      exactOptionalPropertyTypes: true,
      noUncheckedIndexedAccess: true,
      skipLibCheck: false,
      target: 'es2022',
      lib: ['es2023'],
      module: 'nodenext',
      types: [],
    }
    writeFileSync(join(packed.folder, 'tsconfig.json'), JSON.stringify({ compilerOptions, files: ['sample.ts'] }))
    tool('tsc', ['-p', '.'], packed.folder)
  })

  it.each(packages)('%s passes the linters of export maps', async (name) => {
    const { faults, resolvers } = await lintTarball(packed.tarballs[name]!)
    expect(faults).toEqual([])
    expect(resolvers.sort()).toEqual(['bundler', 'node16-esm'])
  })

  it.each([
    ['a file that is not there', { types: './dist/index.d.ts', default: './dist/gone.js' }, /FILE_DOES_NOT_EXIST/],
    ['types after the code', { default: './dist/index.js', types: './dist/index.d.ts' }, /TYPES_SHOULD_BE_FIRST/],
    ['types of another kind of module', { types: './dist/other.d.cts', default: './dist/index.js' }, /FalseCJS/],
    ['no types', { default: './dist/other.js' }, /UntypedResolution/],
  ])('an export map with %s does not pass them', async (_, entry, fault) => {
    const folder = mkdtempSync(join(packed.folder, 'faulty-'))
    run('tar', ['-xzf', packed.tarballs['quantity']!, '-C', folder])
    const inside = join(folder, 'package')
    const manifest = JSON.parse(readFileSync(join(inside, 'package.json'), 'utf8'))
    writeFileSync(join(inside, 'package.json'), JSON.stringify({ ...manifest, exports: { '.': entry } }))
    cpSync(join(inside, 'dist/index.d.ts'), join(inside, 'dist/other.d.cts'))
    cpSync(join(inside, 'dist/index.js'), join(inside, 'dist/other.js'))
    run('tar', ['-czf', 'faulty.tgz', 'package'], folder)
    expect((await lintTarball(join(folder, 'faulty.tgz'))).faults.join()).toMatch(fault)
  })
})

describe('bundled', () => {
  /** The user's packages once more, as if their manifests had not said that they are free of side effects. */
  let unmarked: string

  beforeAll(() => {
    unmarked = join(packed.folder, 'unmarked')
    cpSync(join(packed.folder, 'node_modules'), join(unmarked, 'node_modules'), { recursive: true })
    for (const name of packages) {
      const path = join(unmarked, 'node_modules/@ohmward', name, 'package.json')
      const { sideEffects, ...manifest } = JSON.parse(readFileSync(path, 'utf8'))
      expect(sideEffects).toBe(false)
      writeFileSync(path, JSON.stringify(manifest))
    }
  })

  it.each(packages)('%s leaves nothing when nothing of it is used', async (name) => {
    expect((await bundle(`import '@ohmward/${name}'`, packed.folder)).text.trim()).toBe('')
  })

  it.each(packages)(
    '%s has nothing at module level that a bundler must keep, even unasked by its manifest',
    async (name) => {
      const { text } = await bundle(`import '@ohmward/${name}'`, unmarked)
      // A constant made by arithmetic may stay; no function, no text, no call.
      expect(text).not.toMatch(/function|=>|class|["'`]|new /)
    },
  )

  it('one formula alone takes at most 1 kB, and brings no other along', async () => {
    const formulas = packages
      .filter(hasFormulas)
      .flatMap((name) => formulaNames(name).map((formula) => [formula, name] as const))
    expect(formulas.length).toBeGreaterThan(20)
    const modules = formulas.map(([formula, name]) => `export { ${formula} } from '@ohmward/${name}/formulas'`)
    const bundles = await bundleEach(modules, packed.folder)
    for (const [i, { text, gzipped }] of bundles.entries()) {
      expect(text, modules[i]).toContain('expression:')
      expect(gzipped, modules[i]).toBeLessThanOrEqual(1000)
      expect(text.match(/\bsource:\s*["'`]/g)?.length ?? 0, modules[i]).toBeLessThanOrEqual(2)
    }
  })

  // Wanted are 5 kB: what the rail is, thermometry and the parts' limits became formulas too, 72 in all. They must not
  // grow unnoticed.
  it("the divider's formulas alone take at most 6.8 kB", async () => {
    const names = formulaNames('divider')
    expect(names.length).toBeGreaterThan(5)
    const { gzipped } = await bundle(`export { ${names.join(', ')} } from '@ohmward/divider/formulas'`, packed.folder)
    expect(gzipped).toBeLessThanOrEqual(6800)
  })

  // Wanted are 40, 40, 43 and 60 kB: `pnpm bench` says so until they are reached, and they are missed by 12 to 25 kB.
  // Records with their meanings, formulas in the place of arithmetic and engines that doubt more made them larger; then
  // the source that switch and rail take from supply, what a board adds, leads that ring at a limit, and the rows and cautions of it all. A check holds
  // nothing of supply's examples, rails, drawer or solver; and each look at what fields, rows and margins say of themselves. What is reached
  // stands here: none must grow unnoticed.
  it.each([
    ['checkDivider', 'divider', 61.5],
    ['checkHall', 'hall', 59.7],
    ['checkMosfet', 'mosfet', 75.6],
    ['checkDecoupling', 'decoupling', 93.1],
  ])('%s with all it needs stays within its size', async (check, name, kilobytes) => {
    const { text, gzipped } = await bundle(`export { ${check} } from '@ohmward/${name}'`, packed.folder)
    expect(text).toMatch(new RegExp(`as ${check}`))
    expect(gzipped).toBeLessThanOrEqual(1000 * kilobytes)
  })
})
