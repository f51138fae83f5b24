import { format } from '@ohmward/quantity'
import { type Place, planOf } from './chain/plan.js'
import type { ReadChoice } from './choice.js'

/** A combination of preferred values. */
export interface Candidate {
  readonly R_ref: number
  readonly R_f: number
  readonly R_g: number
  /** What candidates are ordered by: the sense voltage at the smallest load. */
  readonly signal: number
  readonly read: ReadChoice
}

/**
 * A fault that a candidate has already with nominal parts at the ends of the conditions: no tolerance can mend it, so its
 * check must fail. Undefined where there is none.
 */
export function nominalFault(read: ReadChoice): { margin: string; reason: string } | undefined {
  const plan = planOf(read)
  const { from, to } = read.load
  const at = (R_x: number, rail: number) => {
    const columns: Record<string, Float64Array> = {}
    for (const [symbol, input] of Object.entries(plan.inputs)) {
      columns[symbol] = Float64Array.of(typeof input === 'number' ? input : (input as { nominal: number }).nominal)
    }
    columns['R_x'] = Float64Array.of(R_x)
    columns['V_rail'] = Float64Array.of(rail)
    const place = plan.row(columns, 0)
    const now: Place = { ...plan.reading(place) }
    return { now, zero: plan.zero && { ...plan.zero(place) } }
  }
  const fault = (margin: string, what: string, value: number, limit: number, unit: string) => ({
    margin,
    reason: `${what} ${format(value, unit, { digits: 3 })} against ${format(limit, unit, { digits: 3 })}, with nominal parts`,
  })
  const low = at(to, read.rail.from).now
  if (low['V_want']! > low['V_hi']!) return fault('headroom', 'output', low['V_want']!, low['V_hi']!, 'V')
  const high = at(from, read.rail.to).now
  const { currentLimit } = read.excitationSwitch
  if (high['I_t']! > currentLimit.lower)
    return fault('test-current', 'test current', high['I_t']!, currentLimit.lower, 'A')
  const mean = high['P_ref']! * read.timing.measuringDuty.nominal
  const rated = read.referencePart.ratedPower.lower / 2
  if (mean > rated) return fault('dissipation', 'dissipation', mean, rated, 'W')
  const { now: small, zero } = at(from, read.rail.from)
  if (small['V_want']! < small['V_ol']!) return fault('dead-zone', 'output', small['V_want']!, small['V_ol']!, 'V')
  if (zero) {
    const needed = zero['V_ol']! + (2 * zero['V_ref']!) / 2 ** read.converter.bits
    if (zero['V_want']! < needed)
      return fault('zero', 'zero reading without a larger pedestal', zero['V_want']!, needed, 'V')
  }
  return undefined
}
