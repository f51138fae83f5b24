import { demandSpread, type Spread } from '@ohmward/quantity'
import { pulseLimit, within } from '../cell/state.js'
import { tripSlack } from '../formulas/path.js'
import type { ReadSupply } from '../source/fields.js'
import { spreadOf } from '../spread-of.js'
import { demandSupply } from '../taken.js'
import { type ElementAt, pathAt } from './at.js'

/** Share of the least trip current that a burst may use. Common practice, no source. */
export const usualTripShare = 0.7

/** A limit on the current of the supply, and what it has left. */
export interface CurrentLimit {
  /** Cells, port, or the element of the path. */
  readonly name: string
  readonly what: 'continuous current' | 'pulse current' | 'current limit' | 'trip'
  /** Current at which it is reached at the earliest, A; of a trip the share that may be used. */
  readonly limit: number
  /** A; below 0 it is passed. */
  readonly slack: number
}

/**
 * Every limit on the current: of the cells, of the port, of each element of the path, and where a protection trips, the
 * tightest first. Pitfalls K03, K11.
 *
 * @param mean - what flows for long, A, in PWM the root mean square
 * @param burst - what flows at most, A
 * @param celsius - temperature around the conductors: a protection's switches are warm, by what flows for long too
 * @param share - share of the least trip current that may be used; {@link usualTripShare} by default
 * @throws InputError where the supply or a current is none
 */
export function currentLimits(
  supply: ReadSupply,
  mean: Spread,
  burst: Spread,
  celsius: number,
  share = usualTripShare,
): CurrentLimit[] {
  demandSupply(supply)
  demandSpread(mean, 'mean')
  demandSpread(burst, 'burst')
  within('celsius', celsius, -273.15, 1000)
  within('share', share, 0, 1)
  const { source, path = [] } = supply
  const against = (name: string, what: CurrentLimit['what'], limit: number, current: number): CurrentLimit => ({
    name,
    what,
    limit,
    slack: limit - current,
  })
  const own =
    source.kind === 'cell'
      ? [
          against('cells', 'continuous current', source.continuousCurrent, mean.upper),
          against('cells', 'pulse current', pulseLimit(source), burst.upper),
        ]
      : [against('port', 'current limit', source.currentLimit.lower, burst.upper)]
  const elements = path.flatMap(({ name, currentLimit }) =>
    currentLimit === undefined ? [] : [against(name, 'current limit', currentLimit, mean.upper)],
  )
  const tripping = path.filter(({ tripVoltage }) => tripVoltage !== undefined)
  const trips = pathAt(tripping, mean, celsius).flatMap((element) => tripOf(element, burst, share))
  return [...own, ...elements, ...trips].sort((a, b) => a.slack - b.slack)
}

function tripOf({ name, trip }: ElementAt, burst: Spread, share: number): CurrentLimit[] {
  if (trip === null) return []
  const { lower: slack } = spreadOf(tripSlack, { k_trip: share, I_trip: trip, I_el: burst })
  return [{ name, what: 'trip', limit: share * trip.lower, slack }]
}
