import { checkMosfet } from '@ohmward/mosfet'
import { mosfetAt } from '../blocks/mosfet-at.js'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { type Rails, railsOver } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'

/** What a probe should find, and its limits. */
export interface Bounds {
  readonly nominal: number
  readonly lower: number
  readonly upper: number
}

/** Every rail with the load on for long, as if that were its rest: no capacitor holds it up any more. */
export function railsSettled(design: ReadDesign, { rails, span }: SolvedSpan): Rails {
  const { sag } = rails[mainRail]!
  const all = railsOver(design, { rest: sag, sag }, span.celsius)
  return Object.fromEntries(
    Object.entries(all).map(([name, { rest, fault }]) => [name, { rest, sag: rest, measuring: rest, fault }]),
  )
}

/** Gate to source with the load on, V: a budget by itself is that at the lowest voltage of the source only. */
export function gateSettled(design: ReadDesign, solved: SolvedSpan): Bounds {
  const { choice, conditions } = mosfetAt(design, solved)
  const { nominal, lower, upper } = solved.rest
  const at = (V: number) => {
    const here = { ...conditions, openCircuit: { from: V, to: V }, sourceResistance: solved.source.resistance }
    return checkMosfet(choice, here, { simulation: false }).budgets.V_GS
  }
  const all = [lower, nominal, upper].map(at)
  return {
    nominal: all[1]!.linear.nominal,
    lower: Math.min(...all.map(({ extremes }) => extremes.lower)),
    upper: Math.max(...all.map(({ extremes }) => extremes.upper)),
  }
}
