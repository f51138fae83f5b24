import type { BlockRow } from '@ohmward/budget'
import { divider } from '@ohmward/divider'
import { neededProtection } from '@ohmward/divider/formulas'
import { between, exact, type Spread } from '@ohmward/quantity'
import { pinAt } from '@ohmward/supply'
import { mainRail, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { sumOf } from '../supply/path.js'
import { drawOf, gapBelow } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import type { ReadyRow } from './ready-row.js'

/** A supply that the sense node can stand above. */
interface Supply {
  /** Its rail; undefined for one of its own, of which nothing is known that would take a current. */
  readonly name: string | undefined
  /** How far the driven load stands above it, at least 0 V. */
  readonly gap: Spread
}

/**
 * The sense node while the load is driven: it stands at the main rail. Above the amplifier's supply its protection must keep the
 * current into the clamp small; above that of the excitation a current flows back through the reference resistor and what is
 * inside the open switch; a load at the rail stands there all the time. What comes into a rail that way lifts it unless what lives there takes it. Pitfalls A07, J06.
 */
export function senseRows(design: ReadDesign, solved: SolvedSpan): ReadyRow[] {
  const { lives, ambientCelsius } = design
  const { pinClamp: V_clamp } = lives
  const { rest } = solved.rails[mainRail]!
  const read = divider.read(design.divider, { rail: { from: rest.upper, to: rest.upper }, ambientCelsius })
  const isAtRail = read.topology === 'load at rail'
  const above = (own: Spread | undefined, name: string): Supply => {
    if (own === undefined) return { name, gap: gapBelow(design, name, solved.rails, solved.span.celsius) }
    const upper = Math.max(0, rest.upper - own.lower)
    const nominal = Math.max(0, rest.nominal - own.nominal)
    return { name: undefined, gap: upper === 0 ? exact(0) : between(0, upper, nominal) }
  }
  const { amplifierSupply } = design.divider
  const converter = railOf(design, 'converter')
  const amplifier = above(read.amplifierSupply, amplifierSupply === 'rail' ? converter : railOf(design, 'amplifier'))
  const excitation = above(read.excitation, converter)
  const series = isAtRail ? read.gainResistors.ground : read.surroundings.protectionResistance
  const rows: ReadyRow[] = []
  if (amplifier.gap.upper > V_clamp) {
    const limit = neededProtection({ V_over: amplifier.gap.upper, V_clamp, I_clamp: lives.pinCurrent })
    rows.push(
      row(
        {
          id: 'sense-clamp',
          name: 'series resistance of the sense input while the load is driven',
          unit: 'ohm',
          sense: 'at least',
          catches: ['A07', 'J06'],
        },
        series.lower,
        limit,
        series.nominal,
      ),
    )
  }
  const into = (supply: Supply, R: Spread) => ({
    name: supply.name,
    current: pinAt(supply.gap, exact(0), R, exact(V_clamp)).current,
  })
  const back = [
    ...(series.lower > 0 ? [into(amplifier, series)] : []),
    ...(lives.excitationBackward === 'blocks' ? [] : [into(excitation, read.reference)]),
  ].filter(({ current }) => current.upper > 0)
  for (const name of new Set(back.map((one) => one.name))) {
    const { upper, nominal } = sumOf(back.filter((one) => one.name === name).map(({ current }) => current))
    const taken = name === undefined ? 0 : drawOf(design, name).lower
    rows.push(
      row(
        {
          id: `back-feed-${name ?? 'own'}`,
          name: `current from the ${isAtRail ? 'load at the rail' : 'driven load'} back into ${name === undefined ? 'a supply of its own' : `the rail ${name}`}, against its load`,
          unit: 'A',
          sense: 'at most',
          catches: ['A07', 'J06'],
        },
        upper,
        taken,
        nominal,
      ),
    )
  }
  return rows
}

function row(
  text: Pick<BlockRow, 'id' | 'name' | 'unit' | 'sense' | 'catches'>,
  worst: number,
  limit: number,
  nominal: number,
) {
  return { id: `rails/${text.id}`, row: { kind: 'plain', ...text, worst, limit, nominal } } as const
}
