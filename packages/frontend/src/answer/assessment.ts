import type { Margin, Verdict } from '@ohmward/budget'
import type { Place, State } from '../supply/place.js'
import type { BlockName } from '../walk/stage.js'
import type { MonitorAnswer } from './monitor.js'
import type { PowerAnswer } from './power/power.js'
import type { Standby } from './standby.js'

/** What is answered of the design as a whole, at no single place. */
export type WholeBlock = 'power' | 'monitor' | 'standby'

/** A row over the whole walk. */
export interface RowOver {
  /** Names the row in the whole design: `divider/headroom`, with the state where a block is held in two. */
  readonly id: string
  readonly block: BlockName | WholeBlock
  readonly state: State
  /** The row at its worst over all places of the walk. */
  readonly margin: Margin
  /**
   * Where that is: full or empty, cold or warm, new or old; for a row that fails, where it fails first. `null` for a row of the whole design, which belongs to no single place.
   */
  readonly place: Place | null
  /** What a row of the whole design covers, in words: `in the drawer`. */
  readonly where?: string
  /**
   * Lowest charge of the walk down to which it held at every temperature and age; `null` where it fails on full cells. Below
   * it may fail at once.
   */
  readonly heldDownTo: number | null
}

/** What gives way first on the way from full to the cut-off. */
export interface FirstFailure {
  readonly id: string
  readonly block: BlockName
  readonly state: State
  readonly margin: Margin
  /** The highest charge at which it doesn't hold, and the temperature and age there. */
  readonly place: Place
  /** Cell voltage at rest there (the open circuit of nominal cells), V. */
  readonly openCircuit: number
  /** Main rail there: at its lowest, or at its highest where too much of it is what fails, V; and whether the load is on then. */
  readonly rail: number
  readonly isLoaded: boolean
  /** The other rows that give way at the same charge. */
  readonly together: readonly string[]
}

/** The answer for a whole design. */
export interface DesignAssessment {
  readonly name: string
  readonly verdict: Verdict
  /** What feeds it: cells, walked from full to the cut-off, or a port, which has no charge: its places differ in temperature and age alone. */
  readonly source: 'cell' | 'port'
  /** What holds, what gives way first and where, in words. */
  readonly summary: string
  /** Every row over the walk: those that fail first, the most serious first. */
  readonly rows: readonly RowOver[]
  /** `null` where everything holds. */
  readonly first: FirstFailure | null
  /**
   * The same without diagnostics, such as telling an open load from a reading: the board itself works down to here. `null` where nothing else gives way.
   */
  readonly firstOfBoard: FirstFailure | null
  /** Share of a full charge before anything gives way or the cut-off comes, and what was wanted. */
  readonly usable: { readonly share: number; readonly wanted: number; readonly verdict: Verdict }
  readonly power: PowerAnswer
  /** `null` where the design has no monitor or no internal reference. */
  readonly monitor: MonitorAnswer | null
  /** `null` for a port. */
  readonly standby: Standby | null
  /** Junction of the switch as it settles on the hottest board, °C; `null` where it runs away. Its row holds the one that a loss at the limit would heat. */
  readonly junction: number | null
  readonly assumptions: readonly string[]
  readonly cautions: readonly string[]
}
