/**
 * @typedef {object} Seen - a file of tests without any mutant
 * @property {string} file
 * @property {ReadonlyMap<string, number>} loaded - mutants that its loading runs through, and how often
 * @property {readonly { title: string, took: number, covered: ReadonlyMap<string, number> }[]} tests - milliseconds, and
 *   the mutants that the test runs through
 */

/**
 * The tests that a mutant is tried by, the quickest first: those that run through it, then the others of their files,
 * which may ask for what a module made there and kept.
 *
 * @param {string} mutant
 * @param {readonly Seen[]} seen
 */
export function planOf(mutant, seen) {
  const steps = seen.flatMap(({ file, loaded, tests }) => {
    const all = [loaded, ...tests.map(({ covered }) => covered)].reduce((sum, one) => sum + (one.get(mutant) ?? 0), 0)
    if (all === 0) return []
    return tests.map(({ took, covered }, index) => ({
      file,
      index,
      took,
      isThrough: loaded.has(mutant) || covered.has(mutant),
      // A busy machine is no killed mutant: only far beyond what the test took.
      most: 20_000 + 10 * took,
      hits: 10_000 + 100 * all,
    }))
  })
  return steps.sort((a, b) => Number(b.isThrough) - Number(a.isThrough) || a.took - b.took)
}
