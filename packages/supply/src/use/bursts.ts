import { between, demand, exact, InputError, type Spread } from '@ohmward/quantity'
import { chargeAt, chargeBetween } from '../cell/charge.js'
import type { ReadCell } from '../cell/fields.js'
import { capacityAt, within } from '../cell/state.js'
import { burstCharge, burstCount, burstEnergy, usableCharge } from '../formulas/charge.js'
import { loadedRail } from '../formulas/load.js'
import { demandLoad } from '../given.js'
import { demandNames } from '../names.js'
import { cornerOf, type SourceAt, sourceAt, sourceBehind } from '../source/at.js'
import type { ReadSupply } from '../source/fields.js'
import { type LoadCorner, solveLoad, type Unsolved } from '../source/solve.js'
import { demandCell, demandSupply } from '../taken.js'

/** Charge of the cells between two voltages at rest, C. */
export interface Usable {
  readonly charge: Spread
  /** State of charge at either voltage. */
  readonly from: Spread
  readonly to: Spread
}

/**
 * Charge between two voltages at rest of one cell, the spread of capacity and of cells about the curve included.
 *
 * @param volts - of one cell: from the higher one; the full cell by default; to the lower one, the cell's lowest by default
 * @throws InputError unless the first is the higher one, or where the age isn't from 0 to 1
 */
export function usableBetween(
  cell: ReadCell,
  volts: { readonly from?: number; readonly to?: number } = {},
  age = 0,
): Usable {
  demandCell(cell)
  demand(typeof volts === 'object' && volts !== null, { field: 'volts', value: volts, allowed: 'from and to' })
  const { to = cell.lowestVoltage, from } = volts
  within('to', to, 0, 10)
  if (from !== undefined) within('from', from, 0, 10)
  if (from !== undefined && !(from > to))
    throw new InputError({ field: 'from', value: from, unit: 'V', allowed: `more than ${to} V` })
  const Q_age = capacityAt(cell, age)
  const q_from = from === undefined ? exact(1) : chargeAt(cell, from)
  const q_to = chargeAt(cell, to)
  // Which cell it is doesn't change in between.
  const x_q = chargeBetween(cell, from ?? { charge: 1 }, to)
  const charge = limitsOf(x_q.nominal * Q_age.nominal, x_q.lower * Q_age.lower, x_q.upper * Q_age.upper)
  return { charge, from: q_from, to: q_to }
}

/** Bursts on one charge. */
export interface Bursts {
  readonly kind: 'possible'
  /** How many, the last one that isn't whole with its part: least and most over cells and path. */
  readonly count: Spread
  /** Energy of the first and of the last one in the load, J: a burst fades as the cells empty. */
  readonly energy: { readonly first: Spread; readonly last: Spread }
}

/** What bursts are made of. */
export interface BurstSpec {
  readonly load: LoadCorner
  /** Length of one, s. */
  readonly time: number
  /** State of charge to begin and to end with. */
  readonly from: number
  readonly to: number
  readonly celsius: number
  readonly age?: number
  /** What is drawn beside the load while a burst lasts, A; nothing by default. */
  readonly idle?: number
}

/** Steps of the discharge, fine enough for 1 part in 10⁴. */
const steps = 100

/**
 * How many bursts a charge holds, the current solved anew as the cells empty and their resistance rises.
 *
 * @returns why a burst can't be fed, where it can't be to the end
 * @throws InputError where the supply isn't cells, the load draws nothing, or a condition isn't allowed
 */
export function burstsOf(supply: ReadSupply, spec: BurstSpec): Bursts | Unsolved {
  demandSupply(supply)
  demandNames(spec, 'spec', ['load', 'time', 'from', 'to', 'celsius'], ['age', 'idle'])
  const { source } = supply
  if (source.kind !== 'cell') throw new InputError({ field: 'source.kind', value: source.kind, allowed: '"cell"' })
  const { from, to, time, age = 0, idle = 0 } = spec
  within('from', from, 0, 1)
  within('to', to, 0, from)
  demandLoad(spec.load)
  if (!(typeof time === 'number' && time > 0 && time <= 1e6))
    throw new InputError({ field: 'time', value: time, unit: 's', allowed: 'more than 0 s' })
  within('idle', idle, 0, 100)
  const capacity = capacityAt(source, age)
  const { celsius } = spec
  const first = sourceAt(supply, { charge: from, celsius, age })
  const sourceOf = (charge: number) => sourceBehind(supply, { charge, celsius, age }, first.path)
  const middles = Array.from({ length: steps }, (_, i) => sourceOf(from + ((to - from) * (i + 0.5)) / steps))
  const sources = { first, last: sourceOf(to), middles }
  const found: Fading[] = []
  for (const which of ['nominal', 'weakest', 'strongest'] as const) {
    const fading = fade(sources, spec, which)
    if (fading.kind === 'impossible') return fading
    found.push(fading)
  }
  const each = found.map(({ perCoulomb }) => perCoulomb)
  return {
    kind: 'possible',
    count: limitsOf(
      each[0]! * capacity.nominal,
      Math.min(...each) * capacity.lower,
      Math.max(...each) * capacity.upper,
    ),
    energy: { first: over(found.map(({ first }) => first)), last: over(found.map(({ last }) => last)) },
  }
}

/** Bursts for each coulomb of capacity, and energies. */
interface Fading {
  readonly kind: 'possible'
  readonly perCoulomb: number
  readonly first: number
  readonly last: number
}

/** The source from the first burst to the last. */
interface Sources {
  readonly first: SourceAt
  readonly last: SourceAt
  /** In the middle of each step. */
  readonly middles: readonly SourceAt[]
}

function fade(sources: Sources, spec: BurstSpec, which: 'nominal' | 'weakest' | 'strongest'): Fading | Unsolved {
  const { load, time, from, to, idle = 0 } = spec
  const beside = burstCharge({ I_L: idle, d_on: 1, t_burst: time })
  // What is drawn beside the load takes its part of the voltage before.
  const at = (source: SourceAt) => {
    const { V_oc, R_s, ...limit } = cornerOf(source, which)
    const left = loadedRail({ V_oc, I_L: idle, R_s })
    return solveLoad({ V_oc: Math.max(left, Number.MIN_VALUE), R_s, ...limit }, load)
  }
  const first = at(sources.first)
  const last = at(sources.last)
  if (first.kind === 'impossible') return first
  if (last.kind === 'impossible') return last
  if (!(first.mean > 0 && last.mean > 0))
    throw new InputError({ field: 'load', value: load, allowed: 'one that draws a current' })
  const Q_use = usableCharge({ Q_age: 1, q_from: from, q_to: to }) / steps
  let perCoulomb = 0
  for (const source of sources.middles) {
    const middle = at(source)
    if (middle.kind === 'impossible') return middle
    const Q_burst = beside + burstCharge({ I_L: middle.mean, d_on: 1, t_burst: time })
    perCoulomb += burstCount({ Q_use, Q_burst })
  }
  const energy = (P_mean: number) => burstEnergy({ P_mean, t_burst: time })
  return { kind: 'possible', perCoulomb, first: energy(first.power), last: energy(last.power) }
}

const over = (values: readonly number[]): Spread => limitsOf(values[0]!, Math.min(...values), Math.max(...values))

const limitsOf = (nominal: number, lower: number, upper: number): Spread =>
  lower === upper ? exact(nominal) : between(lower, upper, nominal)
