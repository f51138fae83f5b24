import type { Assessment, Block } from '@ohmward/budget'
import { readDesign } from '../design/read.js'
import type { Design, ReadDesign } from '../design/record.js'
import type { Span } from '../walk/place.js'
import type { ReadyRow } from '../walk/stage.js'
import { chargeRow } from '../walk/supply-rows.js'
import { type Walk, walkOf } from '../walk/walk.js'

/** A design that was read, and how far down it must hold. */
export interface ReadWhole {
  readonly design: ReadDesign
  readonly walk: Walk
  /** From full to the charge that must be usable, at every temperature and age. */
  readonly span: Span
}

/** A design as a block, so that changes are tried on all of it: every row over the charge that must be usable. */
export const whole: Block<Design, null, ReadWhole> = {
  name: 'frontend',
  read: (given) => {
    const design = readDesign(given)
    const walk = walkOf(design, { charges: 2 })
    const to = Math.max(walk.charges.at(-1)!, 1 - design.requirements.usableCharge)
    return { design, walk, span: { charge: { from: 1, to }, ...walk.around } }
  },
  at: (read) => read,
  setup: ({ design, walk, span }) => ({
    rows: [...rowsOf(walk, span), ...chargeRow(design)].map(({ id, row }) => ({ ...row, id })),
    report: unasked,
  }),
}

const rowsOf = (walk: Walk, span: Span): readonly ReadyRow[] =>
  walk.stages.flatMap((stage) => walk.over(span).ready(stage))

/** Changes ask for rows alone. */
const unasked = (): Omit<Assessment, 'block' | 'verdict' | 'margins'> => ({
  summary: '',
  values: {},
  derivation: [],
  budgets: {},
  cautions: [],
  assumptions: [],
})
