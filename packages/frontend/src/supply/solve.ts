import { lawOf, mosfetAtWork, type ReadMosfet } from '@ohmward/mosfet'
import { between, exact, InputError, type Spread } from '@ohmward/quantity'
import { type Fed, feed, type ReadElement, resistanceOf, type SourceAt, stretchOf } from '@ohmward/supply'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { latelyOf } from '../kept/lately.js'
import { once } from '../kept/once.js'
import { gateLevel, switchOn } from './drive.js'
import { hull } from './hull.js'
import { behindBoard, element, inSeries } from './path.js'
import { type Ends, isPlace, type Place, type Span, spanOf } from './place.js'
import { drawOf, type LoadedRails, measuringOver, type Rails, railsOver, testCurrentOf } from './rails.js'
import { sourceOver } from './source.js'

/** Voltages and currents of a design over a span, and over all tolerances of supply, load and switch. */
export interface SolvedSpan {
  readonly span: Span
  /** What the board sees: open-circuit voltage and resistance up to its tap. */
  readonly source: SourceAt
  /** Load with all that is in series behind the board, the switch apart. */
  readonly load: Spread
  /** The load alone, from cold to at work. */
  readonly own: Spread
  /** On-resistance of the switch, hot. */
  readonly switch: Spread
  /** Board with the load off, V. */
  readonly rest: Spread
  /** Board while the load is on, V. */
  readonly rail: Spread
  /** Load current while it is on, A. */
  readonly current: Spread
  /** Test current while the resistance is read, load off, A. */
  readonly test: Spread
  /** The main rail and those behind it. */
  readonly rails: Rails
}

/** The same at one place. */
export interface SolvedPlace extends SolvedSpan {
  readonly place: Place
}

/** Solves supply, switch and load together at a place. @throws InputError where the supply can't feed the controller */
export const solveAt = (design: ReadDesign, place: Place): SolvedPlace => ({
  place,
  ...solveOver(design, spanOf(place)),
})

/**
 * Solves them over a span at once: whatever a place in it comes to lies within.
 *
 * @param known - on-resistance of the switch, hot, where it needn't be solved
 * @throws InputError where the supply can't feed the controller
 */
export function solveOver(design: ReadDesign, span: Span, known?: Spread): SolvedSpan {
  const source = sourceOver({ supply: design.parts.supply, board: design.board }, span)
  const celsius = distinct(span.celsius)
  const own = hull(celsius.map((one) => ownAt(design, one)))
  const load = hull(celsius.map((one) => loadAt(design, ownAt(design, one), one)))
  const idle = drawOf(design, mainRail)
  const rest = feed(source, { kind: 'current', current: idle })
  if (rest.kind === 'impossible') {
    const { nominal: value } = idle
    const allowed = 'what the supply gives'
    throw new InputError({ field: 'controller.current', value, unit: 'A', allowed, hint: rest.reason })
  }
  /** The load on, with what the rails leave the gate. */
  const loadOn = (before: LoadedRails) => {
    const on = known ?? switchOver(design, { source, rest: rest.rail }, load, span, before)
    const resistance = inSeries(load, on)
    const { rail, current } = feed(loaded(source, rest.rail, idle), { kind: 'resistance', resistance }) as Fed
    return { on, rail, current, rails: railsOver(design, { rest: rest.rail, sag: rail }, span.celsius) }
  }
  // Where the resistance is read, the load is off: the switch is not asked for then.
  const heating = once(() => {
    const first = loadOn(railsOver(design, { rest: rest.rail, sag: rest.rail }, span.celsius))
    // The gate hangs on a rail that the load sags: a switch that conducts less than at first sags it less.
    return known !== undefined || gateLevel(design, first.rails) === undefined ? first : loadOn(first.rails)
  })
  const main = {
    rest: rest.rail,
    get sag() {
      return heating().rail
    },
  }
  const resting = railsOver(design, main, span.celsius)
  const test = testCurrentOf(design, resting)
  const measured = feed(source, { kind: 'current', current: drawOf(design, mainRail, test) })
  const measuring = measured.kind === 'impossible' ? exact(0) : measured.rail
  const rails = measuringOver(design, resting, measuring, test, span.celsius)
  return {
    span,
    source,
    load,
    own,
    get switch() {
      return heating().on
    },
    rest: rest.rail,
    get rail() {
      return heating().rail
    },
    get current() {
      return heating().current
    },
    test,
    rails,
  }
}

/** The source with the current of all that is always on already taken: what is left for the load, of a limit too. */
function loaded(source: SourceAt, rest: Spread, idle: Spread): SourceAt {
  const { currentLimit: limit } = source
  const left = (I_lim: number, I_0: number) => Math.max(I_lim - I_0, 1e-9)
  const currentLimit =
    limit && between(left(limit.lower, idle.upper), left(limit.upper, idle.lower), left(limit.nominal, idle.nominal))
  return { ...source, openCircuit: rest, currentLimit }
}

const distinct = ({ from, to }: Ends): number[] => (from === to ? [from] : [from, to])

/** Resistance of the load as cold as the air, and at work. */
export function loadEndsAt({ load }: ReadDesign, celsius: number): readonly [cold: Spread, working: Spread] {
  const { resistance: R, temperatureCoefficient } = load
  const own: ReadElement = { ...element('load', R), temperatureCoefficient }
  return [resistanceOf(own, celsius), resistanceOf(own, load.workingCelsius)]
}

/** Resistance of the load, from the ambient to its temperature at work. */
function ownAt(design: ReadDesign, celsius: number): Spread {
  const ends = loadEndsAt(design, celsius)
  return between(
    Math.min(...ends.map(({ lower }) => lower)),
    Math.max(...ends.map(({ upper }) => upper)),
    ends[1].nominal,
  )
}

/** Resistance behind the board, the switch apart: the rest of the path, the sensor's conductor, the load. */
function loadAt({ board, parts }: ReadDesign, own: Spread, celsius: number): Spread {
  const behind = stretchOf(behindBoard(parts.supply.path ?? [], board), celsius).resistance
  const most = parts.sensor.conductorResistance.upper
  const conductor = most === 0 ? exact(0) : between(0, most, most)
  return stretchOf([element('load', own), element('behind', behind), element('sensor conductor', conductor)], celsius)
    .resistance
}

/**
 * On-resistance of the switch over a span: with the least and the most at its gate, cold and warm. What is always on takes some
 * of its level, too.
 */
function switchOver(
  design: ReadDesign,
  { source, rest }: Pick<SolvedSpan, 'source' | 'rest'>,
  load: Spread,
  span: Span,
  rails: LoadedRails,
): Spread {
  const { openCircuit: V, resistance: R } = source
  const celsius = distinct(span.celsius)
  const weakest = celsius.map((one) => switchAt(design, rest.lower, R.upper, load, rails, one))
  if (isPlace(span)) return weakest[0]!
  return hull([...weakest, ...celsius.map((one) => switchAt(design, V.upper, R.lower, load, rails, one))])
}

/** On-resistances of switches, by all else that they depend on: every span from full on has the same one there. */
const solved = /*#__PURE__*/ latelyOf<Spread>()

/** On-resistance of the switch at a supply, worked out once. */
function switchAt(
  design: ReadDesign,
  V: number,
  R_s: number,
  load: Spread,
  rails: LoadedRails,
  celsius: number,
): Spread {
  const key = JSON.stringify([V, R_s, load, gateLevel(design, rails), celsius])
  return solved(design.parts.switch, key, () => solvedSwitch(design, V, R_s, load, rails, celsius))
}

/**
 * On-resistance of the switch as the block finds it at a supply: typical, and guaranteed with the load that makes it hottest;
 * below typical as far as the guarantee is above, but at least the share of it that the transistor's lots may have, and that cold.
 * Where the hottest runs away, only the lines of the data sheet say how far that is.
 */
function solvedSwitch(
  design: ReadDesign,
  V: number,
  R_s: number,
  load: Spread,
  rails: LoadedRails,
  celsius: number,
): Spread {
  const own = switchOn(design, rails)
  const { leastShare } = own.transistor
  const { typical, worst } = mosfetAtWork({
    ...own,
    load: { kind: 'resistance', value: load },
    openCircuit: { from: V, to: V },
    sourceResistance: exact(R_s),
    ambient: { from: celsius, to: celsius },
  })
  const usual = Math.max(0, V / typical.current - R_s - load.nominal)
  // The hottest board has the smallest load.
  const upper = Math.max(usual, V / worst.current - R_s - load.lower)
  // At the step the junction is still as cold as the air: least resistance, largest current.
  const { junction } = typical
  const law = lawOf(own.transistor.law)
  const cold = junction.kind === 'balance' ? Math.min(1, law.factor(celsius) / law.factor(junction.T_j)) : 1
  const lower = Math.min(Math.max(leastShare * usual, 2 * usual - upper), leastOf(own.transistor) * usual)
  // One that runs away is as cold as the air at the step, too: of its heat nothing is known but that it began there.
  const first = junction.kind === 'balance' ? Number.POSITIVE_INFINITY : leastOn(own) * law.factor(celsius)
  return between(Math.min(cold * lower, first), upper, usual)
}

/** Least on-resistance of all lines of the sheet at 25 °C, ohm, of all transistors in parallel. */
const leastOn = ({ transistor: { onResistance, leastShare }, parallel }: ReadMosfet): number =>
  Math.min(
    ...onResistance.map(({ typical, maximum }) =>
      typical === undefined ? leastShare * maximum : Math.max(2 * typical - maximum, leastShare * typical),
    ),
  ) / parallel

/** Least on-resistance of a lot as a share of the typical one, on the widest of the lines. */
const leastOf = ({ onResistance, leastShare }: ReadMosfet['transistor']): number =>
  Math.min(
    ...onResistance.map(({ typical, maximum }) =>
      typical === undefined ? leastShare : Math.max(2 - maximum / typical, leastShare),
    ),
  )
