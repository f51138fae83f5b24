import { demand, demandNumber, demandSpread, type Spread } from '@ohmward/quantity'
import type { ReadElement } from './path/fields.js'
import { type Diode, type ReadRail, type Regulator, readRail } from './rails/fields.js'
import { type ReadLoad, readLoad } from './source/load.js'
import { demandAsRead } from './taken.js'

/*
 * What exported functions are given: looked at where they are called, so that a missing field ends as the error of bad input.
 */

/** Beyond this no number of a supply is one. */
const most = 1e9

/** What was found to be as its reader leaves it. */
const known = /*#__PURE__*/ new WeakSet<object>()

/** Refuses what is no object. @throws InputError */
export function demandObject(given: unknown, field: string, allowed: string): asserts given is object {
  demand(typeof given === 'object' && given !== null, { field, value: given, allowed })
}

/** Refuses what is no temperature, degC. @throws InputError */
export const demandCelsius = (value: unknown, field = 'celsius'): void =>
  void demandNumber(value, { field, unit: 'degC', min: -273.15, max: 1e4 })

/** Refuses what is no list of elements as their reader leaves them. @throws InputError */
export function demandPath(path: readonly ReadElement[]): void {
  demand(Array.isArray(path), { field: 'path', value: path, allowed: 'a list of elements, as readSupply leaves them' })
  for (let i = 0; i < path.length; i++) demandElement(path[i]!, `path[${i}]`)
}

const elementUnits = { currentLimit: 'A', thermalResistance: 'K/W', highestCelsius: 'degC' } as const

/** Refuses what is no element of a path as its reader leaves it; what was looked at once is known. @throws InputError */
export function demandElement(element: ReadElement, field = 'element'): void {
  if (known.has(element)) return
  demandObject(element, field, 'an element of the path, as readSupply leaves it')
  const { name, resistance, drop, temperatureCoefficient, tap, tripVoltage } = element
  demand(typeof name === 'string', { field: `${field}.name`, value: name, allowed: 'a text' })
  demandSpread(resistance, `${field}.resistance`)
  demandSpread(drop, `${field}.drop`)
  if (temperatureCoefficient !== 'copper' && temperatureCoefficient !== 'none') {
    demandSpread(temperatureCoefficient, `${field}.temperatureCoefficient`)
  }
  if (tripVoltage !== undefined) demandSpread(tripVoltage, `${field}.tripVoltage`)
  demand(tap === undefined || typeof tap === 'string', { field: `${field}.tap`, value: tap, allowed: 'a text' })
  for (const [key, unit] of Object.entries(elementUnits)) {
    const value = element[key as keyof typeof elementUnits]
    if (value !== undefined) demandNumber(value, { field: `${field}.${key}`, unit, min: 0, max: most })
  }
  known.add(element)
}

/** Refuses what is no part of a path. @throws InputError */
export function demandPart(part: unknown): void {
  const named = typeof part === 'object' && part !== null ? Object.values(part) : []
  const isSo = part === 'whole' || (named.length === 1 && typeof named[0] === 'string' && isBranch(part as object))
  demand(isSo, { field: 'part', value: part, allowed: '"whole", { before: tap } or { behind: tap }' })
}

const isBranch = (part: object): boolean => 'before' in part || 'behind' in part

/** Refuses what is no source in a state. @throws InputError */
export function demandSource(source: {
  readonly openCircuit: Spread
  readonly resistance: Spread
  readonly currentLimit: Spread | undefined
}): void {
  demandObject(source, 'source', 'a source, as sourceAt leaves it')
  demandSpread(source.openCircuit, 'source.openCircuit')
  demandSpread(source.resistance, 'source.resistance')
  demand(source.resistance.lower >= 0, {
    field: 'source.resistance',
    value: source.resistance.lower,
    unit: 'ohm',
    allowed: '0 ohm or more',
  })
  if (source.currentLimit !== undefined) demandSpread(source.currentLimit, 'source.currentLimit')
}

/** Refuses what is no board of a source. @throws InputError */
export function demandCorner(source: { readonly V_oc: number; readonly R_s: number; readonly I_lim?: number }): void {
  demandObject(source, 'source', 'V_oc and R_s in numbers')
  demandNumber(source.V_oc, { field: 'source.V_oc', unit: 'V', min: 0, max: most })
  demandNumber(source.R_s, { field: 'source.R_s', unit: 'ohm', min: 0, max: most })
  if (source.I_lim !== undefined) demandNumber(source.I_lim, { field: 'source.I_lim', unit: 'A', min: 0, max: most })
}

const loadKinds = ['resistance', 'pwm', 'power', 'current'] as const

type LoadNumbers =
  | { readonly kind: 'resistance'; readonly R_L: number }
  | { readonly kind: 'pwm'; readonly R_L: number; readonly d_on: number }
  | { readonly kind: 'power'; readonly P_L: number }
  | { readonly kind: 'current'; readonly I_set: number }

/** Refuses what is no load in plain numbers. @throws InputError */
export function demandLoad(load: LoadNumbers): void {
  const allowed = `a load whose kind is ${loadKinds.join(', ')}`
  demandObject(load, 'load', allowed)
  demand(loadKinds.includes(load.kind), { field: 'load.kind', value: load.kind, allowed })
  if (load.kind === 'resistance' || load.kind === 'pwm')
    demandNumber(load.R_L, { field: 'load.R_L', unit: 'ohm', min: 1e-12, max: most })
  if (load.kind === 'pwm') demandNumber(load.d_on, { field: 'load.d_on', unit: '1', min: 0, max: 1 })
  if (load.kind === 'power') demandNumber(load.P_L, { field: 'load.P_L', unit: 'W', min: 0, max: most })
  if (load.kind === 'current') demandNumber(load.I_set, { field: 'load.I_set', unit: 'A', min: 0, max: most })
}

/** Refuses what is no load as `readLoad` leaves it; what was looked at once is known. @throws InputError */
export function demandReadLoad(load: ReadLoad): void {
  if (known.has(load)) return
  demandObject(load, 'load', 'a load, as readLoad leaves it')
  demandAsRead(load, readLoad(load), 'load')
  known.add(load)
}

/** Refuses what is no rail as `readRail` leaves it; what was looked at once is known. @throws InputError */
export function demandRail(rail: ReadRail): void {
  if (known.has(rail)) return
  demandObject(rail, 'rail', 'a rail, as readRail leaves it')
  demandAsRead(rail, readRail(rail), 'rail')
  known.add(rail)
  known.add(rail.through)
}

/** Refuses what doesn't stand between two rails as `readRail` leaves it. @throws InputError */
export function demandThrough(through: Diode | Regulator, kind: 'diode' | 'regulator'): void {
  if (known.has(through) && through.kind === kind) return
  demandObject(through, kind, `a ${kind}, as readRail leaves it`)
  demand(through.kind === kind, { field: `${kind}.kind`, value: through.kind, allowed: `"${kind}"` })
  demandRail({ name: kind, source: 'main', through })
}
