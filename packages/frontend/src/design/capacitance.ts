import { decouplingRecord } from '@ohmward/decoupling'
import { InputError, readRecord, record } from '@ohmward/quantity'
import type { DesignDecoupling } from './record.js'

/** The kinds of capacitor alone: a list of them. */
const kinds = /*#__PURE__*/ (() => record({ capacitors: decouplingRecord.fields.capacitors }))()

/**
 * Most that the capacitors of the rail can have, F: as cold or warm as it gains them, without the bias and the wear that take
 * from it. What the block itself refuses to read is named there; no capacitor does more than one of no end.
 */
export function mostCapacitance({ capacitors }: DesignDecoupling): number {
  const listed = typeof capacitors === 'object' && capacitors !== null ? Object.values(capacitors) : []
  try {
    const each = readRecord(kinds, { capacitors: listed }, 'decoupling').capacitors.map(
      ({ count, capacitance, temperature }) => count * capacitance.upper * Math.max(1, ...(temperature?.factor ?? [])),
    )
    return each.reduce((sum, one) => sum + one, 0)
  } catch (error) {
    if (error instanceof InputError) return Number.POSITIVE_INFINITY
    throw error
  }
}
