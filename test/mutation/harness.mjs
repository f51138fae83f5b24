import {
  ASYMMETRIC_MATCHERS_OBJECT,
  addCustomEqualityTesters,
  chai,
  GLOBAL_EXPECT,
  JestAsymmetricMatchers,
  JestChaiExpect,
  JestExtend,
  setState,
} from '@vitest/expect'

/*
 * What the tests ask of vitest: its own `expect`, and as much of `describe` and `it` as they use. Each test can so be
 * run alone, any number of times, which vitest does in a new process only.
 */

/**
 * @typedef {object} Test
 * @property {string} title
 * @property {() => unknown} run
 */

chai.use(JestExtend)
chai.use(JestChaiExpect)
chai.use(JestAsymmetricMatchers)
const expect = Object.assign(
  (/** @type {unknown} */ value, /** @type {string | undefined} */ message) => chai.expect(value, message),
  chai.expect,
  /** @type {any} */ (globalThis)[ASYMMETRIC_MATCHERS_OBJECT],
  { addEqualityTesters: addCustomEqualityTesters },
)
setState({ assertionCalls: 0 }, /** @type {any} */ (expect))
Object.defineProperty(globalThis, GLOBAL_EXPECT, { value: expect, writable: true, configurable: true })

/** Where tests are put as a file of them is loaded. @type {Test[]} */
let found = []
let path = ''
/** What is to be done when all is over. @type {(() => unknown)[]} */
const last = []

/** @param {unknown} title @param {unknown} first @param {unknown} [second] - what is done, or before it its options */
function it(title, first, second) {
  const run = /** @type {() => unknown} */ (typeof first === 'function' ? first : second)
  found.push({ title: `${path}${title}`, run })
}

/** @param {unknown} title @param {unknown} first @param {unknown} [second] */
function describe(title, first, second) {
  const put = /** @type {() => void} */ (typeof first === 'function' ? first : second)
  const outside = path
  path += `${title} > `
  put()
  path = outside
}

/** `it` or `describe` with the forms of them that the tests use. @param {typeof it} call */
function withForms(call) {
  const nothing = () => {}
  return Object.assign(call, {
    each:
      (/** @type {readonly unknown[]} */ rows) =>
      (/** @type {string} */ title, /** @type {any} */ first, /** @type {any} */ second) => {
        const run = typeof first === 'function' ? first : second
        // Only where all rows are lists are they the arguments.
        const areLists = rows.every((row) => Array.isArray(row))
        for (const [i, row] of rows.entries())
          call(`${title} ${i}`, () => (areLists ? run(.../** @type {unknown[]} */ (row)) : run(row)))
      },
    skipIf: (/** @type {unknown} */ condition) => (condition ? nothing : call),
    runIf: (/** @type {unknown} */ condition) => (condition ? call : nothing),
  })
}

const types = { toEqualTypeOf() {} }

/** Stands in the place of the module `vitest`. */
export const vitest = {
  expect,
  it: withForms(it),
  describe: withForms(describe),
  afterAll: (/** @type {() => unknown} */ run) => void last.push(run),
  expectTypeOf: () => types,
  vi: { setConfig() {} },
}

/** The tests that a file puts down as it is loaded. @param {() => unknown} load */
export function testsIn(load) {
  found = []
  path = ''
  load()
  return found
}

/** Does what files of tests have left for the end. */
export function end() {
  for (const run of last.splice(0)) run()
}
