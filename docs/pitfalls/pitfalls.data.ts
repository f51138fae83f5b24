import { load, watch } from '../.vitepress/build/sources.ts'
import { argumentsOf, type Block, demoOf } from '../.vitepress/theme/block.ts'
import type { PitfallChapter } from './pitfall.ts'
import { amplifier } from './texts/amplifier.ts'
import { connections } from './texts/connections.ts'
import { converter } from './texts/converter.ts'
import { hall } from './texts/hall.ts'
import { integers } from './texts/integers.ts'
import { rail } from './texts/rail.ts'
import { supply } from './texts/supply.ts'
import { powerSwitch } from './texts/switch.ts'
import { temperature } from './texts/temperature.ts'

/** A margin of a worked example that catches a pitfall. */
export interface Catching {
  readonly block: string
  readonly id: string
  readonly name: string
}

/** All chapters, and the margins of the worked examples by pitfall. */
export interface Pitfalls {
  readonly chapters: readonly PitfallChapter[]
  readonly caught: Readonly<Record<string, readonly Catching[]>>
}

export declare const data: Pitfalls

/** The pitfalls, chapter by chapter. */
export const chapters = [amplifier, connections, temperature, converter, hall, integers, powerSwitch, rail, supply]

/** What each worked example's margins catch. */
async function caughtBy(blocks: readonly string[]): Promise<Record<string, Catching[]>> {
  const caught: Record<string, Catching[]> = {}
  for (const name of blocks) {
    const { block } = await load<{ block: Block }>(`${name}/block.ts`)
    for (const { id, name: margin, catches } of block.check(argumentsOf(block, demoOf(block)), false).margins)
      for (const code of catches) caught[code] = [...(caught[code] ?? []), { block: name, id, name: margin }]
  }
  return caught
}

export default {
  watch,
  load: async (): Promise<Pitfalls> => ({
    chapters,
    caught: await caughtBy(['divider', 'hall', 'mosfet', 'decoupling']),
  }),
}
