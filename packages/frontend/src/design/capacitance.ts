import { decouplingRecord } from '@ohmward/decoupling'
import { exact, InputError, readRecord, record, type Spread } from '@ohmward/quantity'
import { scaled, sumOf } from '../supply/path.js'

/** Decades of hours in a hundred years: what is lost in each goes on for no longer. */
const decades = 6

/** The kinds of capacitor alone: a list of them. */
const kinds = /*#__PURE__*/ (() => record({ capacitors: decouplingRecord.fields.capacitors }))()

type Range = Readonly<Record<'from' | 'to', number>>

/** What the capacitors of the rail come to, at most and at least. */
export interface MostCapacitance {
  /** Capacitance of all, F; infinite where the block refuses to read them. */
  readonly capacitance: number
  /** The same of any board; undefined where it has no end. */
  readonly capacitances: Spread | undefined
  /** What bias, temperature, wear and age leave of all of them at least, F. */
  readonly leastCapacitance: number
  /** Capacitance of each kind times its series resistance, added up, s: by so much longer their slowest current lasts. */
  readonly seriesTime: number
}

/**
 * Most that the capacitors of the rail can have: as cold or warm as they gain it, without the bias and the wear that take
 * from it, their series resistance worn and as cold as the ambient. What the block itself refuses to read is named there; no
 * capacitor does more than one of no end.
 */
export function mostCapacitance({ capacitors }: { readonly capacitors?: unknown }, ambient: Range): MostCapacitance {
  const listed = typeof capacitors === 'object' && capacitors !== null ? Object.values(capacitors) : []
  try {
    let [capacitances, seriesTime, leastCapacitance] = [exact(0), 0, 0]
    for (const { count, temperature, bias, cold, ...fields } of readRecord(kinds, { capacitors: listed }, 'decoupling')
      .capacitors) {
      const most = Math.max(1, ...(temperature?.factor ?? []))
      capacitances = sumOf([capacitances, scaled(fields.capacitance, count * most)])
      leastCapacitance +=
        count *
        fields.capacitance.lower *
        fields.wornCapacitance.lower *
        Math.min(1, ...(temperature?.factor ?? [])) *
        Math.min(1, ...(bias?.factor ?? [])) *
        Math.max(0, 1 - decades * fields.ageing.upper)
      seriesTime +=
        fields.capacitance.upper *
        most *
        fields.seriesResistance.upper *
        fields.wornResistance.upper *
        mostWithin(cold, ambient)
    }
    return { capacitance: capacitances.upper, capacitances, leastCapacitance, seriesTime }
  } catch (error) {
    if (error instanceof InputError)
      return { capacitance: Number.POSITIVE_INFINITY, capacitances: undefined, leastCapacitance: 0, seriesTime: 0 }
    throw error
  }
}

type Curve = { readonly at: readonly number[]; readonly factor: readonly number[] } | undefined

/** Largest factor of the points within a range and of those next to it, 1 without a curve. */
function mostWithin(curve: Curve, { from, to }: Range): number {
  if (curve === undefined) return 1
  const { at, factor } = curve
  return Math.max(...factor.filter((_, i) => !(at[i + 1]! <= from) && !(at[i - 1]! >= to)))
}
