import { type ReleasedRail, type SampledRail, type Sampling, sampledRail } from '@ohmward/decoupling'
import { exact, InputError, type Spread } from '@ohmward/quantity'
import type { ReadDesign } from '../design/record.js'
import { textOfGiven } from '../kept/known-margins.js'
import { lately } from '../kept/lately.js'
import { once } from '../kept/once.js'
import { type Edges, isPulsed } from '../pulse/conducting.js'
import { dropToCome, isHeld } from '../pulse/pulse.js'
import { noRing, type Ring, type Rings } from '../pulse/rung.js'
import { sensedAfter } from '../pulse/sensed.js'
import type { SolvedSpan } from '../supply/solve.js'
import { decouplingAt, goesIn } from './decoupling-at.js'
import type { Firmware } from './firmware.js'

/** What a sample finds that is followed no further: nothing is known of it but that a ring goes from nothing to twice the rest. */
const unknown: Omit<SampledRail, 'released'> = {
  lowest: 0,
  highest: 2,
  below: 1,
  above: 1,
  share: 2,
  behind: 2,
  least: 0,
  most: 2,
  mean: 0,
}
const unknownAfter: ReleasedRail = { below: 1, above: 1, share: 2, behind: 2 }

/** Rails that were followed: most changes of a search leave the rail as it is. */
const sampled = /*#__PURE__*/ lately<SampledRail | undefined>(500)

/** A ring that is none: so much of the rail, and of what it falls by. */
const least = 1e-6

/**
 * What a sample of the main rail may find in the pulses where the inductance of the source rings with the capacitors, and in the pauses;
 * undefined where there is none, or where it has died away.
 *
 * @param early - share of the drop of the rail that is still to come in a pulse without a ring, at most
 * @param edges - delay and edge of the switch, at most, s: its pulses are longer and shorter by those than told
 * @param resistance - of the source, up to the board, ohm
 */
export function ringAt(
  design: ReadDesign,
  solved: SolvedSpan,
  sampling: Sampling,
  early: number,
  edges: Edges | undefined,
  resistance = solved.source.resistance,
): SampledRail | undefined {
  const { inductance, openCircuit, currentLimit } = solved.source
  const { capacitance } = design.parts
  const isStill = inductance.upper === 0 || capacitance === 0 || capacitance === Number.POSITIVE_INFINITY
  if (!isPulsed(design) || isStill) return undefined
  const { choice, conditions } = decouplingAt(design, solved, 'PWM', edges)
  const { capacitors, load, idle } = choice
  const { ambientCelsius, ageYears } = conditions
  const { released = [] } = sampling
  // A limit that is never reached changes nothing.
  const limit = isHeld(design, solved) && currentLimit ? { currentLimit } : {}
  try {
    const source = { openCircuit, resistance, inductance, ...limit }
    const given = [
      { source, capacitors, load: { ...load, fall: goesIn(design) }, idle, limits: { converter: 1e-3 } },
      { ambientCelsius, ageYears },
      sampling,
    ] as const
    const found = sampled(textOfGiven(given), () => sampledRail(...given)) ?? {
      ...unknown,
      released: released.map(() => unknownAfter),
    }
    // What only falls, and only comes back, is known without: no later than all time constants added up, since the inductance's current goes on.
    const isLoaded = found.below > least || found.share > early * (1 + least)
    const isAfter = found.released.some(({ above }) => above > least)
    return isLoaded || isAfter ? found : undefined
  } catch (error) {
    // As where the block itself refuses what the supply leaves it.
    if (error instanceof InputError) return undefined
    throw error
  }
}

/** Source resistances at which a ring is looked at, from the least to the most by equal factors. */
const places = 5

/** What is read with the load off. */
type Off = Exclude<keyof Rings, 'current'>

/**
 * How long the load has been off for each reading that a design has, s at least, and the time constants that it is read with, added up: 0 for
 * the highest that the rail comes to, where something keeps it.
 */
export type OffTimes = { readonly [K in Off]?: NonNullable<Sampling['released']>[number] }

/** The ring at each reading, by the source's resistance: worked out where it is asked for. */
export function ringOf(
  design: ReadDesign,
  everywhere: SolvedSpan,
  { edges, sampledAfter }: Pick<Firmware, 'edges' | 'sampledAfter'>,
  times: () => OffTimes,
): (resistance: Spread) => Rings {
  const { lower, upper } = everywhere.source.resistance
  const start = Math.max(lower, 1e-3 * upper)
  const asked = once(() => Object.entries(times()) as [Off, NonNullable<OffTimes[Off]>][])
  const at = (resistance: Spread) => {
    const released = asked().map(([, time]) => time)
    const after = sampledAfter()
    const shown = { after: sensedAfter(design, after), lag: design.parts.sensorLag }
    const early = dropToCome(design, everywhere, after)
    return ringAt(design, everywhere, { after, lag: 0, shown, released }, early, edges(), resistance)
  }
  const isCalm = once(() => at(everywhere.source.resistance) === undefined)
  const known: Rings[] = []
  const placeOf = (ohms: number) =>
    upper === start ? 0 : ((places - 1) * Math.log(Math.max(ohms, start) / start)) / Math.log(upper / start)
  const ringIn = (place: number): Rings => {
    const found = at(exact(start * (upper / start) ** (place / (places - 1))))
    if (found === undefined) return noRing
    const { below, above, behind, released } = found
    const after = asked().map(([name], k) => [name, rungAfter(released[k]!)])
    return { ...noRing, current: { below, above, behind }, ...Object.fromEntries(after) }
  }
  return (resistance) => {
    if (isCalm()) return noRing
    const [from, to] = [Math.floor(placeOf(resistance.lower)), Math.ceil(placeOf(resistance.upper))]
    let all = noRing
    for (let place = from; place <= Math.min(to, places - 1); place++) {
      known[place] ??= ringIn(place)
      all = larger(all, known[place]!)
    }
    return all
  }
}

/** The ring after the load has gone, where it is one. */
const rungAfter = ({ below, above, behind }: ReleasedRail): Ring =>
  above > least || below > least ? { below, above, behind } : noRing.top

const more = (one: Ring, other: Ring): Ring => ({
  below: Math.max(one.below, other.below),
  above: Math.max(one.above, other.above),
  behind: Math.max(one.behind, other.behind),
})

/** The larger of two, each by itself. */
const larger = (one: Rings, other: Rings): Rings => ({
  current: more(one.current, other.current),
  top: more(one.top, other.top),
  resistance: more(one.resistance, other.resistance),
  zero: more(one.zero, other.zero),
  pause: more(one.pause, other.pause),
})
