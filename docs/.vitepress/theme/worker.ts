import type { Assessment, Changes } from '@ohmward/budget'
import { InputError } from '@ohmward/quantity'
import type { Arguments, Block, Sizing, Sweep, Texts } from './block.ts'
import { refusalOf } from './read.ts'

/** What the page asks: a check at once, without simulation, or the whole answer. */
export interface Question {
  /** Ascending from 1; 0 for a rehearsal, which gets no answer. */
  readonly id: number
  readonly block: string
  readonly x: Arguments
  readonly whole: boolean
  /** Which values would do better, in place of a check; and what the reader says of them. */
  readonly size?: Texts
}

/** A field that isn't allowed, by its path, and why; or that it is missing. */
export interface Refusal {
  readonly field: string
  readonly message: string
  readonly missing?: true
  /** Other fields of the same record. */
  readonly also?: readonly Refusal[]
}

/** What comes back, in one piece or several. */
export interface Reply {
  readonly id: number
  readonly assessment?: Assessment
  readonly sweep?: Sweep
  readonly changes?: Changes
  readonly sizing?: Sizing
  /** How many candidates of a search are settled, and of how many. */
  readonly progress?: readonly [settled: number, of: number]
  /** Another piece follows. */
  readonly isPart?: true
  readonly refused?: Refusal
  /** A mistake of the library. */
  readonly failed?: string
}

const blocks = import.meta.glob<{ block: Block }>('../../*/block.ts')
const say = (reply: Reply) => self.postMessage(reply)

/** Times that a rehearsal checks: by then the engine has compiled what a check runs through. */
const rehearsals = 12
let asked = false

/** Checks and tells nobody, until somebody asks. What is wrong with the choice, the answer will say. */
function rehearse(block: Block, x: Arguments, whole: boolean, times = whole ? 2 : rehearsals) {
  if (asked || times === 0) return
  try {
    block.check(x, whole)
  } catch {
    return
  }
  setTimeout(() => rehearse(block, x, whole, times - 1))
}

self.onmessage = async ({ data: { id, block: name, x, whole, size } }: MessageEvent<Question>) => {
  try {
    asked ||= id > 0
    const { block } = await blocks[`../../${name}/block.ts`]!()
    if (id === 0) return rehearse(block, x, whole)
    if (size) {
      const progress = (settled: number, of: number) => say({ id, progress: [settled, of], isPart: true })
      return say({ id, sizing: block.size(x, size, progress) })
    }
    const { sweep, changes } = block
    say({ id, assessment: block.check(x, whole), ...(whole && { isPart: true }) })
    if (!whole) return
    say({ id, ...(sweep && { sweep: sweep(x) }), isPart: true })
    say({ id, ...(changes && { changes: changes(x) }) })
  } catch (error) {
    if (id === 0) return
    if (error instanceof InputError) say({ id, refused: refusalOf(error) })
    else say({ id, failed: String(error) })
  }
}
