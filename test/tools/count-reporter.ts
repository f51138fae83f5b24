import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import type { Reporter, SerializedError, TestModule, TestRunEndReason } from 'vitest/node'

/**
 * Prints the counts alone on a line at the very end, so that a person or a script sees them without reading the rest.
 * Where the tests run in parts, each but the last leaves its counts in the file `OHMWARD_COUNTS_TO`, and the last adds
 * those of all files of `OHMWARD_COUNTS_FROM`, with commas between: the last line stands for all.
 */
export class CountReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly SerializedError[], reason: TestRunEndReason): void {
    let passed = 0
    let failed = errors.length
    for (const module of modules) {
      let failedHere = 0
      for (const test of module.children.allTests()) {
        const { state } = test.result()
        if (state === 'passed') passed++
        if (state === 'failed') failedHere++
      }
      // A file that can't be loaded, or whose preparation fails, counts as one failure.
      failed += failedHere === 0 && module.state() === 'failed' ? 1 : failedHere
    }
    // What ends a run before any test, a failing set-up, must not read as nothing failed.
    if (reason === 'failed' && failed === 0) failed = 1
    if (passed + failed === 0) failed = 1
    const [to, from] = [process.env['OHMWARD_COUNTS_TO'], process.env['OHMWARD_COUNTS_FROM']]
    if (to !== undefined) {
      mkdirSync(dirname(to), { recursive: true })
      writeFileSync(to, JSON.stringify({ passed, failed }))
    }
    for (const file of from?.split(',') ?? []) {
      const earlier = JSON.parse(readFileSync(file, 'utf8')) as { passed: number; failed: number }
      passed += earlier.passed
      failed += earlier.failed
    }
    process.stdout.write(`\n${passed} passed, ${failed} failed\n`)
  }
}
