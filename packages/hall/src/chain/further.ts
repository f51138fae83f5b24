import { type AnyFormula, type FurtherTerm, furtherSum, type InputSet } from '@ohmward/budget'
import { plusMinus } from '@ohmward/quantity'
import * as f from '../formulas/index.js'
import type { ReadChoice } from '../read-choice.js'
import type { Workspace } from './follow.js'
import type { Any } from './put.js'

/** Further errors made ready: their inputs, the formulas that add them, and what puts their sums into a workspace. */
export interface Further {
  readonly inputs: InputSet
  readonly formulas: readonly AnyFormula[]
  readonly put: (y: Workspace, c: Any, i: number) => void
}

interface Sum {
  readonly symbol: 'V_add' | 'e_add'
  readonly terms: readonly FurtherTerm[]
  readonly formula: AnyFormula
}

/**
 * The errors that the choice names beside the sensor's own: voltages and currents shift the output, shares belong to the
 * sensitivity. A reading of the zero takes none of them away: nothing is known of them.
 */
export function furtherOf({ further = [], sensor }: Pick<ReadChoice, 'further' | 'sensor'>): Further {
  const inputs: Record<string, InputSet[string]> = {}
  const S_0 = sensor.sensitivity.nominal
  const referred = (kind: string, size: number) => (kind === 'current' ? f.furtherShift({ S_0, I_add: size }) : size)
  const shifts: FurtherTerm[] = []
  const shares: FurtherTerm[] = []
  further.forEach(({ kind, size, perKelvin }, n) => {
    const isShare = kind === 'share'
    const symbol = `${isShare ? 'e' : 'V'}_add${n + 1}`
    const drift = `${isShare ? 'TC' : 'D'}_add${n + 1}`
    inputs[symbol] = plusMinus(0, referred(kind, size))
    if (perKelvin > 0) inputs[drift] = plusMinus(0, referred(kind, perKelvin))
    ;(isShare ? shares : shifts).push(perKelvin > 0 ? { symbol, drift } : { symbol })
  })
  const shift = 'further errors, as output of the sensor'
  const sums: Sum[] = []
  if (shifts.length > 0) sums.push({ symbol: 'V_add', terms: shifts, formula: furtherSum('V_add', shift, 'V', shifts) })
  const share = 'further errors of the sensitivity'
  if (shares.length > 0) sums.push({ symbol: 'e_add', terms: shares, formula: furtherSum('e_add', share, '1', shares) })
  const given: Record<string, number> = {}
  return {
    inputs: {
      ...(shifts.length === 0 && { V_add: 0 }),
      ...(shares.length === 0 && { e_add: 0 }),
      ...inputs,
    },
    formulas: sums.map(({ formula }) => formula),
    put: (y, c, i) => {
      y.V_add = c.V_add ? c.V_add[i]! : 0
      y.e_add = c.e_add ? c.e_add[i]! : 0
      if (sums.length === 0) return
      given['T_d'] = c.T_d![i]!
      for (const { symbol, terms, formula } of sums) {
        for (const term of terms) {
          given[term.symbol] = c[term.symbol]![i]!
          if (term.drift !== undefined) given[term.drift] = c[term.drift]![i]!
        }
        y[symbol] = formula(given)
      }
    },
  }
}
