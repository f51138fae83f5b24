import { execFileSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

/** The repository's folder, with a slash at its end. */
export const root = fileURLToPath(new URL('../..', import.meta.url))

/** Which packages each may import: the layers, from the bottom up. A package that isn't here is refused. */
export const layers: Readonly<Record<string, readonly string[]>> = {
  quantity: [],
  budget: ['quantity'],
  adc: ['quantity', 'budget'],
  supply: ['quantity', 'budget'],
  divider: ['quantity', 'budget', 'adc'],
  hall: ['quantity', 'budget', 'adc'],
  mosfet: ['quantity', 'budget', 'supply'],
  decoupling: ['quantity', 'budget', 'supply'],
  frontend: ['quantity', 'budget', 'adc', 'supply', 'divider', 'hall', 'mosfet', 'decoupling'],
}

/** Names of the packages that exist: `quantity`, `budget`, … */
export const packages: readonly string[] = readdirSync(`${root}packages`).filter((name) =>
  existsSync(`${root}packages/${name}/package.json`),
)

export const readJson = (path: string): any => JSON.parse(readFileSync(`${root}${path}`, 'utf8'))

/** Files below a package's `src`, relative to the repository. */
export const sourcesOf = (name: string): string[] => files(`packages/${name}/src`, '.ts')

/** Files below a folder whose names end so, relative to the repository. */
export function files(folder: string, ending: string): string[] {
  return readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith(ending) && !path.includes('node_modules'))
    .map((path) => `${folder}/${path}`)
    .sort()
}

/** Runs a tool of the workspace and returns what it prints; what a failing one prints is in the error. */
export function run(command: string, args: readonly string[], cwd = root): string {
  try {
    return execFileSync(command, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] })
  } catch (error) {
    const { stdout, stderr, message } = error as { stdout?: string; stderr?: string; message: string }
    throw new Error([message, stdout, stderr].filter(Boolean).join('\n'))
  }
}

/** A program of the workspace's own `node_modules/.bin`. */
export const tool = (name: string, args: readonly string[], cwd = root): string =>
  run(`${root}node_modules/.bin/${name}`, args, cwd)

/** pnpm of the version that `npm start` names. */
export function pnpm(args: readonly string[], cwd = root): string {
  const version = /pnpm@(\d+\.\d+\.\d+)/.exec(readJson('package.json').scripts.start)?.[1]
  return run('npx', ['--yes', `pnpm@${version}`, ...args], cwd)
}
