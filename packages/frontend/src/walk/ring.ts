import { type SampledRail, type Sampling, sampledRail } from '@ohmward/decoupling'
import { exact, InputError, type Spread } from '@ohmward/quantity'
import type { ReadDesign } from '../design/record.js'
import { decouplingAt, isPulsed } from './choices.js'
import { once } from './once.js'
import { dropToCome, isHeld, sampledAfter } from './pulse.js'
import type { Ring } from './rung.js'
import type { SolvedSpan } from './solve.js'

/** What a sample finds that is followed no further: nothing is known of it but that a ring goes from nothing to twice the rest. */
const unknown: SampledRail = { lowest: 0, highest: 2, below: 1, above: 1, share: 2, least: 0, most: 2, mean: 0 }

/** A ring that is none: so much of the rail, and of what it falls by. */
const least = 1e-6

/**
 * What a sample of the main rail may find in the pulses where the inductance of the source rings with the capacitors; undefined where
 * there is none, where it has died away, or the source holds its current.
 *
 * @param early - share of the drop of the rail that is still to come then, at most, without a ring
 * @param resistance - of the source, up to the board, ohm
 */
export function ringAt(
  design: ReadDesign,
  solved: SolvedSpan,
  sampling: Sampling,
  early: number,
  resistance = solved.source.resistance,
): SampledRail | undefined {
  const { inductance, openCircuit } = solved.source
  const { capacitance } = design.parts
  const isStill = inductance.upper === 0 || capacitance === 0 || capacitance === Number.POSITIVE_INFINITY
  if (!isPulsed(design) || isStill || isHeld(design, solved)) return undefined
  const { choice, conditions } = decouplingAt(design, solved, 'PWM')
  const { capacitors, load, idle } = choice
  const { ambientCelsius, ageYears } = conditions
  try {
    const source = { openCircuit, resistance, inductance }
    const found =
      sampledRail(
        { source, capacitors, load, idle, limits: { converter: 1e-3 } },
        { ambientCelsius, ageYears },
        sampling,
      ) ?? unknown
    // What only falls is known without.
    return found.below > least || found.share > early * (1 + least) ? found : undefined
  } catch (error) {
    // As where the block itself refuses what the supply leaves it.
    if (error instanceof InputError) return undefined
    throw error
  }
}

/** Source resistances at which a ring is looked at, from the least to the most by equal factors. */
const places = 5

const none: Ring = { below: 0, above: 0 }

/** The ring at the sample of the current, by the source's resistance: worked out where it is asked for. */
export function ringOf(design: ReadDesign, everywhere: SolvedSpan): (resistance: Spread) => Ring {
  const { lower, upper } = everywhere.source.resistance
  const start = Math.max(lower, 1e-3 * upper)
  const at = (resistance: Spread) =>
    ringAt(design, everywhere, { after: sampledAfter(design), lag: 0 }, dropToCome(design, everywhere), resistance)
  const isCalm = once(() => at(everywhere.source.resistance) === undefined)
  const known: Ring[] = []
  const placeOf = (ohms: number) =>
    upper === start ? 0 : ((places - 1) * Math.log(Math.max(ohms, start) / start)) / Math.log(upper / start)
  return (resistance) => {
    if (isCalm()) return none
    const [from, to] = [Math.floor(placeOf(resistance.lower)), Math.ceil(placeOf(resistance.upper))]
    let [below, above] = [0, 0]
    for (let place = from; place <= Math.min(to, places - 1); place++) {
      const found = known[place] ?? at(exact(start * (upper / start) ** (place / (places - 1)))) ?? none
      known[place] = found
      below = Math.max(below, found.below)
      above = Math.max(above, found.above)
    }
    return { below, above }
  }
}
