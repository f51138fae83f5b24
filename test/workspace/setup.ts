import { rmSync } from 'node:fs'
import type { TestProject } from 'vitest/node'
import { installPacked, type Packed } from '../tools/packed.js'
import { packages, tool } from '../tools/workspace.js'

declare module 'vitest' {
  export interface ProvidedContext {
    packed: Packed
  }
}

/** What a user gets is built code, packed and installed: once, before any test of the workspace looks at it. */
export default function build({ provide }: TestProject): () => void {
  tool('tsc', ['-b', 'packages'])
  const packed = installPacked(packages)
  provide('packed', packed)
  return () => rmSync(packed.folder, { recursive: true })
}
