import type { Arguments, Block } from './block.ts'

/** What the page asks: the whole check with simulation, and the sweep. */
export interface Question {
  readonly id: number
  readonly block: string
  readonly x: Arguments
}

const blocks = import.meta.glob<{ block: Block }>('../../blocks/*.ts')

self.onmessage = async ({ data: { id, block: name, x } }: MessageEvent<Question>) => {
  const { block } = await blocks[`../../blocks/${name}.ts`]!()
  self.postMessage({ id, assessment: block.check(x, true) })
  if (block.sweep) self.postMessage({ id, sweep: block.sweep(x) })
}
