import type { Board } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { rippleOfOne } from '../formulas/index.js'
import { pwmCurrents } from '../waveform/inside.js'
import { heatingOf } from './life.js'
import type { RailAnswer } from './rail.js'

/** Steady PWM in numbers. */
export interface PwmSummary {
  readonly ripple: number
  readonly mean: number
  readonly sourceRms: number
  readonly loadPower: number
  /** Of one part of each kind: ripple current, self-heating. */
  readonly capacitors: readonly { readonly name: string; readonly rms: number; readonly heating: number }[]
}

/** The steady state of a board under PWM; `null` where there is none. */
export function pwmSummary(read: ReadDecoupling, board: Board, { circuit, pwm }: RailAnswer): PwmSummary | null {
  if (!pwm) return null
  const { mean, sourceRms, loadPower, capacitorRms } = pwmCurrents(circuit, pwm)
  const capacitors = read.capacitors.map((part, k) => {
    const rms = rippleOfOne({ I_kind: capacitorRms[k]!, n_C: part.count })
    const { thermalResistance } = part.fields
    return { name: part.name, rms, heating: heatingOf(part, board, k, { R_thC: thermalResistance.nominal, I_C: rms }) }
  })
  return { ripple: pwm.ripple, mean, sourceRms, loadPower, capacitors }
}
