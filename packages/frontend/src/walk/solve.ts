import { checkMosfet } from '@ohmward/mosfet'
import { between, exact, InputError, type Spread } from '@ohmward/quantity'
import { type Fed, feed, type ReadElement, resistanceOf, type SourceAt, sourceAt, stretchOf } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'
import { conductorOf, switchChoice } from './choices.js'
import { behindBoard, element } from './path.js'
import type { Place } from './place.js'

/** Voltages and currents of a design at a place, over all tolerances of supply, load and switch. */
export interface SolvedPlace {
  readonly place: Place
  /** What the board sees: open-circuit voltage and resistance up to its tap. */
  readonly source: SourceAt
  /** Load with all that is in series behind the board, the switch apart. */
  readonly load: Spread
  /** On-resistance of the switch, hot. */
  readonly switch: Spread
  /** Board with the load off, V. */
  readonly rest: Spread
  /** Board while the load is on, V. */
  readonly rail: Spread
  /** Load current while it is on, A. */
  readonly current: Spread
}

/** Solves supply, switch and load together at a place. @throws InputError where the supply can't feed the controller */
export function solveAt(design: ReadDesign, place: Place): SolvedPlace {
  const { supply, board, controller } = design
  const { charge, celsius, age } = place
  const source = sourceAt(supply, { charge, celsius, age, ...(board !== undefined && { tap: board }) })
  const load = loadAt(design, celsius)
  const on = switchAt(design, source, load, celsius)
  const rest = feed(source, { kind: 'current', current: controller.current })
  if (rest.kind === 'impossible') {
    const { nominal: value } = controller.current
    throw new InputError({
      field: 'controller.current',
      value,
      unit: 'A',
      allowed: 'what the supply gives',
      hint: rest.reason,
    })
  }
  const { resistance } = stretchOf([element('load', load), element('switch', on)], celsius)
  const fed = feed(loaded(source, rest.rail), { kind: 'resistance', resistance }) as Fed
  return { place, source, load, switch: on, rest: rest.rail, rail: fed.rail, current: fed.current }
}

/** The source with the controller's current already taken: what is left for the load. */
const loaded = (source: SourceAt, rest: Spread): SourceAt => ({ ...source, openCircuit: rest })

/** Resistance behind the board, the switch apart: the rest of the path, the sensor's conductor, the load cold to hot. */
function loadAt({ supply, board, hall, load }: ReadDesign, celsius: number): Spread {
  const { resistance: R, temperatureCoefficient } = load
  const own: ReadElement = { ...element('load', R), temperatureCoefficient }
  const ends = [resistanceOf(own, celsius), resistanceOf(own, load.workingCelsius)]
  const blade = between(
    Math.min(...ends.map(({ lower }) => lower)),
    Math.max(...ends.map(({ upper }) => upper)),
    ends[1]!.nominal,
  )
  const behind = stretchOf(behindBoard(supply.path ?? [], board), celsius).resistance
  const most = conductorOf(hall.sensor)
  const conductor = most === 0 ? exact(0) : between(0, most, most)
  return stretchOf([element('load', blade), element('behind', behind), element('sensor conductor', conductor)], celsius)
    .resistance
}

/**
 * On-resistance of the switch as the block finds it at this supply: typical, and guaranteed with the weakest supply at its
 * gate; below typical as far as the guarantee is above, but at least a fifth.
 */
function switchAt(design: ReadDesign, { openCircuit, resistance }: SourceAt, load: Spread, celsius: number): Spread {
  const [V, R_s, R_L] = [openCircuit.lower, resistance.upper, load.nominal]
  const conditions = {
    openCircuit: { from: V, to: V },
    sourceResistance: exact(R_s),
    ambientCelsius: { from: celsius, to: celsius },
  }
  const { typical, worst } = checkMosfet(switchChoice(design, exact(R_L)), conditions, { simulation: false })
  const ohms = (amperes: number) => Math.max(0, V / amperes - R_s - R_L)
  const usual = ohms(typical.current)
  const upper = Math.max(usual, ohms(worst.current))
  return between(Math.max(0.2 * usual, 2 * usual - upper), upper, usual)
}
