import { holdRow, type Margin } from '@ohmward/budget'
import type { ReadyRow } from '../rows/ready-row.js'
import type { State } from '../supply/place.js'
import type { SolvedSpan } from '../supply/solve.js'
import type { BlockName, Stage } from './stage.js'

/** A row of a block, held at a place in a state. */
export interface RowAt {
  /** Names it in the whole design: `divider/headroom`. */
  readonly id: string
  readonly block: BlockName
  readonly state: State
  readonly margin: Margin
}

/** What holding rows may cost over a whole walk, and what each was where it was held first: over all that is walked, or where it seemed short. */
export interface Work {
  left: number
  readonly first: Map<string, Margin>
  /** Whether a row was not held at some span. */
  isCut: boolean
}

const notHeld =
  'the walk over the discharge takes more steps than a check may take: at this charge the row was not looked at by itself'

/** The rows of every block over a span: each block is made ready, and each row held, when it is first asked for. */
export class HeldSpan {
  readonly solved: SolvedSpan
  readonly stages: readonly Stage[]
  readonly #ready = new Map<Stage, readonly ReadyRow[]>()
  readonly #margins = new Map<string, Margin>()

  readonly #work: Work | undefined

  /** @param work - what may be spent; no end to it by default */
  constructor(solved: SolvedSpan, stages: readonly Stage[], work?: Work) {
    this.solved = solved
    this.stages = stages
    this.#work = work
  }

  /** The rows of a stage, not held yet. */
  ready(stage: Stage): readonly ReadyRow[] {
    const rows = this.#ready.get(stage) ?? stage.ready(this.solved)
    this.#ready.set(stage, rows)
    return rows
  }

  /** A row held; undefined where the stage has none of that name here. */
  margin(stage: Stage, id: string): Margin | undefined {
    const known = this.#margins.get(id)
    if (known !== undefined) return known
    const found = this.ready(stage).find((one) => one.id === id)
    if (found === undefined) return undefined
    const margin = this.#hold(found)
    this.#margins.set(id, margin)
    return margin
  }

  /** Holds a row as long as there is something left to spend: then it is what it was first, and not sure. */
  #hold({ id, row, spent }: ReadyRow): Margin {
    const work = this.#work
    if (spent === undefined || work === undefined) return holdRow(row).margin
    const first = work.first.get(id)
    if (first !== undefined && work.left <= 0) {
      work.isCut = true
      return { ...first, verdict: 'not sure', reason: notHeld }
    }
    const before = spent()
    const { margin } = holdRow(row)
    work.left -= spent() - before
    if (first === undefined) work.first.set(id, margin)
    return margin
  }

  /** Lets go of what made a stage ready; what was held of it stays known. */
  forget(stage: Stage): void {
    this.#ready.delete(stage)
  }

  /** Every row of every block. */
  all(): RowAt[] {
    return this.stages.flatMap((stage) =>
      this.ready(stage).map(({ id }) => {
        const { block, state } = stage
        return { id, block, state, margin: this.margin(stage, id)! }
      }),
    )
  }
}
