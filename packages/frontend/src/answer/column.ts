import type { SolvedSpan } from '../walk/solve.js'

interface Ends {
  readonly lower: number
  readonly upper: number
}

/** Volts at one charge, at every temperature and age: cells at rest, and the rail with the load off and on. */
export interface Column {
  readonly openCircuit: number
  readonly rest: Ends
  readonly rail: Ends
}

const ends = ({ lower, upper }: Ends): Ends => ({ lower, upper })

/** What a span of one charge says of its volts. */
export const columnOf = ({ source, rest, rail }: SolvedSpan): Column => ({
  openCircuit: source.openCircuit.nominal,
  rest: ends(rest),
  rail: ends(rail),
})
