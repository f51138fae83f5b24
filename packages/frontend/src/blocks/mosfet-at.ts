import type { MosfetChoice, MosfetConditions } from '@ohmward/mosfet'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { feltResistance } from '../pulse/pulse.js'
import { driveAt } from '../supply/drive.js'
import { drawOf } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import { ambient, type BlockAt } from './block-at.js'

type MosfetAt = BlockAt<MosfetChoice, MosfetConditions>

/**
 * The switch: it solves current and temperature itself from the voltage at rest, source and load. What is always on takes its
 * part of the lowest voltage; asleep the board has the open circuit. In pulses the capacitors of the rail feed it as well.
 */
export function mosfetAt(design: ReadDesign, solved: SolvedSpan): MosfetAt {
  const { span, source, load, rails } = solved
  const { mosfet, pwm } = design
  return {
    choice: { ...mosfet, drive: driveAt(design, rails, span.celsius), load: { resistance: load }, pwm },
    conditions: {
      openCircuit: { from: lowestBehind(design, solved), to: source.openCircuit.upper },
      sourceResistance: feltResistance(design, { source, load }),
      ...ambient(span),
    },
    at: {},
  }
}

/** Lowest voltage that the rest of a circuit sees behind the source's resistance: at rest, or what a limited current makes of it. */
function lowestBehind(design: ReadDesign, { rest, source, current, rail }: SolvedSpan): number {
  const { currentLimit, resistance } = source
  const most = current.upper + drawOf(design, mainRail).upper
  if (currentLimit === undefined || most < currentLimit.lower * (1 - 1e-9)) return rest.lower
  return Math.min(rest.lower, rail.lower + current.lower * resistance.lower)
}
