import { type AnyFormula, type FurtherTerm, furtherSum } from '@ohmward/budget'
import { plusMinus } from '@ohmward/quantity'
import type { ReadChoice } from '../choice.js'
import { furtherShift } from '../formulas/index.js'
import type { InputSet } from './inputs.js'
import type { Any } from './put.js'

/** Where further errors go: a voltage at the amplifier's input, a share of its output. */
interface Target {
  readonly T_d: number
  V_add: number
  e_add: number
}

/** Further errors made ready: their inputs, the formulas that add them, and what puts their sums into a workspace. */
export interface Further {
  readonly inputs: InputSet
  readonly formulas: readonly AnyFormula[]
  readonly put: (y: Target, c: Any, i: number) => void
}

interface Sum {
  readonly symbol: 'V_add' | 'e_add'
  readonly terms: readonly FurtherTerm[]
  readonly formula: AnyFormula
}

/** Symbol of the further error at a place of the list, from 0. */
export const furtherSymbol = (kind: string, n: number) => `${kind === 'share' ? 'e' : 'V'}_add${n + 1}`

/** Most that a current into the sense input flows through: the protection, and the load with all that is in line. */
function inputResistance({ topology, gainResistors, surroundings: s, load }: ReadChoice): number {
  if (topology === 'load at rail') return gainResistors.ground.upper
  return (
    s.protectionResistance.upper +
    load.to +
    s.leadResistance.upper +
    s.contactVariation.upper +
    s.switchInSpan.upper +
    s.sharedGround.upper
  )
}

/**
 * The errors that the choice names beside those of its parts: voltages and currents at the amplifier's input, shares of its
 * output. A calibration takes none of them away: nothing is known of them.
 *
 * @param tag - of a reading that has them by itself, beside the one of interest
 */
export function furtherOf(choice: ReadChoice, tag = ''): Further {
  const inputs: Record<string, InputSet[string]> = {}
  const R_in = inputResistance(choice)
  const referred = (kind: string, size: number) => (kind === 'current' ? furtherShift({ I_add: size, R_in }) : size)
  const shifts: FurtherTerm[] = []
  const shares: FurtherTerm[] = []
  const { further = [] } = choice
  further.forEach(({ kind, size, perKelvin }, n) => {
    const isShare = kind === 'share'
    const symbol = furtherSymbol(kind, n) + tag
    const drift = `${isShare ? 'TC' : 'D'}_add${n + 1}${tag}`
    inputs[symbol] = plusMinus(0, referred(kind, size))
    if (perKelvin > 0) inputs[drift] = plusMinus(0, referred(kind, perKelvin))
    ;(isShare ? shares : shifts).push(perKelvin > 0 ? { symbol, drift } : { symbol })
  })
  const sums: Sum[] = []
  const shift = 'further errors, as voltage at the input'
  if (shifts.length > 0) sums.push({ symbol: 'V_add', terms: shifts, formula: furtherSum('V_add', shift, 'V', shifts) })
  const share = 'further errors, as a share of the output'
  if (shares.length > 0) sums.push({ symbol: 'e_add', terms: shares, formula: furtherSum('e_add', share, '1', shares) })
  const given: Record<string, number> = {}
  return {
    inputs,
    formulas: sums.map(({ formula }) => formula),
    put: (y, c, i) => {
      if (sums.length === 0) return
      given['T_d'] = y.T_d
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
