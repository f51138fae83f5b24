// `pnpm mutation NAME`: hands the name to the configuration, which stryker's own arguments can't.
import { spawnSync } from 'node:child_process'
import { root } from './load.mjs'

const env = { ...process.env, OHMWARD_MUTATE: process.argv.slice(2).join(',') }
const { status } = spawnSync('stryker', ['run', 'test/stryker.config.mjs'], { cwd: root, env, stdio: 'inherit' })
process.exit(status ?? 1)
