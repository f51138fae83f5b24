import type { DividerChoice, DividerConditions } from '@ohmward/divider'
import { railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { behindAfter, leastLag, mostLag, railsInPause } from '../pulse/coming-back.js'
import { readAfter } from '../pulse/off-times.js'
import type { SolvedSpan } from '../supply/solve.js'
import { about, apartFrom, ends } from './apart.js'
import { ambient, type BlockAt } from './block-at.js'
import { untilOff } from './edges.js'
import type { Firmware } from './firmware.js'

type DividerAt = BlockAt<DividerChoice, DividerConditions>

/**
 * The measurement of the resistance: the load is off. Its rail is that of the converter; an amplifier on another one has a
 * supply of its own.
 */
export function dividerAt(design: ReadDesign, solved: SolvedSpan, firmware: Firmware): DividerAt {
  const timing = untilOff(design, solved, firmware.edges)
  const { rails, lags } = asRead(design, solved, firmware, timing.edge)
  const converter = railOf(design, 'converter')
  const apart = apartFrom(design, 'amplifier', rails)
  const driving = design.parts.excitation.rail
  const choice = {
    ...design.divider,
    timing,
    ...(apart && !('amplifierSupply' in design.divider) && { amplifierSupply: apart }),
    // A load at the rail hangs on the main one, whatever the converter lives on; the firmware takes one value for all of it.
    ...(driving !== converter && { excitation: about(rails[driving]!, firmware.excitation) }),
    ...(lags > leastLag && {
      further: [
        ...(design.divider.further ?? []),
        { name: 'amplifier behind a moving rail', share: Math.min(lags, mostLag) },
      ],
    }),
  }
  const conditions = { rail: ends(rails[converter]!), nominalRail: firmware.measuring, ...ambient(solved.span) }
  return { choice, conditions, at: {} }
}

/** Every rail while the resistance is read, the switch off after its edge, V. */
export const railsAsRead = (design: ReadDesign, solved: SolvedSpan, firmware: Firmware, edge: number) =>
  asRead(design, solved, firmware, edge).rails

/** The same, and how far the amplifier shows the rail that drives the test current from where it is, a share of it at most. */
function asRead(design: ReadDesign, solved: SolvedSpan, { ring }: Firmware, edge: number) {
  const { top, resistance } = ring(solved.source.resistance)
  const since = Math.max(0, readAfter(design) - edge)
  const { rails, returns } = railsInPause(design, solved, { since, ring: resistance, top, state: 'measuring' })
  const { rail: name, voltage, lag } = design.parts.excitation
  // A supply of its own stands.
  if (voltage !== undefined) return { rails, lags: 0 }
  const back = returns.get(name)!
  const { rest, sag } = solved.rails[name]!
  const isStraight = back.steps > 1 || solved.source.currentLimit !== undefined
  const late = behindAfter(since, back, lag, isStraight)
  const fall = late === 0 ? 0 : late * Math.max(0, rest.lower - sag.lower)
  return { rails, lags: (fall + resistance.behind * rest.upper) / rails[name]!.lower }
}
