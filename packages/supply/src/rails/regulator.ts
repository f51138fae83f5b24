import { between, demandSpread, exact, format, type Spread } from '@ohmward/quantity'
import { valueAt } from '../curve/curve.js'
import { regulatedRail, regulatorDroop, regulatorLoss, regulatorRise, resistiveDropout } from '../formulas/regulator.js'
import { demandThrough } from '../given.js'
import { spreadOf } from '../spread-of.js'
import type { Regulator } from './fields.js'

/** What a regulator does at an input and a current. */
export interface Regulated {
  readonly kind: 'possible'
  /** Output, V. */
  readonly voltage: Spread
  /** Whether it regulates with every part within its tolerance, may leave its regulation, or surely has. */
  readonly state: 'regulates' | 'may drop out' | 'drops out' | 'below its lowest input'
  /** Lowest input at which it surely regulates, V. */
  readonly inputNeeded: number
  /** Loss in the regulator, W. */
  readonly loss: Spread
  /** Junction above the ambient, K. */
  readonly rise: Spread
}

/** A current that a regulator can't give, or of which its data sheet states nothing. */
export interface NotRegulated {
  readonly kind: 'impossible'
  readonly reason: string
}

/** Output of a linear regulator: its own voltage, or what dropout leaves of the input; its loss and its junction. @throws InputError where it is none, or a voltage or current no spread */
export function regulate(regulator: Regulator, raw: Spread, current: Spread): Regulated | NotRegulated {
  demandThrough(regulator, 'regulator')
  demandSpread(raw, 'raw')
  demandSpread(current, 'current')
  const { voltage: V_set, currentLimit, lowestInput, quiescentCurrent: I_q, thermalResistance } = regulator
  const amperes = format(current.upper, 'A', { digits: 3 })
  if (current.upper > currentLimit)
    return { kind: 'impossible', reason: `${amperes} asked of a regulator that gives ${format(currentLimit, 'A')}` }
  const dropout = dropoutOf(regulator, current)
  if (dropout === null) return { kind: 'impossible', reason: `no dropout is stated at ${amperes}` }
  const inputNeeded = Math.max(V_set.upper + dropout.upper, lowestInput)
  const out = (V_raw: number, set: number, V_do: number) => Math.max(0, regulatedRail({ V_set: set, V_raw, V_do }))
  const isTooLow = raw.lower < lowestInput
  // A data sheet states the largest dropout; the least may be none.
  const upper = out(raw.upper, V_set.upper, 0)
  const lower = isTooLow ? 0 : out(raw.lower, V_set.lower, dropout.upper)
  const nominal = raw.nominal < lowestInput ? lower : out(raw.nominal, V_set.nominal, dropout.nominal)
  const voltage = lower === upper ? exact(lower) : between(lower, upper, nominal)
  const loss = lossOf(raw, voltage, current, I_q)
  return {
    kind: 'possible',
    voltage,
    state: isTooLow ? 'below its lowest input' : stateOf(raw, V_set, inputNeeded),
    inputNeeded,
    loss,
    rise: spreadOf(regulatorRise, { P_reg: loss, R_threg: thermalResistance }),
  }
}

/** Droop of the output at a step of its current, V: an estimate. */
export function droopOf(regulator: Regulator, step: Spread): Spread {
  const { responseTime: t_resp, outputCapacitance: C_out, outputSeriesResistance: ESR_out } = regulator
  return spreadOf(regulatorDroop, { I_step: step, t_resp, C_out, ESR_out })
}

/** Largest dropout at a current, V; `null` beyond the last point that is stated. */
function dropoutOf({ dropout, dropoutResistance: R_do }: Regulator, current: Spread): Spread | null {
  if (R_do !== undefined) return spreadOf(resistiveDropout, { I_log: current, R_do })
  if (dropout === undefined || current.upper > dropout.x[dropout.x.length - 1]!) return null
  const [lower, nominal, upper] = [current.lower, current.nominal, current.upper].map((I) => valueAt(dropout, I))
  return lower === upper ? exact(upper!) : between(lower!, upper!, nominal!)
}

function stateOf(raw: Spread, V_set: Spread, needed: number): Regulated['state'] {
  if (raw.lower >= needed) return 'regulates'
  return raw.upper < V_set.lower ? 'drops out' : 'may drop out'
}

/** The loss is largest at the highest input and the lowest output, and never below what the regulator takes itself. */
function lossOf(raw: Spread, out: Spread, current: Spread, I_q: Spread): Spread {
  const at = (V_raw: number, V_log: number, I_log: number, I: number) =>
    regulatorLoss({ V_raw, V_log: Math.min(V_log, V_raw), I_log, I_q: I })
  const lower = at(raw.lower, out.upper, current.lower, I_q.lower)
  const upper = at(raw.upper, out.lower, current.upper, I_q.upper)
  const nominal = at(raw.nominal, out.nominal, current.nominal, I_q.nominal)
  return lower === upper ? exact(lower) : between(lower, upper, Math.min(Math.max(nominal, lower), upper))
}
