import { demandSpread, exact, InputError, nearestName, type Spread } from '@ohmward/quantity'
import {
  elementDrop,
  elementGain,
  elementHeadroom,
  elementLoss,
  elementRise,
  protectionTrip,
  warmResistance,
} from '../formulas/path.js'
import { demandCelsius, demandElement, demandPart, demandPath } from '../given.js'
import { spreadOf, sumOf } from '../spread-of.js'
import { copperCoefficient, type ReadElement } from './fields.js'

/** Resistance and forward voltage of a stretch of the path: sums, with their extremes. */
export interface Stretch {
  /** ohm */
  readonly resistance: Spread
  /** V */
  readonly drop: Spread
}

/** Resistance of an element at a temperature, ohm. @throws InputError where the element is none, or the temperature no number */
export function resistanceOf(element: ReadElement, celsius: number): Spread {
  demandElement(element)
  demandCelsius(celsius)
  const { resistance, temperatureCoefficient } = element
  const alpha_el = coefficientOf(temperatureCoefficient)
  return spreadOf(warmResistance, { R_20: resistance, alpha_el, dT_el: celsius - 20 })
}

function coefficientOf(given: ReadElement['temperatureCoefficient']): Spread {
  if (given === 'copper') return exact(copperCoefficient)
  return given === 'none' ? exact(0) : given
}

/**
 * Resistance and forward voltage of the path, or of a part of it: up to a tap, or from it to the load.
 *
 * @param celsius - temperature of the conductors
 * @param part - the whole path by default
 * @throws InputError where the path is none, the temperature no number, or the path has no such tap, with the nearest name
 */
export function stretchOf(
  path: readonly ReadElement[],
  celsius: number,
  part: { readonly before: string } | { readonly behind: string } | 'whole' = 'whole',
): Stretch {
  demandCelsius(celsius)
  const elements = elementsOf(path, part)
  return {
    resistance: sumOf(elements.map((element) => resistanceOf(element, celsius))),
    drop: sumOf(elements.map(({ drop }) => drop)),
  }
}

/**
 * The elements of the path, or of a part of it: up to a tap, or from it to the load.
 *
 * @throws InputError where the path is none, or has no such tap, with the nearest name
 */
export function elementsOf(
  path: readonly ReadElement[],
  part: { readonly before: string } | { readonly behind: string } | 'whole',
): readonly ReadElement[] {
  demandPath(path)
  demandPart(part)
  if (part === 'whole') return path
  const isBefore = 'before' in part
  const tap = isBefore ? part.before : part.behind
  const at = path.findIndex((element) => element.tap === tap)
  if (at >= 0) return isBefore ? path.slice(0, at + 1) : path.slice(at + 1)
  const taps = path.flatMap((element) => element.tap ?? [])
  const near = nearestName(tap, taps)
  const hint = near === undefined ? '' : `Did you mean ${near}?`
  throw new InputError({ field: 'tap', value: tap, allowed: taps.join(' or ') || 'none: the path has no taps', hint })
}

/** What a current does to an element of the path. */
export interface ElementAt {
  readonly name: string
  /** Warm by the surroundings, and by the current where its thermal resistance is known, ohm. */
  readonly resistance: Spread
  /** Voltage that it takes, V. */
  readonly drop: Spread
  /** Power that it takes, W. */
  readonly loss: Spread
  /** Its temperature, degC; `null` where its thermal resistance isn't known, `'runs away'` where there is none. */
  readonly celsius: Spread | 'runs away' | null
  /** What its current limit has left, A; `null` where none is stated. */
  readonly currentSlack: number | null
  /** What its highest temperature has left, the loss taken there, K; below 0 it gets hotter. `null` where it isn't known. */
  readonly temperatureSlack: number | null
  /** Current at which it makes the protection trip, A; `null` where it doesn't. */
  readonly trip: Spread | null
}

/**
 * What a current does to every element of the path: voltage, loss, temperature, what its limits have left, and where it
 * trips. Currents that flow for long; a short burst warms less.
 *
 * @param current - A, rms for the heating; its spread counts with its limits
 * @param celsius - temperature around the conductors
 */
export function pathAt(path: readonly ReadElement[], current: Spread, celsius: number): ElementAt[] {
  demandPath(path)
  demandSpread(current, 'current')
  demandCelsius(celsius)
  return path.map((element) => elementAt(element, current, celsius))
}

function elementAt(element: ReadElement, I_el: Spread, around: number): ElementAt {
  const { name, currentLimit, thermalResistance: R_thel } = element
  const currentSlack = currentLimit === undefined ? null : currentLimit - I_el.upper
  if (R_thel === undefined)
    return { name, ...electric(element, I_el, around), celsius: null, currentSlack, temperatureSlack: null }
  const temperatureSlack = headroom(element, R_thel, I_el, around)
  const rise = riseOf(element, R_thel, I_el, around)
  if (rise === null)
    return { name, ...electric(element, I_el, around), celsius: 'runs away', currentSlack, temperatureSlack }
  const { temperatureCoefficient, resistance: R_20 } = element
  const alpha_el = coefficientOf(temperatureCoefficient)
  const hot = spreadOf(warmResistance, { R_20, alpha_el, dT_el: shifted(rise, around - 20) })
  const celsius = shifted(rise, around)
  return { name, ...withResistance(element, I_el, hot), celsius, currentSlack, temperatureSlack }
}

/** Resistance, drop, loss and trip current of an element at a temperature. */
const electric = (element: ReadElement, I_el: Spread, celsius: number) =>
  withResistance(element, I_el, resistanceOf(element, celsius))

const withResistance = ({ drop: V_el, tripVoltage: V_trip }: ReadElement, I_el: Spread, R_el: Spread) => ({
  resistance: R_el,
  drop: spreadOf(elementDrop, { I_el, R_el, V_el }),
  loss: spreadOf(elementLoss, { I_el, R_el, V_el }),
  trip: V_trip ? spreadOf(protectionTrip, { V_trip, R_el }) : null,
})

/** How far an element warms itself, K; `null` where it runs away. */
function riseOf(element: ReadElement, R_thel: number, I_el: Spread, around: number): Spread | null {
  const alpha_el = coefficientOf(element.temperatureCoefficient)
  const g_el = spreadOf(elementGain, { R_thel, I_el, R_20: element.resistance, alpha_el })
  if (g_el.upper >= 1) return null
  return spreadOf(elementRise, { R_thel, P_el: electric(element, I_el, around).loss, g_el })
}

function headroom(element: ReadElement, R_thel: number, I_el: Spread, around: number): number | null {
  const { highestCelsius } = element
  if (highestCelsius === undefined) return null
  const { loss } = electric(element, I_el, highestCelsius)
  return spreadOf(elementHeadroom, { dT_most: highestCelsius - around, R_thel, P_el: loss }).lower
}

const shifted = (spread: Spread, by: number): Spread => ({
  ...spread,
  nominal: spread.nominal + by,
  lower: spread.lower + by,
  upper: spread.upper + by,
})
