import { BaseSequencer, type TestSpecification, type Vitest } from 'vitest/node'

/** What each file took when it was first seen to its end, in milliseconds. */
const durations = new Map<string, number>()

/**
 * Test files by what they take, the quickest first: under mutation the first failure ends a run, and Vitest's own order,
 * the longest first, tries a mutant by whole designs before it tries it by arithmetic.
 */
export class CheapestFirst extends BaseSequencer {
  constructor(context: Vitest) {
    super(context)
  }

  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const longestFirst = await super.sort(files)
    for (const { project, moduleId } of files) {
      const key = `${project.name}:${moduleId.slice(this.ctx.config.root.length + 1)}`
      const seen = this.ctx.cache.getFileTestResults(key)
      if (seen !== undefined && !seen.failed && !durations.has(moduleId)) durations.set(moduleId, seen.duration)
    }
    const duration = ({ moduleId }: TestSpecification) => durations.get(moduleId) ?? Number.POSITIVE_INFINITY
    return longestFirst.reverse().sort((a, b) => (duration(a) < duration(b) ? -1 : duration(a) > duration(b) ? 1 : 0))
  }
}
