import { type DecisionRule, type Margin, type MarginText, plainMargin } from '@ohmward/budget'
import type { Board } from '../chain/board.js'
import { remedyTexts } from '../changes/texts.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { firstVoltageOfCurrent, firstVoltageOfResistor, isolationDrop } from '../formulas/index.js'
import type { LimitName } from '../parts/parts.js'
import { inParallel } from '../rail/parallel.js'
import { restOf, steadyRail } from '../rail/steady.js'
import type { Plan } from '../search/plan.js'
import { type Hold, holdAll, holding } from './hold.js'
import { loadMargins, portMargins } from './load.js'
import { insertionMargins, voltageMargins } from './ratings.js'

/** A limit on the rail as its worst case counts it. */
export interface RailLimit {
  readonly name: LimitName
  readonly volts: number
  readonly place: 'rail' | 'logic rail'
}

/** What each limit is called. */
export const limitWords: Readonly<Record<LimitName, string>> = {
  brownOut: 'brown-out threshold',
  clock: 'lowest supply at the clock',
  sensor: 'sensor minimum',
  amplifier: 'amplifier minimum',
  converter: 'converter minimum',
}

/** The limits at their largest, the highest of each rail first. */
export function railLimits({ limits, logicRail, onLogicRail }: ReadDecoupling): RailLimit[] {
  const names = Object.keys(limits) as LimitName[]
  return names
    .map((name): RailLimit => {
      const place = logicRail && onLogicRail.includes(name) ? 'logic rail' : 'rail'
      return { name, volts: limits[name]!.upper, place }
    })
    .sort((a, b) => b.volts - a.volts)
}

/** Id of the margin that watches a limit. */
export const marginId = ({ name, place }: RailLimit): string =>
  `${place === 'rail' ? 'rail' : 'logic'}-${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`

/** The margins of the limits on the rail: its lowest point, and where it ends. */
export function limitMargins(plan: Plan, rule: DecisionRule): Margin[] {
  const { read } = plan
  const hold = holding(plan, rule)
  const limits = railLimits(read).map((one) => ({ place: one.place, limit: one.volts, text: limitText(read, one) }))
  const margins = [
    ...holdAll(
      hold,
      ({ lowest }) => lowest,
      limits.filter(({ place }) => place === 'rail'),
    ),
    ...holdAll(
      hold,
      ({ logic }) => logic,
      limits.filter(({ place }) => place === 'logic rail'),
    ),
  ]
  for (const steady of steadyLimits(read)) {
    const drop = steadyDrop(read, steady)
    margins.push(
      hold(
        {
          id: steady.place === 'rail' ? 'steady-sag' : 'steady-sag-logic',
          name: `steady ${steady.place} above the ${limitWords[steady.name]}`,
          unit: 'V',
          sense: 'at least',
          remedies: remedyTexts.steady,
          catches: ['J04', 'K01', 'K13'],
        },
        ({ board }) => steadyRail(read, board) - drop(board),
        steady.volts,
      ),
    )
  }
  return margins
}

function limitText({ logicRail }: ReadDecoupling, one: RailLimit): MarginText {
  const isRail = one.place === 'rail'
  return {
    id: marginId(one),
    name: `lowest ${one.place} above the ${limitWords[one.name]}`,
    unit: 'V',
    sense: 'at least',
    remedies: isRail ? remedyTexts.rail : remedyTexts.logic,
    catches: isRail
      ? ['J01', 'J02', 'J03', 'J08', 'K01']
      : logicRail!.behind === 'diode'
        ? ['J05', 'J08']
        : ['J07', 'J08'],
  }
}

/** Every margin of the rail and what hangs on it. */
export function railMargins(plan: Plan, rule: DecisionRule): Margin[] {
  const { read } = plan
  const hold = holding(plan, rule)
  const margins = [...limitMargins(plan, rule), ...firstDrop(read, hold), ...loadMargins(read, hold)]
  margins.push(...voltageMargins(plan, hold))
  margins.push(...insertionMargins(plan, hold), ...portMargins(read, hold))
  const { brownOut, clock } = read.limits
  if (brownOut && clock && read.brownOutEnabled) {
    margins.push(
      plainMargin(
        {
          id: 'brown-out-clock',
          name: 'brown-out, at its lowest, above the supply that the clock needs',
          unit: 'V',
          sense: 'at least',
          remedies: remedyTexts.clock,
          catches: ['J08'],
        },
        brownOut.lower,
        clock.upper,
        brownOut.nominal,
      ),
    )
  }
  return margins
}

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
  return read.logicRail!.behind === 'diode'
    ? ({ forwardVoltage }) => forwardVoltage
    : ({ logic }) => isolationDrop({ I_top: logic.peak, R_iso: logic.resistance })
}

/** The first drop of a step without inductance: what the series resistances leave, however large the capacitances. */
function firstDrop(read: ReadDecoupling, hold: Hold): Margin[] {
  const limit = railLimits(read).find(({ place }) => place === 'rail')
  const isPlain = read.source.kind === 'cell' && read.source.fields.inductance.upper === 0
  if (!limit || !isPlain || read.load.kind === 'power' || read.load.pwm || read.load.rise > 0) return []
  const first = (board: Board): number => {
    const { source, load } = board
    const V_rest = restOf(board)
    const ESR = inParallel(board.branches)
    if (ESR === 0) return V_rest
    const x = { V_rest, R_s: source.resistance, ESR }
    if (load.kind === 'resistor') return firstVoltageOfResistor({ ...x, R_L: load.resistance })
    return load.kind === 'current' ? firstVoltageOfCurrent({ ...x, I_step: load.current }) : V_rest
  }
  return [
    hold(
      {
        id: 'series-resistance',
        name: `first drop, capacitance however large, above the ${limitWords[limit.name]}`,
        unit: 'V',
        sense: 'at least',
        remedies: remedyTexts.series,
        catches: ['J02', 'J03'],
      },
      ({ board }) => first(board),
      limit.volts,
    ),
  ]
}
