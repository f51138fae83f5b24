import { type Margin, relativeSlack } from '@ohmward/budget'
import type { State } from '../../supply/place.js'
import type { SolvedSpan } from '../../supply/solve.js'
import type { BlockName } from '../../walk/stage.js'

/** Which row of which block a line of the map is. */
export interface RowNamed {
  readonly id: string
  readonly block: BlockName
  readonly state: State
  readonly name: string
  readonly unit: string
  readonly sense: Margin['sense']
}

interface Ends {
  readonly lower: number
  readonly upper: number
}

/** Volts over the discharge. */
export interface Columns {
  /** Charges from full to the cut-off. */
  readonly charges: readonly number[]
  /** Nominal cells at rest, V. */
  readonly openCircuit: readonly number[]
  /** The rail with the load off, and on, at every temperature and age there, V. */
  readonly rest: readonly Ends[]
  readonly rail: readonly Ends[]
}

/** Slack as a share of the limit; of a limit of next to nothing the largest share that a number holds. */
export const shareOf = (margin: Pick<Margin, 'slack' | 'limit' | 'worst'>): number =>
  Math.max(-Number.MAX_VALUE, Math.min(relativeSlack(margin), Number.MAX_VALUE))

const ends = ({ lower, upper }: Ends): Ends => ({ lower, upper })

/** What is shown of a span. */
export type SpanVolts = Pick<SolvedSpan, 'source'> & { readonly rest: Ends; readonly rail: Ends }

/** What the span of each charge says of its volts. */
export const columnsOf = (charges: readonly number[], spans: readonly SpanVolts[]): Columns => ({
  charges,
  openCircuit: spans.map(({ source }) => source.openCircuit.nominal),
  rest: spans.map(({ rest }) => ends(rest)),
  rail: spans.map(({ rail }) => ends(rail)),
})
