import { type Assessment, assess, type Block } from '@ohmward/budget'
import { decoupling } from '@ohmward/decoupling'
import { divider } from '@ohmward/divider'
import { hall } from '@ohmward/hall'
import { mosfet } from '@ohmward/mosfet'
import { InputError } from '@ohmward/quantity'
import { mainRail, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { type BlockAt, decouplingAt, dividerAt, hallAt, mosfetAt } from '../walk/choices.js'
import { spanOf } from '../walk/place.js'
import type { Walk } from '../walk/walk.js'
import { usableSpan } from './power.js'

/** What no calculation covers. */
const always: readonly string[] = [
  'Lithium-ion cells burn when over-discharged, over-charged, shorted or hot: protection is the job of a part made for it.',
  'Results are design aids: verify on the bench.',
]

/** Cautions that every block has and the whole says once. */
const said: readonly string[] = ['lithium-ion', 'verify']

/** The whole's own cautions, then those of its blocks, warm and at the end of life, with the charge that must be usable left. */
export function cautionsOf(walk: Walk): string[] {
  const { design, around, firmware } = walk
  const { charge } = usableSpan(walk)
  const { solved } = walk.over(spanOf({ charge: charge.to, celsius: around.celsius.to, age: around.age.to }))
  return [
    ...new Set([
      ...always,
      ...cellCautions(design),
      ...ofBlock(mosfet, mosfetAt(design, solved)),
      ...ofBlock(divider, dividerAt(design, solved, firmware)),
      ...ofBlock(hall, hallAt(design, solved, firmware)),
      ...ofBlock(decoupling, decouplingAt(design, solved)),
    ]),
  ]
}

function cellCautions(design: ReadDesign): string[] {
  const { source } = design.supply
  if (source.kind !== 'cell') return []
  const found: string[] = []
  if (source.inSeries > 1)
    found.push(
      'Cells in series drift apart: their sum looks well while the weakest is driven below its damage voltage or charged above its limit. Balance them while charging, and watch each (common practice, no source).',
    )
  if (design.monitor === undefined && (source.inSeries > 1 || railOf(design, 'controller') !== mainRail))
    found.push(
      'Nothing watches the cells: behind a regulator the controller runs on while they are drained, and only the protection stops it. Read them through a divider (monitor.divider).',
    )
  return found
}

/** The cautions of a block; none where it refuses what the supply leaves it. */
function ofBlock<C, D, R, A extends Assessment>(
  block: Block<C, D, R, A>,
  { choice, conditions, at }: BlockAt<C, D>,
): string[] {
  try {
    const { cautions } = assess({ ...block, read: (c, d) => block.at(block.read(c, d), at) }, choice, conditions, {
      simulation: false,
    })
    return cautions.filter(({ id }) => !said.includes(id)).map(({ text }) => text)
  } catch (error) {
    if (error instanceof InputError) return []
    throw error
  }
}
