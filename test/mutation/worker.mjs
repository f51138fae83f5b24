import { createRequire } from 'node:module'
import vm from 'node:vm'
import { parentPort, workerData } from 'node:worker_threads'
import fc from 'fast-check'
import { root } from '../tools/load.mjs'
import { end, testsIn, vitest } from './harness.mjs'

/*
 * Loads the tests and the instrumented sources anew for each mutant, from code that is compiled once, and runs of the
 * tests what it is told. Says in shared memory what it is at, so that whoever started it can see it hang.
 */

/** @type {{ code: string, beats: SharedArrayBuffer }} */
const { code, beats } = workerData
const port = /** @type {import('node:worker_threads').MessagePort} */ (parentPort)
const beat = new Float64Array(beats)
const script = new vm.Script(code, { filename: 'tests.cjs' })
// From the site's folder: what a law proves through its typesetter stands there, all else above it.
const outside = createRequire(`${root}docs/package.json`)

let active = ''
let hits = 0
let mostHits = Number.POSITIVE_INFINITY
/** Mutants whose places were run through, and how often. @type {Map<string, number> | undefined} */
let covered

Object.assign(globalThis, {
  /** @param {string} id */
  stryMutAct_9fa48(id) {
    if (id !== active) return false
    if (++hits > mostHits) throw new Error('A mutant is asked without end')
    return true
  },
  /** @param {string[]} ids */
  stryCov_9fa48(...ids) {
    if (covered !== undefined) for (const id of ids) covered.set(id, (covered.get(id) ?? 0) + 1)
  },
})

/** Files of tests whose modules have done nothing yet. */
function fresh() {
  const module = { exports: /** @type {any} */ ({}) }
  script.runInThisContext()(
    (/** @type {string} */ id) => (id === 'vitest' ? vitest : outside(id)),
    module,
    module.exports,
  )
  // The first failure is enough: nobody reads the least example.
  fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true })
  return /** @type {Record<string, () => unknown>} */ (module.exports.files)
}

/** @param {number} most - milliseconds that what begins now may take */
function begin(most) {
  beat[0] = Date.now()
  beat[1] = most
  hits = 0
}

/** What each test takes, in milliseconds, and the mutants that it runs through, of one file without any mutant. @param {string} file */
async function look(file) {
  active = ''
  covered = new Map()
  const loaded = covered
  begin(600_000)
  const tests = testsIn(/** @type {() => unknown} */ (fresh()[file]))
  const seen = []
  for (const { title, run } of tests) {
    covered = new Map()
    const started = performance.now()
    await run()
    seen.push({ title, took: performance.now() - started, covered })
  }
  covered = undefined
  end()
  return { loaded, tests: seen }
}

/**
 * @typedef {object} Step - a test to run
 * @property {string} file
 * @property {number} index - in its file
 * @property {number} most - milliseconds that it may take
 * @property {number} hits - how often it may ask the mutant
 */

/** The test that sees a mutant, or nothing. @param {string} mutant @param {readonly Step[]} steps */
async function attempt(mutant, steps) {
  active = mutant
  mostHits = Number.POSITIVE_INFINITY
  begin(60_000)
  try {
    const files = fresh()
    /** @type {Record<string, import('./harness.mjs').Test[]>} */
    const loaded = {}
    for (const [k, step] of steps.entries()) {
      mostHits = Number.POSITIVE_INFINITY
      begin(60_000)
      let by = step.file
      try {
        loaded[step.file] ??= testsIn(/** @type {() => unknown} */ (files[step.file]))
        const test = loaded[step.file]?.[step.index]
        if (test === undefined) continue
        by = `${step.file} > ${test.title}`
        begin(step.most)
        mostHits = step.hits
        await test.run()
      } catch (error) {
        const status = hits > mostHits ? 'timed out' : 'killed'
        return { status, by, step: by === step.file ? undefined : k, error: String(error).slice(0, 300) }
      }
      if (hits > mostHits) return { status: 'timed out', by }
    }
    return { status: 'survived' }
  } catch (error) {
    return { status: 'killed', by: 'loading', error: String(error).slice(0, 300) }
  } finally {
    active = ''
    end()
  }
}

port.on('message', async ({ file, mutant, steps }) => {
  try {
    port.postMessage(file === undefined ? await attempt(mutant, steps) : await look(file))
  } catch (error) {
    port.postMessage({ failed: error instanceof Error ? error.stack : String(error) })
  }
})
