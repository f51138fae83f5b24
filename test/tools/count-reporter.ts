import type { Reporter, SerializedError, TestModule, TestRunEndReason } from 'vitest/node'

/** Prints the counts alone on a line at the very end, so that a person or a script sees them without reading the rest. */
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
    process.stdout.write(`\n${passed} passed, ${failed} failed\n`)
  }
}
