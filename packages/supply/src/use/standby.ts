import {
  exact,
  InputError,
  list,
  name,
  part,
  type Read,
  readRecord,
  record,
  type Spread,
  spread,
} from '@ohmward/quantity'
import { chargeBetween } from '../cell/charge.js'
import type { ReadCell } from '../cell/fields.js'
import { capacityAt, voltageAt, within } from '../cell/state.js'
import { dividerDrain, selfDischargeCurrent, shelfTime } from '../formulas/standby.js'
import { demandNames } from '../names.js'
import { spreadOf, sumOf } from '../spread-of.js'
import { demandAsRead, demandCell } from '../taken.js'

/** A part that is always on: a current, or a resistance across the cells. */
export const standbyFields = {
  name: /*#__PURE__*/ name({ meaning: 'what it is called' }),
  current: /*#__PURE__*/ spread({
    symbol: 'I_part',
    unit: 'A',
    min: 0,
    max: 100,
    optional: true,
    meaning: 'current that it draws from the cells while the tool lies in the drawer',
  }),
  resistance: /*#__PURE__*/ spread({
    symbol: 'R_div',
    unit: 'ohm',
    above: 0,
    max: 1e12,
    optional: true,
    meaning: 'its resistance across the cells, instead of a current',
  }),
} as const

const oneOfTwo = ({ current, resistance }: Read<typeof standbyFields>, field: string): void => {
  if (current !== undefined && resistance !== undefined) {
    const allowed = 'nothing with current: give one of the two'
    throw new InputError({ field: `${field}.resistance`, value: resistance.nominal, unit: 'ohm', allowed })
  }
  if (current !== undefined || resistance !== undefined) return
  throw new InputError({
    field: `${field}.current`,
    value: undefined,
    allowed: 'a current, or a resistance instead',
  })
}

/** All parts that are always on. */
export const standbyField = /*#__PURE__*/ list(
  /*#__PURE__*/ part(standbyFields, { check: oneOfTwo, meaning: 'part that is always on' }),
  { least: 0, most: 100, meaning: 'every part that is always on' },
)

const standbyRecord = /*#__PURE__*/ record({ standby: standbyField })

/** Parts that are always on, read. */
export type ReadStandby = readonly Read<typeof standbyFields>[]

/** Reads the parts that are always on. @throws InputError naming the field: a part with both current and resistance, or neither */
export const readStandby = (given: unknown): ReadStandby =>
  readRecord(standbyRecord, { standby: given }, 'standby').standby

/** Seconds of a day. */
const day = 86400

/** Seconds of a mean month: a twelfth of 365.25 days. */
const month = (365.25 / 12) * day

/** What draws from the cells while the tool lies in the drawer. */
export interface Drain {
  readonly name: string
  /** A */
  readonly current: Spread
  /** Days to the cut-off if nothing else drew, self-discharge left out too. */
  readonly daysAlone: Spread
  /** Days to the cut-off without it; the same as with it for self-discharge, which nothing stops. */
  readonly daysWithout: Spread
}

/** How long a tool may lie in the drawer. Times in days, as spreads. */
export interface Shelf {
  /** Currents by part, A, self-discharge last: what draws most stands first among the parts. */
  readonly drains: readonly Drain[]
  /** All of them, A. */
  readonly current: Spread
  /** From the charge that it starts with to the cut-off. */
  readonly daysToCutOff: Spread
  /** From the cut-off to damage, the parts still on: the cut-off disconnects the load, not them. */
  readonly daysToDamage: Spread
}

/**
 * How long until the cut-off, and from there to damage. A resistance counts with the voltage of the full cells, which is on
 * the safe side. Pitfalls K07, K08, K09.
 *
 * @param at - charge that it starts with (1 by default), age from new 0 (by default) to the end of life 1
 * @throws InputError where the cell is none, the parts aren't what readStandby leaves, or charge or age isn't from 0 to 1
 */
export function shelfLife(
  cell: ReadCell,
  standby: ReadStandby,
  at: { readonly charge?: number; readonly age?: number } = {},
): Shelf {
  demandCell(cell)
  demandAsRead(standby, readStandby(standby), 'standby')
  demandNames(at, 'at', [], ['charge', 'age'])
  const { charge = 1, age = 0 } = at
  within('charge', charge, 0, 1)
  const Q_age = capacityAt(cell, age)
  const full = voltageAt(cell, 1)
  const parts = standby.map(({ name, current, resistance }) => ({
    name,
    current: current ?? spreadOf(dividerDrain, { V_bat: full, R_div: resistance! }),
  }))
  const own = spreadOf(selfDischargeCurrent, { Q_age, s_mon: cell.selfDischarge, t_mon: month })
  const untilCutOff = chargeBetween(cell, { charge }, cell.lowestVoltage)
  const untilDamage = chargeBetween(cell, cell.lowestVoltage, cell.damageVoltage)
  const days = (x_q: Spread, without?: string): Spread => {
    const left = parts.filter(({ name }) => name !== without)
    return daysOf(Q_age, x_q, sumOf(left.map(({ current }) => current)), cell.selfDischarge)
  }
  const nothing = exact(0)
  const drains = [...parts].sort((a, b) => b.current.upper - a.current.upper)
  return {
    drains: [
      ...drains.map((one) => ({
        ...one,
        daysAlone: daysOf(Q_age, untilCutOff, one.current, nothing),
        daysWithout: days(untilCutOff, one.name),
      })),
      {
        name: 'self-discharge',
        current: own,
        daysAlone: daysOf(Q_age, untilCutOff, nothing, cell.selfDischarge),
        daysWithout: days(untilCutOff),
      },
    ],
    current: sumOf([...parts.map(({ current }) => current), own]),
    daysToCutOff: days(untilCutOff),
    daysToDamage: days(untilDamage),
  }
}

function daysOf(Q_age: Spread, x_q: Spread, I_sb: Spread, selfDischarge: Spread): Spread {
  const days = (key: 'lower' | 'nominal' | 'upper', other: 'lower' | 'nominal' | 'upper'): number => {
    if (x_q[key] === 0) return 0
    const I_self = selfDischargeCurrent({ Q_age: Q_age[key], s_mon: selfDischarge[other], t_mon: month })
    const seconds = shelfTime({ Q_age: Q_age[key], x_q: x_q[key], I_sb: I_sb[other], I_self })
    return Number.isFinite(seconds) ? seconds / day : forEver
  }
  const [lower, nominal, upper] = [days('lower', 'upper'), days('nominal', 'nominal'), days('upper', 'lower')]
  if (lower === upper) return exact(lower)
  return { nominal, lower, upper, distribution: { kind: 'rectangular' } }
}

/** Days where nothing draws at all: a hundred thousand years stands for no end. */
const forEver = 36_525_000
