/*
 * `pnpm mutation NAME`: tries mutants of one package by its tests and says the score with its interval.
 * OHMWARD_MUTATION_SAMPLE=0.05 draws a twentieth of the mutants, =80 eighty of them, by OHMWARD_MUTATION_SEED;
 * `--again` tries those that survived the last time, `--by=-laws` with the files of tests only whose names have that.
 * NAME may be a file, `divider/src/chain.ts`, or several names.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { root } from '../tools/load.mjs'
import { bundled } from './bundle.mjs'
import { instrumented } from './instrumented.mjs'
import { planOf } from './plan.mjs'
import { isAlive, isSame, placeOf, score, sentenceOf } from './score.mjs'
import { Watched } from './watched.mjs'

const isAgain = process.argv.includes('--again')
const by = process.argv.find((word) => word.startsWith('--by='))?.slice(5) ?? ''
const asked = process.argv.slice(2).filter((word) => !word.startsWith('--'))
const packages = [...new Set(asked.map((name) => name.split('/')[0] ?? ''))]
const all = readdirSync(`${root}packages`, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)
if (packages.length === 0 || packages.some((name) => !all.includes(name)))
  throw new Error(`pnpm mutation NAME: NAME is one or more of ${all.join(', ')}`)
// Tests that share what they calculate make it anew: each must be seen to run through what it looks at.
process.env['OHMWARD_MUTATE'] = packages.join()

const path = `${root}reports/mutation/${packages.join('+')}.json`
/** @type {import('./score.mjs').Told[]} */
const before = isAgain ? JSON.parse(readFileSync(path, 'utf8')) : []
const isOpen = (/** @type {import('./sample.mjs').Mutant} */ mutant) =>
  before.some((told) => isAlive(told) && isSame(told, placeOf(mutant)))

const { sources, mutants, of } = await instrumented(asked, isAgain ? isOpen : undefined)
console.log(`${mutants.length} mutants ${isAgain ? 'that survived' : 'drawn'} of ${of}`)
const { code, files } = await bundled(packages, sources)
const worker = new Watched(code)
const started = Date.now()
const seconds = () => `${((Date.now() - started) / 1000).toFixed(0)} s`

/** @type {import('./plan.mjs').Seen[]} */
const seen = []
for (const file of files.filter((path) => path.includes(by))) {
  const answer = await worker.ask({ file })
  if (answer.tests === undefined) throw new Error(`${file} fails without a mutant: ${JSON.stringify(answer)}`)
  seen.push({ file, ...answer })
}
console.log(`${seen.flatMap(({ tests }) => tests).length} tests of ${seen.length} files without a mutant: ${seconds()}`)

/** Whether tests pass alone and without a mutant, by their names. @type {Map<string, boolean>} */
const alone = new Map()
/** What comes of a mutant. A test that fails without those before it, with a mutant or without, says nothing. @param {string} mutant */
async function tried(mutant) {
  let steps = planOf(mutant, seen)
  if (steps.length === 0) return { status: 'not reached' }
  for (;;) {
    const answer = await worker.ask({ mutant, steps })
    const step = steps[answer.step]
    if (answer.status !== 'killed' || step === undefined) return answer
    if (!alone.has(answer.by))
      alone.set(answer.by, (await worker.ask({ mutant: '', steps: [step] })).status === 'survived')
    if (alone.get(answer.by)) return answer
    steps = steps.slice(answer.step + 1)
  }
}

/** @type {import('./score.mjs').Told[]} */
const told = []
for (const mutant of mutants) {
  const one = { ...placeOf(mutant), ...(await tried(mutant.id)) }
  told.push(one)
  console.log(`${told.length} of ${mutants.length}, ${seconds()}: ${isAlive(one) ? sentenceOf(one) : one.status}`)
  mkdirSync(`${root}reports/mutation`, { recursive: true })
  const others = before.filter((was) => !told.some((is) => isSame(was, is)))
  writeFileSync(path, `${JSON.stringify([...others, ...told], null, 2)}\n`)
}
await worker.end()
if (told.length > 0) console.log(`${asked.join()}: ${score(told).text}, in ${seconds()}; ${path}`)
process.exit(told.length > 0 && score(told).highest < 0.9 ? 1 : 0)
