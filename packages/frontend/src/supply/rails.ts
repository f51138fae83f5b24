import { between, exact, type Spread } from '@ohmward/quantity'
import { type Held, heldThrough, type NotRegulated, type ReadRail, railAt } from '@ohmward/supply'
import { heldRail } from '@ohmward/supply/formulas'
import { mainRail, orderedRails, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { unnoticed } from '../design/use.js'
import { once } from '../kept/once.js'
import { driveDraws } from './drive-draw.js'
import { hull } from './hull.js'
import { monitorDraws } from './monitor-draw.js'
import { sumOf } from './path.js'
import type { Ends } from './place.js'
import { ringLowOf } from './ring-low.js'

/** A rail with the load off and on, V. */
export interface RailState {
  /** With the load off. */
  readonly rest: Spread
  /** With the load off, while the resistance is read: the test current flows as well. */
  readonly measuring: Spread
  /** The lowest that it comes to while the load is on. */
  readonly sag: Spread
  /** Why a regulator can't feed it; its voltage counts as none then. */
  readonly fault?: string | undefined
}

/** The same without the state in which the resistance is read. */
export type LoadedRails = Readonly<Record<string, Omit<RailState, 'measuring'>>>

/** The rails of a design by their names. */
export type Rails = Readonly<Record<string, RailState>>

/**
 * What hangs on a rail: the parts that live there and the rails behind it, A.
 *
 * @param test - the test current, while the resistance is read
 */
export function drawOf(design: ReadDesign, name: string, test: Spread = exact(0)): Spread {
  const { controller, lives, parts: read } = design
  const parts = [
    { rail: railOf(design, 'controller'), current: controller.current },
    { rail: railOf(design, 'sensor'), current: lives.sensorCurrent },
    { rail: railOf(design, 'amplifier'), current: lives.amplifierCurrent },
    ...driveDraws(design),
    ...monitorDraws(design),
    { rail: read.excitation.rail, current: test },
  ].filter(({ rail }) => rail === name)
  const behind = (design.rails ?? []).filter(({ source }) => source === name)
  return sumOf([
    exact(0),
    ...parts.map(({ current }) => current),
    ...behind.flatMap(({ name: own, through }) =>
      through.kind === 'regulator'
        ? [drawOf(design, own, test), through.quiescentCurrent]
        : [drawOf(design, own, test)],
    ),
  ])
}

/** How long the load stays on, where nothing says it, s: pulsed, a diode's capacitor holds nothing for so long; else without end. */
const longest = 10
const endless = 1e9

/** How long the load stays on, and how long it is off then at least before it comes again, s: the pause before each reading of the cells. */
function timesOf({ bursts, monitor, pwm }: ReadDesign): { readonly time: Spread; readonly pause: Spread } {
  const unending = pwm.duty.to === 1 ? endless : Math.max(longest, pwm.duty.to / pwm.frequency)
  const { reads, pause = 0 } = monitor ?? {}
  const isBetween = bursts !== undefined && reads === 'at rest' && pause > unnoticed
  return { time: exact(bursts?.time ?? unending), pause: exact(isBetween ? pause : 0) }
}

/**
 * Every rail behind the main one, from the first to those behind it, with the load off and on. What it sags to is worked out where
 * it is asked for.
 */
export function railsOver(design: ReadDesign, main: Pick<RailState, 'rest' | 'sag'>, { from, to }: Ends): LoadedRails {
  const found: Record<string, LoadedRails[string]> = { [mainRail]: main }
  const ends = from === to ? [from] : [from, to]
  for (const rail of orderedRails(design)) {
    found[rail.name] = stateOf(design, rail, found[rail.source]!, ends)
  }
  return found
}

/**
 * How far a rail stands below the main one, at least 0 V. Both move together, so the main rail is put where it is highest and
 * where it is lowest: what hangs on a regulator or behind a diode is furthest from it at one of the two.
 */
export function gapBelow(design: ReadDesign, name: string, rails: LoadedRails, celsius: Ends): Spread {
  const { rest, sag } = rails[mainRail]!
  const gaps = [rest.upper, rest.nominal, sag.lower].map((V) => {
    const own = railsOver(design, { rest: exact(V), sag: exact(V) }, celsius)[name]!.rest
    return { lower: V - own.upper, nominal: V - own.nominal, upper: V - own.lower }
  })
  const lower = Math.max(0, Math.min(...gaps.map((gap) => gap.lower)))
  const upper = Math.max(lower, ...gaps.map((gap) => gap.upper))
  return lower === upper ? exact(lower) : between(lower, upper, Math.min(Math.max(gaps[1]!.nominal, lower), upper))
}

/** The test current: what drives it across its loop, from the smallest load to the largest, A. */
export function testCurrentOf(design: ReadDesign, rails: LoadedRails): Spread {
  const { rail, series, voltage = rails[rail]!.rest } = design.parts.excitation
  return between(voltage.lower / series.upper, voltage.upper / series.lower, voltage.nominal / series.nominal)
}

/**
 * Every rail with the test current on it too.
 *
 * @param main - the main rail meanwhile
 * @param behind - what becomes of a rail behind another meanwhile, told with what it comes to
 */
export function measuringOver(
  design: ReadDesign,
  rails: LoadedRails,
  main: Spread,
  test: Spread,
  { from, to }: Ends,
  behind: (rail: ReadRail, measuring: Spread) => Spread = (_, measuring) => measuring,
): Rails {
  // A supply of its own for the excitation may hang on the converter's rail or on the main one.
  const onRail = design.parts.excitation.voltage ? between(0, test.upper, test.nominal) : test
  const found: Record<string, RailState> = { [mainRail]: whileMeasuring(rails[mainRail]!, main) }
  for (const rail of orderedRails(design)) {
    const source = found[rail.source]!.measuring
    const current = drawOf(design, rail.name, onRail)
    const states = (from === to ? [from] : [from, to]).map((celsius) => railAt(rail, source, { current, celsius }))
    const measuring = behind(rail, coveredBy(states))
    found[rail.name] = whileMeasuring(rails[rail.name]!, measuring)
  }
  return found
}

/** A rail with what it has meanwhile; its sag stays unasked. */
const whileMeasuring = (rail: LoadedRails[string], measuring: Spread): RailState => ({
  rest: rail.rest,
  measuring,
  get sag() {
    return rail.sag
  },
  get fault() {
    return rail.fault
  },
})

function stateOf(
  design: ReadDesign,
  rail: ReadRail,
  source: LoadedRails[string],
  ends: readonly number[],
): LoadedRails[string] {
  const current = drawOf(design, rail.name)
  const times = timesOf(design)
  const rests = ends.map((celsius) => ({ celsius, at: railAt(rail, source.rest, { current, celsius }) }))
  const sags = once(() => {
    const { rest, sag } = source
    return rests.map(({ celsius, at }) =>
      at.kind === 'impossible' ? at : rung(heldThrough(rail, { rest, sag, ...times, current, celsius })),
    )
  })
  // While a ring holds the main rail below where it comes to, a diode blocks, and its capacitor alone carries what hangs on it.
  const rung = (held: Held | NotRegulated): Held | NotRegulated => {
    const { through } = rail
    if (held.kind === 'impossible' || through.kind !== 'diode') return held
    const { lower: V_log, nominal, upper } = held.voltage
    const I_log = current.upper + through.reverseLeakage.upper
    const lower = heldRail({ V_log, I_log, t_sag: ringLowOf(design), C_h: through.capacitance.lower })
    return lower === V_log ? held : { ...held, voltage: between(Math.max(0, lower), upper, nominal) }
  }
  const lowest = once(() => coveredBy(sags()))
  return {
    rest: coveredBy(rests.map(({ at }) => at)),
    get sag() {
      return lowest()
    },
    get fault() {
      return source.fault ?? sags().flatMap((one) => (one.kind === 'impossible' ? one.reason : []))[0]
    },
  }
}

/** All that a rail comes to; nothing where it can't be fed. */
const coveredBy = (states: readonly (Held | NotRegulated)[]): Spread =>
  hull(states.map((one) => (one.kind === 'impossible' ? exact(0) : one.voltage)))
