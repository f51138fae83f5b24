import { between, exact, type Spread } from '@ohmward/quantity'
import { heldThrough, type ReadRail, railAt } from '@ohmward/supply'
import { mainRail, orderedRails, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { hull } from './hull.js'
import { sumOf } from './path.js'
import type { Ends } from './place.js'

/** A rail with the load off and on, V. */
export interface RailState {
  /** With the load off. */
  readonly rest: Spread
  /** The lowest that it comes to while the load is on. */
  readonly sag: Spread
  /** Why a regulator can't feed it; its voltage counts as none then. */
  readonly fault?: string
}

/** The rails of a design by their names. */
export type Rails = Readonly<Record<string, RailState>>

/** What hangs on a rail: the parts that live there and the rails behind it, A. */
export function drawOf(design: ReadDesign, name: string): Spread {
  const { controller, lives } = design
  const parts = [
    { rail: railOf(design, 'controller'), current: controller.current },
    { rail: railOf(design, 'sensor'), current: lives.sensorCurrent },
    { rail: railOf(design, 'amplifier'), current: lives.amplifierCurrent },
  ].filter(({ rail }) => rail === name)
  const behind = (design.rails ?? []).filter(({ source }) => source === name)
  return sumOf([
    exact(0),
    ...parts.map(({ current }) => current),
    ...behind.flatMap(({ name: own, through }) =>
      through.kind === 'regulator' ? [drawOf(design, own), through.quiescentCurrent] : [drawOf(design, own)],
    ),
  ])
}

/** How long the load stays on, where nothing says it: a diode's capacitor holds nothing for so long. */
const longest = 10

/** Every rail behind the main one, from the first to those behind it. */
export function railsOver(design: ReadDesign, main: Omit<RailState, 'fault'>, { from, to }: Ends): Rails {
  const found: Record<string, RailState> = { [mainRail]: main }
  for (const rail of orderedRails(design)) {
    const source = found[rail.source]!
    const current = drawOf(design, rail.name)
    const ends = from === to ? [from] : [from, to]
    const states = ends.map((celsius) => stateOf(design, rail, source, current, celsius))
    const fault = source.fault ?? states.find((one) => one.fault !== undefined)?.fault
    found[rail.name] = {
      rest: hull(states.map(({ rest }) => rest)),
      sag: hull(states.map(({ sag }) => sag)),
      ...(fault !== undefined && { fault }),
    }
  }
  return found
}

/**
 * How far a rail stands below the main one, at least 0 V. Both move together, so the main rail is put where it is highest and
 * where it is lowest: what hangs on a regulator or behind a diode is furthest from it at one of the two.
 */
export function gapBelow(design: ReadDesign, name: string, rails: Rails, celsius: Ends): Spread {
  const { rest, sag } = rails[mainRail]!
  const gaps = [rest.upper, rest.nominal, sag.lower].map((V) => {
    const own = railsOver(design, { rest: exact(V), sag: exact(V) }, celsius)[name]!.rest
    return { lower: V - own.upper, nominal: V - own.nominal, upper: V - own.lower }
  })
  const lower = Math.max(0, Math.min(...gaps.map((gap) => gap.lower)))
  const upper = Math.max(lower, ...gaps.map((gap) => gap.upper))
  return lower === upper ? exact(lower) : between(lower, upper, Math.min(Math.max(gaps[1]!.nominal, lower), upper))
}

function stateOf(
  { bursts }: ReadDesign,
  rail: ReadRail,
  source: RailState,
  current: Spread,
  celsius: number,
): RailState {
  const rest = railAt(rail, source.rest, { current, celsius })
  const time = exact(bursts?.time ?? longest)
  const sag = heldThrough(rail, { rest: source.rest, sag: source.sag, time, current, celsius })
  const none = exact(0)
  if (rest.kind === 'impossible') return { rest: none, sag: none, fault: rest.reason }
  if (sag.kind === 'impossible') return { rest: rest.voltage, sag: none, fault: sag.reason }
  return { rest: rest.voltage, sag: sag.voltage }
}
