import { mkdirSync, mkdtempSync, readdirSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pnpm, readJson, run } from './workspace.js'

/** An empty project of a user, with every package installed from its tarball. */
export interface Packed {
  readonly folder: string
  /** Path of each tarball by the package's name. */
  readonly tarballs: Readonly<Record<string, string>>
}

/** Packs every built package, and installs the tarballs into an empty project, without the network. */
export function installPacked(packages: readonly string[]): Packed {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-packed-'))
  const store = join(folder, 'tarballs')
  mkdirSync(store)
  pnpm(['--recursive', '--filter', './packages/*', 'pack', '--pack-destination', store])
  const tarballs: Record<string, string> = {}
  for (const name of packages) {
    const file = `ohmward-${name}-${readJson(`packages/${name}/package.json`).version}.tgz`
    if (!readdirSync(store).includes(file)) throw new Error(`${file} wasn't packed: ${readdirSync(store)}`)
    tarballs[name] = join(store, file)
  }
  const files = Object.fromEntries(packages.map((name) => [`@ohmward/${name}`, `file:${tarballs[name]}`]))
  // The packages name each other by version, which no registry has: each name leads to its tarball.
  const manifest = {
    name: 'user',
    version: '1.0.0',
    type: 'module',
    private: true,
    dependencies: files,
    overrides: files,
  }
  writeFileSync(join(folder, 'package.json'), JSON.stringify(manifest))
  run('npm', ['install', '--offline', '--no-audit', '--no-fund', '--loglevel=error'], folder)
  return { folder, tarballs }
}
