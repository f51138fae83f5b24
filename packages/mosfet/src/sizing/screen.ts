import { holdRow, type Margin } from '@ohmward/budget'
import { exact, type Spread } from '@ohmward/quantity'
import { switchOf } from '../chain/switch.js'
import type { ReadMosfet } from '../choice.js'
import { coldRows } from '../rows/index.js'
import { limitRow } from '../rows/row.js'

/** A choice that was read, with other resistors in its drive; `R_p` only where it has one. */
export function withResistors(read: ReadMosfet, R_g: Spread, R_p?: Spread): ReadMosfet {
  const spreads = { ...read.drive.spreads, R_g, ...(R_p && { R_p }) }
  return { ...read, drive: { ...read.drive, spreads } }
}

/**
 * Holds a few margins of a choice, by their ids, and returns the first that fails; `undefined` where all hold. The
 * junction is taken as warm as the air, which no check can be milder than.
 */
export function screen(read: ReadMosfet, ids: readonly string[]): Margin | undefined {
  const circuit = switchOf(read)
  for (const row of coldRows(read, circuit)) {
    if (!ids.includes(row.id)) continue
    const { margin } = holdRow(limitRow(row, circuit))
    if (margin.verdict !== 'holds') return margin
  }
  return undefined
}

/** What no resistor can mend: the transistor with the strongest drive that the search knows. */
export function hopeless(read: ReadMosfet): Margin | undefined {
  const strongest = withResistors(read, exact(1), read.drive.pull === 'none' ? undefined : exact(1e5))
  return screen(strongest, ['gate-drive', 'gate-maximum', 'drive-supply', 'drain-current'])
}
