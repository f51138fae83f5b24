import {
  type Assessment,
  type Block,
  blockOf,
  type Caution,
  cautionsFor,
  dangerFirst,
  designAid,
  hotLoad,
  lithiumIon,
} from '@ohmward/budget'
import { decoupling } from '@ohmward/decoupling'
import { divider } from '@ohmward/divider'
import { hall } from '@ohmward/hall'
import { mosfet } from '@ohmward/mosfet'
import { format, InputError } from '@ohmward/quantity'
import type { BlockAt } from '../blocks/block-at.js'
import { decouplingAt } from '../blocks/decoupling-at.js'
import { dividerAt } from '../blocks/divider-at.js'
import { hallAt } from '../blocks/hall-at.js'
import { mosfetAt } from '../blocks/mosfet-at.js'
import { mainRail, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { isReadSoon, lackingOf, rested } from '../monitor/lag.js'
import { pauseOf } from '../pulse/off-times.js'
import { spanOf } from '../supply/place.js'
import type { SolvedSpan } from '../supply/solve.js'
import type { Walk } from '../walk/walk.js'
import { earlyReading } from './power/early-reading.js'
import { usableSpan } from './power/usable.js'

const cut: Caution = {
  id: 'walk-cut-short',
  text: 'The discharge took more steps than a check may take. Rail checks that did not hold over all of it were not repeated at every charge: there they count as not sure, and as failing.',
}

/** Cautions of the whole and of its blocks, warm and at the end of life, with the charge that must be usable left; what can hurt first. */
export function cautionsOf(walk: Walk): string[] {
  const { design, around, firmware } = walk
  const { charge } = usableSpan(walk)
  const { solved } = walk.over(spanOf({ charge: charge.to, celsius: around.celsius.to, age: around.age.to }))
  const all = [
    hotLoad,
    designAid,
    ...(walk.isCut() ? [cut] : []),
    ...cellCautions(design),
    ...statedSupplies(design),
    ...earlyReading(walk),
    ...aboveInputs(walk, solved),
    ...ofBlock(mosfet, mosfetAt(design, solved)),
    ...ofBlock(divider, dividerAt(design, solved, firmware)),
    ...ofBlock(hall, hallAt(design, solved, firmware)),
    ...ofBlock(decoupling, decouplingAt(design, solved)),
  ]
  const isCell = design.supply.source.kind === 'cell'
  return dangerFirst(all.filter(({ id }) => isCell || id !== lithiumIon.id)).map(({ text }) => text)
}

/** Those of its cells, and of who watches them. */
export function cellCautions(design: ReadDesign): Caution[] {
  const { source } = design.supply
  if (source.kind !== 'cell') return []
  const found: Caution[] = [lithiumIon]
  if (source.inSeries > 1)
    found.push({
      id: 'series',
      danger: true,
      text: 'Cells in series drift apart: their sum looks fine while the weakest is discharged below its damage voltage or charged above its limit. Balance them while charging, and monitor each (common practice, no source).',
    })
  if (design.monitor === undefined && (source.inSeries > 1 || railOf(design, 'controller') !== mainRail))
    found.push({
      id: 'unwatched',
      danger: true,
      text: 'Nothing monitors the cells: behind a regulator the controller runs on while they drain, until the protection acts. Read them through a divider (monitor.divider).',
    })
  const pause = pauseOf(design)
  if (design.monitor?.reads === 'at rest' && pause !== undefined && pause < rested && design.monitor.lacking !== 0)
    found.push({
      id: 'slow-recovery',
      text: `The cells are read ${format(pause, 's', { digits: 2 })} after the load. They recover partly at once, partly over up to half an hour (common practice, no source): ${percentOf(lackingOf(design))} of the sag is counted as still to recover${isReadSoon(design) ? ', and all of it where it decides' : ''}. After long bursts, cold and old it is more: measure it (monitor.lacking).`,
    })
  return found
}

const percentOf = (share: number): string => `${Number((100 * share).toPrecision(3))} %`

/** A load at a rail that the amplifier of its measurement hasn't: its inputs stand there, too. Pitfall A05. */
export function aboveInputs({ design }: Walk, { rails }: SolvedSpan): Caution[] {
  const { divider } = design
  const name = railOf(design, 'amplifier')
  if (divider.topology !== 'load at rail' || name === mainRail || isStated(divider.amplifierSupply)) return []
  const volts = (value: number) => format(value, 'V', { digits: 3 })
  const [main, own] = [rails[mainRail]!.rest.upper, rails[name]!.rest.upper]
  if (main <= own) return []
  return [
    {
      id: 'above-inputs',
      text: `The load, on the main rail, puts the amplifier inputs at ${volts(main)}; the amplifier runs on ${volts(own)} from ${name}. No gain and no resistor changes that; a load at ground, switched on the high side, does.`,
    },
  ]
}

/** Supplies that are stated as a voltage: the walk doesn't sag them. */
export function statedSupplies({ mosfet, divider, hall }: Pick<ReadDesign, 'mosfet' | 'divider' | 'hall'>): Caution[] {
  const { supply } = mosfet.drive
  const stated = [
    ...(typeof supply === 'object' && 'regulated' in supply ? ['mosfet.drive.supply'] : []),
    ...(isStated(divider.amplifierSupply) ? ['divider.amplifierSupply'] : []),
    ...(isStated(hall.sensorSupply) ? ['hall.sensorSupply'] : []),
  ]
  if (stated.length === 0) return []
  return [
    {
      id: 'stated-supply',
      text: `Assumed constant whatever the cells do: ${stated.join(', ')}. A supply made from the main rail sags with it: list it in rails, and name it in lives.`,
    },
  ]
}

const isStated = (supply: unknown): boolean => supply !== undefined && supply !== 'rail'

/** Those of a block; none where it refuses what the supply leaves it. */
function ofBlock<C, D, R, A extends Assessment>(
  block: Block<C, D, R, A>,
  { choice, conditions, at }: BlockAt<C, D>,
): readonly Caution[] {
  try {
    const there = blockOf<C, D, R, A>({ ...block, read: (c, d) => block.at(block.read(c, d), at) })
    return cautionsFor(there, choice, conditions)
  } catch (error) {
    if (error instanceof InputError) return []
    throw error
  }
}
