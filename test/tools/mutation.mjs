/*
 * `pnpm mutation NAME`: hands the name to the configuration, which stryker's own arguments can't, and says the score with
 * its interval. OHMWARD_MUTATION_SAMPLE=0.05 draws a twentieth of the mutants, by OHMWARD_MUTATION_SEED; OHMWARD_MUTATION_STATIC=0
 * leaves out what runs as a module is loaded.
 */
import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync, rmSync } from 'node:fs'
import { root } from './load.mjs'

const asked = process.argv.slice(2).join(',')
const path = `${root}reports/mutation/${[...new Set(asked.split(',').map((name) => name.split('/')[0]))].join('+')}.json`
rmSync(path, { force: true })
const env = { ...process.env, OHMWARD_MUTATE: asked }
const { status } = spawnSync('stryker', ['run', 'test/stryker.config.mjs'], { cwd: root, env, stdio: 'inherit' })
if (!existsSync(path)) process.exit(status ?? 1)

const { files } = JSON.parse(readFileSync(path, 'utf8'))
const found = Object.values(files).flatMap(({ mutants }) =>
  mutants.map((/** @type {{ status: string }} */ { status }) => status),
)
const count = (/** @type {string[]} */ ...statuses) => found.filter((one) => statuses.includes(one)).length
const killed = count('Killed', 'Timeout')
const tried = killed + count('Survived', 'NoCoverage')
/** Wilson's interval of a share at 95 %; where all were tried there is nothing to be unsure of. */
const z2 = 1.959964 ** 2
const middle = (killed + z2 / 2) / (tried + z2)
const half = (Math.sqrt(z2) / (tried + z2)) * Math.sqrt((killed * (tried - killed)) / tried + z2 / 4)
const percent = (/** @type {number} */ share) => `${(100 * share).toFixed(0)} %`
console.log(
  `${asked}: ${killed} of ${tried} mutants killed, ${percent(killed / tried)}` +
    ` (95 %: ${percent(middle - half)} to ${percent(middle + half)})` +
    (count('Ignored') > 0 ? `, without ${count('Ignored')} that run as a module is loaded` : ''),
)
process.exit(middle + half < 0.9 ? 1 : 0)
