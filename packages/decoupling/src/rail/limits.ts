import type { Board } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { isolationDrop } from '../formulas/index.js'
import { type LimitName, limitNames } from '../parts/index.js'

/** A limit on the rail as its worst case counts it. */
export interface RailLimit {
  readonly name: LimitName
  readonly volts: number
  readonly place: 'rail' | 'logic rail'
}

/** What each limit is called. */
export const limitWords: Readonly<Record<LimitName, string>> = {
  brownOut: 'brown-out threshold',
  clock: 'minimum supply for the clock',
  sensor: 'sensor minimum',
  amplifier: 'amplifier minimum',
  converter: 'converter minimum',
}

/** The limits at their largest, the highest of each rail first. */
export function railLimits({ limits, logicRail, onLogicRail }: ReadDecoupling): RailLimit[] {
  return limitNames
    .flatMap((name): RailLimit[] => {
      const volts = limits[name]?.upper
      return volts === undefined
        ? []
        : [{ name, volts, place: logicRail && onLogicRail.includes(name) ? 'logic rail' : 'rail' }]
    })
    .sort((a, b) => b.volts - a.volts)
}

/** Id of the row that watches a limit. */
export const limitId = ({ name, place }: Pick<RailLimit, 'name' | 'place'>): string =>
  `${place === 'rail' ? 'rail' : 'logic'}-${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`

/** Ids of the rows of the rail's voltage while the load is on. */
export const railRowIds = (read: ReadDecoupling): readonly string[] => [
  'steady-sag',
  'steady-sag-logic',
  'series-resistance',
  'pwm-start',
  ...railLimits(read).map(limitId),
]

/**
 * The limits that the steady sag must keep, where the load may stay on so long that no capacitor helps: the highest of the rail
 * and of the logic rail. Under PWM a diode isn't fed by the mean but by the peaks of the rail: no steady sag is its limit.
 */
export function steadyLimits(read: ReadDecoupling): RailLimit[] {
  if (read.load.duration < Number.POSITIVE_INFINITY) return []
  const isPeak = read.load.pwm !== undefined && read.logicRail?.behind === 'diode'
  const limits = railLimits(read)
  const places = isPeak ? (['rail'] as const) : (['rail', 'logic rail'] as const)
  return places.flatMap((place) => limits.find((one) => one.place === place) ?? [])
}

/** What a limit's place loses on top of the steady sag: nothing on the rail, the drop of diode or resistor on the logic rail. */
export function steadyDrop(read: ReadDecoupling, { place }: RailLimit): (board: Board) => number {
  if (place === 'rail') return () => 0
  return read.logicRail?.behind === 'diode'
    ? ({ forwardVoltage }) => forwardVoltage
    : ({ logic }) => isolationDrop({ I_top: logic.peak, R_iso: logic.resistance })
}
