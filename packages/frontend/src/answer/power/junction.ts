import { mosfetAtWork } from '@ohmward/mosfet'
import { switchOn } from '../../supply/drive.js'
import type { Walk } from '../../walk/walk.js'
import { usableSpan } from './power.js'

/** Junction of the switch as it settles on the hottest board, °C; `null` where it finds no balance. */
export function junctionOf(walk: Walk): number | null {
  const { source, load, span, rails } = walk.over(usableSpan(walk)).solved
  const { lower: from, upper: to } = source.openCircuit
  const { worst } = mosfetAtWork({
    ...switchOn(walk.design, rails),
    load: { kind: 'resistance', value: load },
    openCircuit: { from, to },
    sourceResistance: source.resistance,
    ambient: span.celsius,
  })
  return worst.junction.kind === 'balance' ? worst.junction.T_j : null
}
