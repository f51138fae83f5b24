import type { Block, ChangeSpec, ChangeStart, Remedies, Rung } from '@ohmward/budget'
import { decoupling, decouplingRemedies } from '@ohmward/decoupling'
import { divider, dividerRemedies } from '@ohmward/divider'
import { hall, hallRemediesOf } from '@ohmward/hall'
import { mosfet, mosfetRemedies } from '@ohmward/mosfet'
import type { BlockAt } from '../blocks/block-at.js'
import { decouplingAt } from '../blocks/decoupling-at.js'
import { dividerAt } from '../blocks/divider-at.js'
import { hallAt } from '../blocks/hall-at.js'
import { mosfetAt } from '../blocks/mosfet-at.js'
import { isolatedRail } from '../blocks/rail-limits.js'
import type { ReadDesign } from '../design/record.js'
import { isPulsed } from '../pulse/conducting.js'
import type { ReadWhole } from './whole.js'

/** A path of a block's choice in the design; undefined where the design gives that to the block otherwise. */
type PathOf = (path: string) => string | undefined

/** What of a block's choice is the design's own. */
const shared: Readonly<Record<string, string>> = {
  'load.rise': 'load.rise',
  'limits.brownOut': 'controller.brownOut',
  'limits.clock': 'controller.lowestSupply',
}

const pathIn =
  (block: string, given: readonly string[], renamed = shared): PathOf =>
  (path) => {
    if (path in renamed && block === 'decoupling') return renamed[path]
    const [first = ''] = path.split('.')
    if (first === 'pwm' && block !== 'decoupling') return path
    return first === 'conditions' || given.includes(first) ? undefined : `${block}.${path}`
  }

/** The remedies of the four blocks, each tried with what the supply leaves its block, its values put into the design. */
export function blockRemedies({ design, walk, span }: ReadWhole): Remedies {
  const solved = walk.over(span).solved
  const { firmware } = walk
  const own = hallAt(design, solved, firmware)
  const calm = decouplingAt(design, solved)
  const inDecoupling = inDecouplingOf(design)
  const found: Remedies[] = [
    ofBlock(divider, dividerAt(design, solved, firmware), dividerRemedies, 'divider', pathIn('divider', [])),
    ofBlock(hall, own, hallRemediesOf(hall.read(own.choice, own.conditions)), 'hall', pathIn('hall', ['otherTasks'])),
    ofBlock(mosfet, mosfetAt(design, solved), mosfetRemedies, 'mosfet', pathIn('mosfet', ['load'])),
    ofBlock(decoupling, calm, decouplingRemedies, 'decoupling', inDecoupling),
    ...(isPulsed(design)
      ? [
          ofBlock(
            decoupling,
            decouplingAt(design, solved, 'PWM', firmware.edges()),
            decouplingRemedies,
            'decoupling/PWM',
            inDecoupling,
          ),
        ]
      : []),
  ]
  return Object.assign({}, ...found) as Remedies
}

/** Resistor and capacitor before the controller stand in the list of rails. */
function inDecouplingOf(design: ReadDesign): PathOf {
  const given = ['source', 'load', 'idle', 'limits']
  const rail = isolatedRail(design)
  if (rail === undefined) return pathIn('decoupling', given)
  const through = `rails.${rail.place}.through`
  const own = { 'logicRail.resistance': `${through}.resistance`, 'logicRail.capacitance': `${through}.capacitance` }
  return pathIn('decoupling', [...given, 'logicRail'], { ...shared, ...own })
}

/** A block's remedies under its name. */
function ofBlock<C, D, R>(
  block: Pick<Block<C, D, R>, 'read'>,
  { choice, conditions }: BlockAt<C, D>,
  remedies: Remedies,
  name: string,
  pathOf: PathOf,
): Remedies {
  let read: R | undefined
  const start = ({ parts }: ChangeStart): ChangeStart => {
    read ??= block.read(choice, conditions)
    return { choice, conditions, read, ...(parts && { parts }) }
  }
  const [folder] = name.split('/') as [string]
  const known = new Map<ChangeSpec, ChangeSpec>()
  const inDesign = (spec: ChangeSpec): ChangeSpec => {
    const made = known.get(spec) ?? {
      id: `${folder}/${spec.id}`,
      name: spec.name,
      order: spec.order,
      rungs: (given: ChangeStart) => spec.rungs(start(given)).flatMap((rung) => putIn(rung, pathOf)),
    }
    known.set(spec, made)
    return made
  }
  return Object.fromEntries(Object.entries(remedies).map(([row, specs]) => [`${name}/${row}`, specs.map(inDesign)]))
}

/** A rung with its values where the design has them; none where it puts something that the design gives otherwise. */
function putIn({ puts, text }: Rung, pathOf: PathOf): Rung[] {
  const found: Record<string, unknown> = {}
  for (const [path, value] of Object.entries(puts)) {
    const own = pathOf(path)
    if (own === undefined) return []
    found[own] = value
  }
  return [{ puts: found, text }]
}
