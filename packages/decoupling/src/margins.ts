import { type DecisionRule, type Margin, type MarginText, marginOf, plainMargin } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import { highestRail, steadyCurrent, steadyRail } from './chain.js'
import type { ReadDecoupling } from './choice.js'
import { tripCurrent } from './formulas/index.js'
import type { Board } from './inputs.js'
import type { LimitName } from './parts.js'
import type { Plan } from './plan.js'
import { remedyTexts } from './remedy-texts.js'

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

const model = (value: (board: Board) => number) => value as unknown as (x: Readonly<Record<string, number>>) => number

/** Id of the margin that watches a limit. */
export const marginId = ({ name, place }: RailLimit): string =>
  `${place === 'rail' ? 'rail' : 'logic'}-${name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`

const holding =
  ({ inputs, row, conditions }: Plan, rule: DecisionRule): Hold =>
  (text, value, limit) =>
    marginOf(
      { ...text, value: model(value), limit: typeof limit === 'number' ? limit : model(limit) },
      { inputs, row, conditions, ...rule },
    )

/** The margins of the limits on the rail: its lowest point, and where it ends. */
export function limitMargins(plan: Plan, rule: DecisionRule): Margin[] {
  const { read, rail } = plan
  const hold = holding(plan, rule)
  const margins: Margin[] = railLimits(read).map((one) => {
    const { name, volts, place } = one
    return place === 'rail'
      ? hold(
          {
            id: marginId(one),
            name: `lowest rail above the ${limitWords[name]}`,
            unit: 'V',
            sense: 'at least',
            remedies: remedyTexts.rail,
            catches: ['J01', 'J02', 'J03', 'J08', 'K01'],
          },
          (board) => rail(board).lowest,
          volts,
        )
      : hold(
          {
            id: marginId(one),
            name: `lowest logic rail above the ${limitWords[name]}`,
            unit: 'V',
            sense: 'at least',
            remedies: remedyTexts.logic,
            catches: read.logicRail!.behind === 'diode' ? ['J05', 'J08'] : ['J07', 'J08'],
          },
          (board) => rail(board).logic,
          volts,
        )
  })
  const steady = steadyLimit(read)
  if (steady !== undefined) {
    const drop = steadyDrop(read)
    margins.push(
      hold(
        {
          id: 'steady-sag',
          name: `steady rail above the ${limitWords[steady.name]}`,
          unit: 'V',
          sense: 'at least',
          remedies: remedyTexts.steady,
          catches: ['J04', 'K01', 'K13'],
        },
        (board) => steadyRail(read, board) - drop(board),
        steady.volts,
      ),
    )
  }
  return margins
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

type Hold = (text: MarginText, value: (board: Board) => number, limit: number | ((board: Board) => number)) => Margin

/** The limit that the steady sag must keep, where the load may stay on so long that no capacitor helps. */
export function steadyLimit(read: ReadDecoupling): RailLimit | undefined {
  return read.load.duration === Number.POSITIVE_INFINITY ? railLimits(read)[0] : undefined
}

/** What a logic rail loses on top of the steady sag. */
export function steadyDrop(read: ReadDecoupling): (board: Board) => number {
  if (steadyLimit(read)?.place !== 'logic rail') return () => 0
  return read.logicRail!.behind === 'diode'
    ? ({ forwardVoltage }) => forwardVoltage
    : ({ logic }) => logic.resistance * logic.peak
}

/** The first drop of a step without inductance: what the series resistances leave, however large the capacitances. */
function firstDrop(read: ReadDecoupling, hold: Hold): Margin[] {
  const limit = railLimits(read).find(({ place }) => place === 'rail')
  const isPlain = read.source.kind === 'cell' && read.source.fields.inductance.upper === 0
  if (!limit || !isPlain || read.load.kind === 'power' || read.load.pwm || read.load.rise > 0) return []
  const first = ({ source, branches, idle, load }: Board): number => {
    const rest = source.voltage - source.resistance * idle
    if (branches.some(({ resistance }) => resistance === 0)) return rest
    const G = branches.reduce((sum, { resistance }) => sum + 1 / resistance, 1 / source.resistance)
    return load.kind === 'resistor'
      ? (rest * G) / (G + 1 / load.resistance)
      : rest - (load as { current: number }).current / G
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
      first,
      limit.volts,
    ),
  ]
}

/** Whether the load's power exists, and whether the protection lets it through. */
function loadMargins(read: ReadDecoupling, hold: Hold): Margin[] {
  const margins: Margin[] = []
  const rest = ({ source, idle }: Board) => source.voltage - source.resistance * idle
  if (read.load.kind === 'power') {
    margins.push(
      hold(
        {
          id: 'power-exists',
          name: 'constant power, 30 % below the largest that has a solution',
          unit: 'W',
          sense: 'at most',
          remedies: remedyTexts.power,
          catches: ['K02'],
        },
        ({ load }) => (load as { power: number }).power,
        (board) => Math.min(1e12, (0.7 * rest(board) ** 2) / (4 * board.source.resistance)),
      ),
    )
  }
  if (read.load.wantedPower) {
    margins.push(
      hold(
        {
          id: 'power-reaches',
          name: 'wanted power, below what a resistor gets when fully on',
          unit: 'W',
          sense: 'at most',
          remedies: remedyTexts.power,
          catches: ['K02'],
        },
        ({ wantedPower }) => wantedPower,
        (board) => {
          const R = (board.load as { resistance: number }).resistance
          return (rest(board) ** 2 * R) / (R + board.source.resistance) ** 2
        },
      ),
    )
  }
  const { tripVoltage } = read.insertion
  if (tripVoltage.upper > 0) {
    margins.push(
      hold(
        {
          id: 'protection-trip',
          name: 'load current, 30 % below the trip current of the protection',
          unit: 'A',
          sense: 'at most',
          remedies: remedyTexts.trip,
          catches: ['K03'],
        },
        (board) => steadyCurrent(read, board) + board.idle,
        ({ protection }) => 0.7 * tripCurrent({ V_trip: tripVoltage.lower, R_pair: protection }),
      ),
    )
  }
  return margins
}

/** Rated voltages against the highest rail: full, released, plugged in. */
function voltageMargins({ read, rail, plugged }: Plan, hold: Hold): Margin[] {
  const highest = (board: Board) => highestRail(rail(board), plugged(board))
  const text = { unit: 'V', sense: 'at most', remedies: remedyTexts.voltage, catches: ['J12'] } as const
  const least = read.capacitors.reduce((a, b) => (b.fields.ratedVoltage.lower < a.fields.ratedVoltage.lower ? b : a))
  const margins = [
    hold(
      { ...text, id: 'rated-voltage', name: `highest rail below the rating of ${least.name}` },
      highest,
      least.fields.ratedVoltage.lower,
    ),
  ]
  const { railMaximum } = read.insertion
  if (railMaximum.upper > 0) {
    const name = 'highest rail below the absolute maximum on it'
    margins.push(hold({ ...text, id: 'rail-maximum', name }, highest, railMaximum.lower))
  }
  return margins
}

/** Inrush at insertion against contact and protection. */
function insertionMargins({ read, plugged }: Plan, hold: Hold): Margin[] {
  const { contactSurge, shortVoltage, shortDelay } = read.insertion
  const margins: Margin[] = []
  const text = { sense: 'at most', remedies: remedyTexts.inrush, catches: ['J11'] } as const
  if (contactSurge.upper > 0) {
    margins.push(
      hold(
        { ...text, id: 'contact-surge', name: 'inrush at insertion, below what the contact stands', unit: 'A' },
        (board) => plugged(board).inrush,
        contactSurge.lower,
      ),
    )
  }
  if (shortVoltage.upper > 0 && shortDelay.upper > 0) {
    const level = ({ protection }: Board) => tripCurrent({ V_trip: shortVoltage.lower, R_pair: protection })
    margins.push(
      hold(
        { ...text, id: 'short-delay', name: 'inrush over before the protection takes it for a short', unit: 's' },
        (board) => plugged(board).timeAbove(level(board)),
        shortDelay.lower,
      ),
    )
  }
  return margins
}

/** A weak port: its current and what may be plugged onto it. */
function portMargins(read: ReadDecoupling, hold: Hold): Margin[] {
  if (read.source.kind !== 'limited supply') return []
  const { attachable } = read.source.fields
  const duty = read.load.pwm?.duty ?? 1
  const total = (parts: readonly { fields: { capacitance: Spread }; count: number }[], end: 'nominal' | 'upper') =>
    parts.reduce((sum, { fields, count }) => sum + count * fields.capacitance[end], 0)
  return [
    hold(
      {
        id: 'port-current',
        name: 'mean current, below what the port guarantees',
        unit: 'A',
        sense: 'at most',
        remedies: remedyTexts.port,
        catches: ['J13'],
      },
      (board) => board.idle + wantedFromPort(board) * duty,
      ({ source }) => source.currentLimit!,
    ),
    plainMargin(
      {
        id: 'port-capacitance',
        name: 'capacitance plugged onto the port',
        unit: 'F',
        sense: 'at most',
        remedies: remedyTexts.attach,
        catches: ['J13'],
      },
      total(read.capacitors, 'upper'),
      attachable.lower,
      total(read.capacitors, 'nominal'),
    ),
  ]
}

/** What the load would draw if the port had no limit. */
function wantedFromPort({ source: { voltage, resistance }, idle, load }: Board): number {
  const rest = voltage - resistance * idle
  if (load.kind === 'current') return load.current
  if (load.kind === 'resistor') return rest / (load.resistance + resistance)
  const square = rest * rest - 4 * resistance * load.power
  return square < 0 ? voltage / resistance : (2 * load.power) / (rest + Math.sqrt(square))
}
