import { InputError } from '@ohmward/quantity'
import { edgesOf } from '../blocks/edges.js'
import { type Ended, endedSupply, isWatched } from '../monitor/end.js'
import { conductingIn, type Edges } from '../pulse/conducting.js'
import { solveOver } from '../supply/solve.js'
import type { ReadDesign } from './record.js'
import { warmed } from './warm-path.js'

/**
 * The supply with what its path gains by its own heating, down to where its cells come in use. A switch that is off late lengthens each
 * pulse, which warms the path and takes more in the last burst; how late it is is known of a supply only: of the one that is used as
 * the duty is told. What the later end makes of that again is a few parts in a million.
 */
export function usedSupply(design: ReadDesign): Ended {
  const { supply, pwm, load } = design
  const told = endedSupply(design)
  const isWarmed = design.parts.supply !== supply
  if (pwm.duty.to === 1 || !(isWarmed || isWatched(design))) return told
  const edges = latestOf({ ...design, parts: { ...design.parts, ...told } })
  const { to } = conductingIn(design, edges, pwm.duty.to)
  if (to === pwm.duty.to) return told
  const parts = { ...design.parts, supply: isWarmed ? warmed(design, load, to) : supply }
  return endedSupply({ ...design, parts }, () => edges)
}

/** Delay and edge of the switch, at most, wherever the cells come; undefined where its block refuses its supply there. */
function latestOf(design: ReadDesign): Edges | undefined {
  const { ambientCelsius: celsius, age, parts } = design
  try {
    return edgesOf(design, solveOver(design, { charge: { from: 1, to: parts.emptyCharge }, celsius, age }))
  } catch (error) {
    if (error instanceof InputError) return undefined
    throw error
  }
}
