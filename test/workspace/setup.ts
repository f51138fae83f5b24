import { tool } from '../tools/workspace.js'

/** What a user gets is built code: once, before any test of the workspace looks at it. */
export default function build(): void {
  tool('tsc', ['-b', 'packages'])
}
