import { exact } from '@ohmward/quantity'
import { chargeAt, type ReadCell, type ReadSupply } from '@ohmward/supply'
import { railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { type SolvedSpan, solveOver } from '../supply/solve.js'
import { actsAt } from './acts.js'
import type { Board } from './corners.js'
import { isReadWithin } from './lag.js'
import { landingOf, noisy } from './landing.js'
import { lowestAfter } from './last-burst.js'

/** Down to where a supply is used. */
export interface Ended {
  /** The supply, its cells no lower than in use. */
  readonly supply: ReadSupply
  /** Charge at which the last cell comes to its end, the one with most voltage left; 1 for a port. */
  readonly emptyCharge: number
}

/**
 * The supply down to where its cells may come in use. Where the firmware watches them, that is the lowest that its stop leaves of them
 * on any board, after the last burst; where it isn't sure to read them in time, the cut-off unless it acts lower. Where nothing does,
 * they go on to where their protection acts at the latest, or to the voltage of damage.
 *
 * @param edges - delay and edge of the switch, at most: in the pulses of the last burst it is off late by so much
 */
export function endedSupply(design: ReadDesign, edges?: Board['edges']): Ended {
  const { supply } = design.parts
  const { source } = supply
  if (source.kind !== 'cell') return { supply, emptyCharge: 1 }
  const { lowestVoltage, damageVoltage, protectionVoltage, inSeries, openCircuitSpread } = source
  const least = Math.max(damageVoltage, protectionVoltage?.lower ?? 0)
  const to = (volts: number, end = volts): Ended => ({
    supply: { ...supply, source: { ...source, ...endedAt(source, end) } },
    emptyCharge: chargeAt(source, volts).lower,
  })
  const drained = to(least)
  if (!isWatched(design)) return drained
  const rest = lowestStop({ ...design, parts: { ...design.parts, ...drained } }, edges) / inSeries
  if (rest >= lowestVoltage) {
    // A stop that acts on cells so full is a fault of its own, and says little of where they end.
    const isEnd = isReadInTime(design) && chargeAt(source, rest).lower < 0.5
    return to(isEnd ? rest : lowestVoltage)
  }
  const end = Math.max(least, rest)
  // What cells in use may be off their curve is taken off this once more.
  return to(end, Math.min(lowestVoltage, end - openCircuitSpread.lower))
}

/**
 * Whether the firmware is known to read the cells before more is taken than is allowed for: while a burst goes on, or before each. Only
 * then its stop ends their use, and not the voltage that is stated as their lowest.
 */
const isReadInTime = (design: ReadDesign): boolean => isReadWithin(design) || design.bursts !== undefined

/** Whether the firmware watches the cells. */
export const isWatched = ({ monitor, controller }: ReadDesign): boolean =>
  monitor !== undefined && controller.internalReference !== undefined

/** Lowest voltage at rest of all cells in series at which the stop of a board acts, V. */
function lowestStop(design: ReadDesign, edges: Board['edges']): number {
  const { stop, reads, noise } = design.monitor!
  const { ambientCelsius: celsius, age, parts } = design
  const charge = { from: 1, to: parts.emptyCharge }
  const around = { celsius, age }
  // At rest the switch only lessens the charge of the last burst, and takes longest to solve.
  const solve = (span: typeof around & { readonly charge: typeof charge }): SolvedSpan =>
    reads === 'at rest' ? withoutSwitch(solveOver(design, span)) : solveOver(design, span)
  const acts = actsAt(design, stop, () => solve({ charge, ...around }).rails[railOf(design, 'converter')]!.rest.upper)
  // It is the lowest that is asked for: nothing is lacking then.
  const range = { design, charge, around, solve, ...(edges && { edges }) }
  const landing = landingOf(range, { acts: noisy(acts, noise), reads, lacking: 0 })
  return landing === null ? 0 : lowestAfter(design, landing).rest
}

const withoutSwitch = (solved: SolvedSpan): SolvedSpan => Object.create(solved, { switch: { value: exact(0) } })

/** How far the curve falls below its end over the whole charge, V: nothing, but that it must rise. */
const flat = 1e-6

/** A cell whose use ends at a voltage: those that would lie lower at a charge have been stopped before, and count with that voltage. */
function endedAt({ openCircuit }: ReadCell, lowestVoltage: number): Partial<ReadCell> {
  const { x, y } = openCircuit
  const above = y.findIndex((volts) => volts > lowestVoltage)
  if (above < 0) return { lowestVoltage }
  if (above === 0) return { lowestVoltage }
  const [x0, x1, y0, y1] = [x[above - 1]!, x[above]!, y[above - 1]!, y[above]!]
  const knee = x0 + ((x1 - x0) * (lowestVoltage - y0)) / (y1 - y0)
  return {
    lowestVoltage,
    openCircuit: {
      x: [...(knee > 0 ? [0] : []), knee, ...x.slice(above)],
      y: [...(knee > 0 ? [lowestVoltage - flat] : []), lowestVoltage, ...y.slice(above)],
    },
  }
}
