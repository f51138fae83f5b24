import {
  type BoardSimulation,
  type Design,
  type DesignChange,
  type DesignChanges,
  type DesignPreview,
  designChanges,
  parseDesign,
  previewDesignLater,
  simulateBoardsLater,
  withChange,
  writeDesign,
} from '@ohmward/frontend'
import { InputError } from '@ohmward/quantity'
import { type Whole, wholeOf } from './answer.ts'

/** Its answer, what would help, or how many boards work. */
export type Asked = 'answer' | 'changes' | 'boards'

/** What the page asks of a design, as text. */
export interface Question {
  readonly text: string
  readonly of: Asked
  /** Whether the text comes from a file: it is put on the page once it was read. */
  readonly isNew?: boolean
  /** A change that is put in before. */
  readonly change?: Pick<DesignChange, 'puts'>
}

/** What comes back: how far it is, then the answer, or why there is none. */
export interface Reply {
  readonly progress?: number
  /** The design with the change in it. */
  readonly text?: string
  /** The map at a glance, while the walk takes its time. */
  readonly preview?: DesignPreview
  readonly whole?: Whole
  readonly changes?: DesignChanges
  readonly boards?: BoardSimulation
  readonly refused?: string
}

const say = (reply: Reply) => self.postMessage(reply)

self.onmessage = async ({ data: { text, of, change, isNew } }: MessageEvent<Question>) => {
  try {
    const given: Design = parseDesign(text)
    const puts = Object.entries(change?.puts ?? {}).map(([path, value]) => [path, value ?? undefined])
    const design = change ? withChange(given, { puts: Object.fromEntries(puts) }) : given
    if (change || isNew) say({ text: writeDesign(design) })
    if (of === 'answer') {
      say({ preview: await previewDesignLater(design) })
      say({ whole: await wholeOf(design, (progress) => say({ progress })) })
    }
    if (of === 'changes') say({ changes: designChanges(design, { onProgress: (progress) => say({ progress }) }) })
    if (of === 'boards')
      say({ boards: await simulateBoardsLater(design, { onProgress: (progress) => say({ progress }) }) })
  } catch (error) {
    say({ refused: error instanceof InputError ? error.message : `The check failed: ${String(error)}` })
  }
}
